import { expect, test } from "vitest";
import type { Cap, Holder } from "../../server/compute/holders";
import { reachable } from "../../server/compute/reachable";
import { supportOf } from "../../server/compute/support";
import { seat, tank } from "./holders";

const empty = { mass: 600, moment: 1500 };
const pointsOf = (holders: readonly Holder[], caps: readonly Cap[] = [], base = empty) =>
  reachable({ base, holders, caps }).vertices.map(({ mass, moment }) => [mass, moment]);

test("without a load it is the empty aircraft", () => {
  expect(pointsOf([])).toEqual([[600, 1500]]);
});

test("a seat at one arm is a line, a seat that slides a triangle", () => {
  expect(pointsOf([seat(0, 100, 2)])).toEqual([
    [600, 1500],
    [700, 1700],
  ]);
  expect(pointsOf([seat(0, 100, 2, 3)])).toEqual([
    [600, 1500],
    [700, 1700],
    [700, 1800],
  ]);
});

test("a seat that must be taken has corners where it is lightest too", () => {
  expect(pointsOf([seat(50, 100, 2, 3)])).toEqual([
    [650, 1650],
    [650, 1600],
    [700, 1700],
    [700, 1800],
  ]);
});

test("a fixed load that slides is an upright line", () => {
  expect(pointsOf([seat(50, 50, 2, 3)])).toEqual([
    [650, 1600],
    [650, 1650],
  ]);
});

test("a fixed load at one arm is a point", () => {
  expect(pointsOf([seat(50, 50, 2)])).toEqual([[650, 1600]]);
});

test("many seats at one arm are one line", () => {
  const row = Array.from({ length: 40 }, (_, i) => seat(0, 10.1 + i / 7, 2.3));
  expect(pointsOf(row)).toHaveLength(2);
});

test("two seats: the forward one first along the bottom, the aft one first along the top", () => {
  expect(pointsOf([seat(0, 100, 1), seat(0, 50, 4)])).toEqual([
    [600, 1500],
    [700, 1600],
    [750, 1800],
    [650, 1700],
  ]);
});

test("a cap cuts off what is too heavy together", () => {
  const caps = [{ of: [0, 1], most: 120 }];
  const { vertices } = reachable({ base: empty, holders: [seat(0, 100, 1), seat(0, 50, 4)], caps });
  expect(vertices.map(({ mass, moment }) => [mass, moment])).toEqual([
    [600, 1500],
    [700, 1600],
    [720, 1680],
    [720, 1770],
    [650, 1700],
  ]);
  expect(vertices.map(it => it.amounts)).toEqual([
    [0, 0],
    [100, 0],
    [100, 20],
    [70, 50],
    [0, 50],
  ]);
  expect(vertices[2]!.moments).toEqual([100, 80]);
});

test("caps that overlap trade one for another", () => {
  // the middle one alone takes up both caps, the outer two take up one each
  const holders = [seat(0, 100, 1), seat(0, 100, 2), seat(0, 100, 3)];
  const caps = [
    { of: [0, 1], most: 100 },
    { of: [1, 2], most: 100 },
  ];
  expect(pointsOf(holders, caps, { mass: 0, moment: 0 })).toEqual([
    [0, 0],
    [100, 100],
    [200, 400],
    [100, 300],
  ]);
  expect(supportOf({ base: empty, holders, caps }, 1, 0)!.amounts).toEqual([100, 0, 100]);
});

test("caps that leave nothing to spare leave one point", () => {
  const holders = [seat(30, 100, 1), seat(20, 50, 4)];
  expect(pointsOf(holders, [{ of: [0, 1], most: 50 }])).toEqual([[650, 1610]]);
  const overlapping = [
    { of: [0, 1], most: 50 },
    { of: [1], most: 20 },
  ];
  expect(pointsOf(holders, overlapping)).toEqual([[650, 1610]]);
});

test("nothing is reached when the least amounts break a cap", () => {
  const loadings = {
    base: empty,
    holders: [seat(30, 100, 1), seat(20, 50, 4)],
    caps: [{ of: [0, 1], most: 49 }],
  };
  expect(reachable(loadings)).toEqual({ vertices: [], outer: false });
  expect(supportOf(loadings, 1, 0)).toBeUndefined();
});

test("a cap met by rounding only is kept", () => {
  const holders = [seat(0.1, 1, 1), seat(0.2, 1, 1)];
  expect(pointsOf(holders, [{ of: [0, 1], most: 0.3 }])).toHaveLength(1);
});

test("a tank's bends: its curve above, straight across below, and said to be an outer bound", () => {
  const { vertices, outer } = reachable({
    base: { mass: 0, moment: 0 },
    holders: [tank([0, 0], [40, 120], [100, 240])],
    caps: [],
  });
  expect(vertices.map(({ mass, moment }) => [mass, moment])).toEqual([
    [0, 0],
    [100, 240],
    [40, 120],
  ]);
  expect(outer).toBe(true);
});

test("curves that bend outwards, or not at all, are exact", () => {
  const straight = tank([0, 0], [40, 120], [100, 300]);
  const barrel: Holder = {
    lower: tank([0, 0], [50, 50], [100, 200]).lower,
    upper: tank([0, 0], [50, 150], [100, 200]).upper,
  };
  expect(reachable({ base: empty, holders: [straight, barrel], caps: [] }).outer).toBe(false);
});

test("arms ahead of the datum count backwards", () => {
  expect(pointsOf([seat(0, 100, -2, 1)], [], { mass: 0, moment: 0 })).toEqual([
    [0, 0],
    [100, -200],
    [100, 100],
  ]);
});
