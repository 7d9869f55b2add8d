import { expect, test } from "vitest";
import { leavingsOf, type Sums } from "../../server/compute/stretch";
import { envelope, sums } from "./envelopes";

/** What leaves, as `code first worst by`: shares of the stretch, m or kg. */
function leaves(from: Sums, to: Sums, rows: string, kind: "after" | "zero_fuel" = "after") {
  return leavingsOf(from, to, envelope(rows), kind).map(
    ({ code, first, worst, breach }) =>
      [code, ...[first, worst, breach.by].map(it => Number(it.toFixed(9)))] as const,
  );
}

test("a notch that a burn crosses only midway", () => {
  const rows = "cg 800 kg: FS 1 .. 2; cg 900 kg: FS 1 .. 1.5; cg 1000 kg: FS 1 .. 2";
  // The CG stays at 1.8. Above 900 kg the limit is 1.5 + 0.005 (W - 900): 1.8 at 960 kg, a fifth of
  // the way from 1000 to 800 kg. It is least at 900 kg, half-way: 0.3 m aft.
  expect(leaves(sums(1000, 1.8), sums(800, 1.8), rows)).toEqual([["cg-aft", 0.2, 0.5, 0.3]]);
  // 1.5 is on the line at 900 kg, and on the line is inside
  expect(leaves(sums(1000, 1.5), sums(800, 1.5), rows)).toEqual([]);
});

test("between two rows the CG may bulge over a limit that holds at both ends", () => {
  // 810 kg at FS 1 and up to 290 kg at FS 2: CG = 2 - 810 / W. The limit is 0.19 + W / 1000.
  // They meet where W² - 1810 W + 810000 = 0: at 1000 and at 810 kg. Farthest apart where
  // 810 / W² = 1 / 1000, at 900 kg: 1.1 against 1.09.
  const rows = "cg 800 kg: FS 0 .. 0.99; cg 1100 kg: FS 0 .. 1.29";
  const [full, dry] = [sums(1100, 2 - 810 / 1100), sums(810, 1)];
  expect(leaves(full, dry, rows)).toEqual([
    ["cg-aft", Number((100 / 290).toFixed(9)), Number((200 / 290).toFixed(9)), 0.01],
  ]);
});

test("an end left open has no corner there", () => {
  const rows = "cg 800 kg: FS 1 .. 2; cg 900 kg: FS 1.2 ..; cg 1000 kg: FS 1 .. 1.5";
  // aft from 2.0 at 800 kg straight to 1.5 at 1000 kg: 1.5 at the start, 1.8 passes at 880 kg
  expect(leaves(sums(1000, 1.8), sums(800, 1.8), rows)).toEqual([["cg-aft", 0, 0, 0.3]]);
  expect(leaves(sums(800, 1.8), sums(1000, 1.8), rows)).toEqual([["cg-aft", 0.4, 1, 0.3]]);
  // forward 1.0, 1.2 at 900 kg, 1.0: FS 1.1 is passed at 950 kg
  expect(leaves(sums(1000, 1.1), sums(800, 1.1), rows)).toEqual([["cg-forward", 0.25, 0.5, 0.1]]);
});

test("at a step the wider row counts at its weight, and each on its own side", () => {
  const rows =
    "cg 800 kg: FS 1 .. 2; cg 900 kg: FS 1 .. 2; cg 900 kg: FS 1 .. 1.5; cg 1000 kg: FS 1 .. 1.5";
  expect(leaves(sums(900, 1.8), sums(800, 1.8), rows)).toEqual([]);
  // from the step on, half-way from 800 to 1000 kg, it is 0.3 m outside
  expect(leaves(sums(800, 1.8), sums(1000, 1.8), rows)).toEqual([["cg-aft", 0.5, 0.5, 0.3]]);
  // an edge along the step, of one weight
  expect(leaves(sums(900, 1.4), sums(900, 1.9), rows)).toEqual([]);
  // 0.4 m of the way from 1.7 to 2.1 is 3/4 of it: FS 2
  expect(leaves(sums(900, 1.7), sums(900, 2.1), rows)).toEqual([["cg-aft", 0.75, 1, 0.1]]);
});

