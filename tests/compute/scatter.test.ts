import { expect, test } from "vitest";
import { c4, deviationOf, errorOfDeviation, meanOf, scatterOf } from "../../server/compute/scatter";

// NIST Statistical Reference Datasets, univariate summary statistics, NumAcc1 to NumAcc4, from memory:
// the data follow a rule, and the certified mean and standard deviation are exact.
const alternating = (first: number, low: number, high: number) =>
  [first].concat(...Array.from({ length: 500 }, () => [low, high]));
test.each([
  ["NumAcc1", [10000001, 10000003, 10000002], 10000002, 1],
  ["NumAcc2", alternating(1.2, 1.1, 1.3), 1.2, 0.1],
  ["NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1],
  ["NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1],
])("mean and standard deviation of %s", (_, data, mean, deviation) => {
  expect(meanOf(data)).toBeCloseTo(mean, 8);
  // the data themselves are rounded to 2 in 10^9 of their steps of 0.1
  expect(deviationOf(data)).toBeCloseTo(deviation, 8);
});

// From memory: factors for control charts, as in ASTM MNL 7 and any table of them.
test.each([
  [2, 0.7979],
  [3, 0.8862],
  [5, 0.94],
  [10, 0.9727],
  [25, 0.9896],
])("c4 of %i", (n, factor) => {
  expect(c4(n)).toBeCloseTo(factor, 4);
});

// From memory: JCGM 100:2008, table E.1, the relative standard deviation of a standard deviation.
test.each([
  [2, 76],
  [3, 52],
  [4, 42],
  [5, 36],
  [10, 24],
  [20, 16],
  [30, 13],
  [50, 10],
])("how far off a standard deviation of %i values is", (n, percent) => {
  expect(Math.round(100 * errorOfDeviation(n))).toBe(percent);
});

test("four parts against their calculation, by hand", () => {
  // ratios 1.1, 1.0, 1.05, 1.05: mean 1.05, squares 0.0025 + 0.0025 over 3
  const found = scatterOf([
    { expected: 10, actual: 11 },
    { expected: 20, actual: 20 },
    { expected: 40, actual: 42 },
    { expected: 20, actual: 21 },
  ])!;
  expect(found.bias).toBeCloseTo(0.05, 12);
  expect(found.deviation).toBeCloseTo(Math.sqrt(0.005 / 3), 12);
  expect(found.unbiased).toBeCloseTo(Math.sqrt(0.005 / 3) / 0.921318, 6);
  // 94 of 90; off 11 - 10 R = 5/9, 20 - 20 R = -8/9, 42 - 40 R = 2/9, 21 - 20 R = 1/9: squares 94/81
  expect(found.weighted).toBeCloseTo(4 / 90, 12);
  expect(found.weightedError).toBeCloseTo(Math.sqrt(((4 / 3) * 94) / 81) / 90, 12);
});

test("one part has a bias and no scatter", () => {
  expect(scatterOf([{ expected: 2, actual: 3 }])).toEqual({
    ...{ count: 1, bias: 0.5, weighted: 0.5 },
    ...{ weightedError: undefined, deviation: undefined, unbiased: undefined },
  });
  expect(scatterOf([])).toBeUndefined();
});
