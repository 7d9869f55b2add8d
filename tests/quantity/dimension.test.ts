import fc from "fast-check";
import { expect, test } from "vitest";
import * as dim from "../../server/quantity/dimension";
import { bases, dimension, nameOf, over, power, times } from "../../server/quantity/dimension";

const exponents = fc.record(
  Object.fromEntries(bases.map(base => [base, fc.integer({ min: -4, max: 4 })])),
);
const anyDimension = exponents.map(dimension);

test("equal dimensions are the same object", () => {
  expect(times(dim.MASS, dim.LENGTH)).toBe(dim.MOMENT);
  expect(over(dim.MASS, dim.VOLUME)).toBe(dim.DENSITY);
  expect(power(dim.LENGTH, 3)).toBe(dim.VOLUME);
  expect(times(dim.FORCE, dim.SPEED)).toBe(dim.POWER);
  fc.assert(fc.property(exponents, it => dimension({ ...it }) === dimension(it)));
});

test("different dimensions are different objects", () => {
  fc.assert(
    fc.property(exponents, fc.constantFrom(...bases), (it, base) => {
      expect(dimension({ ...it, [base]: it[base]! + 1 })).not.toBe(dimension(it));
    }),
  );
});

test("times and over undo each other, in any order", () => {
  fc.assert(
    fc.property(anyDimension, anyDimension, (a, b) => {
      expect(over(times(a, b), b)).toBe(a);
      expect(times(over(a, b), b)).toBe(a);
      expect(times(a, b)).toBe(times(b, a));
      expect(over(a, a)).toBe(dim.PLAIN);
      expect(times(a, dim.PLAIN)).toBe(a);
    }),
  );
});

test("a power is so many times itself, a root undoes it", () => {
  fc.assert(
    fc.property(anyDimension, fc.integer({ min: 2, max: 6 }), (a, n) => {
      expect(power(a, n)).toBe(times(power(a, n - 1), a));
      expect(power(power(a, n), 1 / n)).toBe(a);
      expect(power(a, -1)).toBe(over(dim.PLAIN, a));
      expect(power(a, 0)).toBe(dim.PLAIN);
    }),
  );
  const third = power(dim.VOLUME, 1 / 9);
  expect(times(times(third, third), third)).toBe(dim.LENGTH);
});

test("the exponents can be read, the rarer ones as a text", () => {
  expect(dim.FORCE).toEqual({ mass: 1, length: 1, time: -2, angle: 0, current: 0, other: "" });
  expect(dimension({ temperature: -1, "luminous intensity": 2, bit: 1 }).other).toBe(
    "temperature^-1 luminous intensity^2 bit",
  );
});

test("names are an engineer's", () => {
  expect(nameOf(dim.PLAIN)).toBe("a plain number");
  expect(nameOf(dim.MASS)).toBe("a mass");
  expect(nameOf(dim.AREA)).toBe("an area");
  expect(nameOf(dim.DENSITY)).toBe("a density");
  expect(nameOf(dim.MOMENT)).toBe("a moment (mass × length)");
  expect(nameOf(dim.INERTIA)).toBe("a moment of inertia (mass × length²)");
  expect(nameOf(dim.FORCE)).toBe("a force");
  expect(nameOf(over(dim.MASS, dim.AREA))).toBe("a mass per area");
});

test("what has no name is spelt out", () => {
  expect(nameOf(power(dim.LENGTH, 4))).toBe("a quantity of length⁴");
  expect(nameOf(over(dim.AREA, dim.TIME))).toBe("a quantity of length² / time");
  expect(nameOf(power(dim.MASS, -1))).toBe("a quantity of 1 / mass");
  expect(nameOf(power(dim.LENGTH, 0.5))).toBe("a quantity of length^0.5");
});
