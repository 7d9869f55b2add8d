import fc from "fast-check";
import { expect, test } from "vitest";
import { exceeds, same } from "../../server/quantity/compare";

test("three times 0.1 lb is within 0.3 lb", () => {
  expect(0.1 + 0.1 + 0.1 > 0.3).toBe(true);
  expect(exceeds(0.1 + 0.1 + 0.1, 0.3)).toBe(false);
  expect(same(0.1 + 0.1 + 0.1, 0.3)).toBe(true);
});

test("a billionth is the limit", () => {
  expect(exceeds(1000 + 2e-6, 1000)).toBe(true);
  expect(exceeds(1000 + 5e-7, 1000)).toBe(false);
  expect(exceeds(1e-9, 0)).toBe(true);
});

test("what is unknown or endless exceeds nothing by mistake", () => {
  expect(exceeds(Number.NaN, 1)).toBe(false);
  expect(exceeds(1, Number.NaN)).toBe(false);
  expect(same(Number.NaN, Number.NaN)).toBe(false);
  expect(exceeds(Number.POSITIVE_INFINITY, 5)).toBe(true);
  expect(exceeds(5, Number.POSITIVE_INFINITY)).toBe(false);
  expect(same(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY)).toBe(true);
});

test("of two figures exactly one holds: above, below, the same", () => {
  const near = fc.double({ noNaN: true }).chain(a =>
    fc.tuple(
      fc.constant(a),
      fc.oneof(
        fc.double({ noNaN: true }),
        fc.double({ min: -3e-9, max: 3e-9, noNaN: true }).map(it => a * (1 + it)),
      ),
    ),
  );
  fc.assert(
    fc.property(near, ([a, b]) => {
      expect([exceeds(a, b), exceeds(b, a), same(a, b)].filter(Boolean)).toHaveLength(1);
      expect(same(a, b)).toBe(same(b, a));
    }),
  );
});
