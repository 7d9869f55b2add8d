import { expect, test } from "vitest";
import { reachable } from "../../server/compute/reachable";
import { type Carried, shrunk } from "../../server/compute/shrink";
import { supportOf } from "../../server/compute/support";
import { seat, tank } from "./holders";

const base = { mass: 600, moment: 1500 };
const cgOf = ({ amounts, moments }: Carried) =>
  moments.reduce((sum, it) => sum + it, base.moment) /
  amounts.reduce((sum, it) => sum + it, base.mass);
const aftOf = (limit: number) => (carried: Carried) => cgOf(carried) > limit;
const round = [10, 5, 1];

test("what is not needed is left out, the rest is rounded while the loading stays outside", () => {
  const holders = [seat(50, 113, 2), seat(0, 97.3, 3), seat(0, 61.7, 5)];
  const { vertices } = reachable({ base, holders, caps: [] });
  const aftmost = vertices.reduce((a, b) => (cgOf(b) > cgOf(a) ? b : a));
  expect(aftmost.amounts).toEqual([50, 97.3, 61.7]);

  const plain = shrunk(aftmost, { holders, caps: [] }, [round, round, round], aftOf(2.6));
  // 50 kg stays: the first seat is never empty
  expect(plain).toEqual({ amounts: [50, 0, 60], moments: [100, 0, 300] });
});

test("a finer figure serves where a coarse one is inside", () => {
  const holders = [seat(0, 61.7, 5)];
  const full = { amounts: [61.7], moments: [308.5] };
  const cg = (1500 + 60.5 * 5) / 660.5;
  expect(shrunk(full, { holders, caps: [] }, [round], aftOf(cg))!.amounts).toEqual([61]);
  // no round figure from 61.5 to 61.7
  const close = (1500 + 61.5 * 5) / 661.5;
  expect(shrunk(full, { holders, caps: [] }, [round], aftOf(close))!.amounts).toEqual([61.7]);
});

test("rounding never breaks a cap or a range", () => {
  const holders = [seat(0, 58, 5), seat(0, 58, 5)];
  const caps = [{ of: [0, 1], most: 97 }];
  const full = supportOf({ base, holders, caps }, 0, 1)!;
  const aft = aftOf((1500 + 96 * 5) / 696);
  const { amounts } = shrunk(full, { holders, caps }, [round, round], aft)!;
  expect(amounts).toEqual([58, 39]);
});

test("steps are in the unit of each holder", () => {
  const pound = 0.45359237;
  const holders = [seat(0, 250 * pound, 5), seat(0, 30, 5)];
  const full = supportOf({ base, holders, caps: [] }, 0, 1)!;
  const steps = [[10 * pound], [2.5]];
  const all = shrunk(full, { holders, caps: [] }, steps, it => it.amounts.every(x => x > 20))!;
  expect(all.amounts).toEqual([25 * (10 * pound), 30]);
});

test("a moment keeps its place between the curves", () => {
  const holders = [seat(0, 100, 2, 4)];
  const middle = { amounts: [97], moments: [97 * 3] };
  const plain = shrunk(middle, { holders, caps: [] }, [[50]], it => it.amounts[0]! > 40)!;
  expect(plain).toEqual({ amounts: [100], moments: [300] });
});

test("what only a straight line across a tank's bend reaches is no counterexample", () => {
  // forward tank full of bends: at 40 kg its moment is 120, the line across says 96
  const holders = [tank([0, 0], [40, 120], [100, 240])];
  const caps = [{ of: [0], most: 40 }];
  const { vertices, outer } = reachable({ base, holders, caps });
  const foremost = vertices.reduce((a, b) => (cgOf(b) < cgOf(a) ? b : a));
  expect([outer, foremost.amounts, foremost.moments]).toEqual([true, [40], [96]]);
  const ahead = (carried: Carried) => cgOf(carried) < 2.495;
  expect(ahead(foremost)).toBe(true);
  expect(shrunk(foremost, { holders, caps }, [[10]], ahead)).toBeUndefined();
});