test("lateral rows by station", () => {
  // right limit 0.3 - 0.1 FS, so moments meet where M = 0.3 W - 0.1 S
  const rows = "lateral FS 1: BL -0.2 .. 0.2; lateral FS 2: BL -0.1 .. 0.1";
  // at first M = 100 against 300 - 150, 50 less; at last M = 108 against 270 - 180, 18 more
  expect(leaves(sums(1000, 1.5, 0.1), sums(900, 2, 0.12), rows)).toEqual([
    ["cg-lateral", Number((50 / 68).toFixed(9)), 1, 0.02],
  ]);
});

test("lateral rows by weight, on the left", () => {
  // left limit -0.3 at 900 kg, -0.2 at 1000 kg: -0.25 is passed at 950 kg
  const rows = "lateral 900 kg: BL -0.3 .. 0.3; lateral 1000 kg: BL -0.2 .. 0.3";
  expect(leaves(sums(900, 1, -0.25), sums(1000, 1, -0.25), rows)).toEqual([
    ["cg-lateral", 0.5, 1, 0.05],
  ]);
});

test("limits in percent of the chord", () => {
  // 10 % to 30 % of a chord from FS 2 to 3: FS 2.1 to 2.3. 1000 kg at 2.25 less 100 kg at FS 1:
  // 2250 - m = 2.3 (1000 - m) gives m = 50 / 1.3. At last 2150 / 900 - 2.3 = 8 / 90.
  const rows = "cg 800 kg: 10 %MAC .. 30 %MAC; cg 1000 kg: 10 %MAC .. 30 %MAC";
  expect(leaves(sums(1000, 2.25), sums(900, 2150 / 900), rows)).toEqual([
    ["cg-aft", Number((50 / 1.3 / 100).toFixed(9)), 1, Number((8 / 90).toFixed(9))],
  ]);
});

test("the lightest row, the heaviest row and the takeoff weight", () => {
  const rows = "takeoff 950 kg; cg 850 kg: FS 1 .. 2; cg 1000 kg: FS 1 .. 2";
  // 150 of 200 kg down to the lightest row; no CG is spoken of below it
  expect(leaves(sums(1000, 1.5), sums(800, 2.5), rows)).toEqual([
    ["above-weight-limit", 0, 0, 50],
    ["below-weight-limit", 0.75, 1, 50],
    // S = 1500 + 500 t = 2 W = 2000 - 400 t at t = 5/9; at 850 kg S = 1875 of 1700: 175 / 850
    ["cg-aft", Number((5 / 9).toFixed(9)), 0.75, Number((175 / 850).toFixed(9))],
  ]);
  // at zero fuel a light aircraft is judged by the lightest row
  expect(leaves(sums(850, 1.5), sums(800, 2.5), rows, "zero_fuel")).toEqual([
    // S = 1275 + 725 t = 2 W = 1700 - 100 t
    ["cg-aft", Number((425 / 825).toFixed(9)), 1, 0.5],
  ]);
});

test("a CG is of the mass that has a place; of none, nothing is said", () => {
  const rows = "cg 800 kg: FS 1 .. 2; cg 1000 kg: FS 1 .. 2";
  const unplaced = { fsMoment: 0, fsMass: 0, blMoment: 0, blMass: 0 };
  expect(leaves({ mass: 1000, ...unplaced }, { mass: 900, ...unplaced }, rows)).toEqual([]);
  // the fuel has no arm: 600 kg at FS 2.5 stay where they are
  const dry = { fsMoment: 1500, fsMass: 600, blMoment: 0, blMass: 0 };
  expect(leaves({ mass: 1000, ...dry }, { mass: 900, ...dry }, rows)).toEqual([
    ["cg-aft", 0, 0, 0.5],
  ]);
});
