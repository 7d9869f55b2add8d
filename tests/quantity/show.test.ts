import fc from "fast-check";
import { expect, test } from "vitest";
import { same } from "../../server/quantity/compare";
import { closestShown, show, showNumber } from "../../server/quantity/show";
import { unitOf, unitTable } from "../../server/quantity/units";

const lb = unitTable.get("lb")!;
const units = fc.constantFrom(...unitTable.values());
const figures = fc.double({ noNaN: true, noDefaultInfinity: true });
/** Decimals as people type them: 0.0122, 42.5, 1650. */
const typed = fc
  .tuple(fc.integer({ min: 100, max: 999 }), fc.integer({ min: -5, max: 0 }))
  .map(([digits, exponent]) => Number(`${digits}e${exponent}`));

test.for([
  [40, "40 lb"],
  [42.5, "42.5 lb"],
  [2.46, "2.46 lb"],
  [9.999, "10 lb"],
  [99.994, "99.99 lb"],
  [171.2, "171.2 lb"],
  [171.25, "171.3 lb"],
  [1112.4, "1,112.4 lb"],
  [1234567.89, "1,234,567.9 lb"],
  [999.96, "1,000 lb"],
  [0.84, "0.84 lb"],
  [0.0122, "0.0122 lb"],
  [0.004, "0.004 lb"],
  [0.98765, "0.988 lb"],
  [0, "0 lb"],
  [-0, "0 lb"],
  [-2.5, "-2.5 lb"],
  [-1112.4, "-1,112.4 lb"],
] as const)("%d lb", ([figure, shown]) => {
  expect(show(figure * lb.factor, lb)).toBe(shown);
});

test("halves go away from zero, though their double lies a little below", () => {
  expect((1.005).toFixed(2)).toBe("1.00");
  expect(showNumber(1.005)).toBe("1.01");
  expect(showNumber(-1.005)).toBe("-1.01");
  expect(show(2.675 * lb.factor, lb)).toBe("2.68 lb");
});

test("the rounding of a sum that should be zero is not shown", () => {
  expect(showNumber(0.1 + 0.2 - 0.3)).toBe("0");
  expect(showNumber(-5.6e-17)).toBe("0");
});

test("any unit stands behind a space", () => {
  const area = unitOf([{ name: "ft", power: 2 }]);
  expect("unknown" in area ? area : show(14 * 0.3048 ** 2, area)).toBe("14 ft^2");
  expect(show(0.18, unitTable.get("%")!)).toBe("18 %");
  expect(show(-4, { ...unitTable.get("%")!, name: "", factor: 1 })).toBe("-4");
});

test("more or fewer digits on request", () => {
  expect(show(126.4239 * 0.0254, unitTable.get("in")!, 2)).toBe("126.42 in");
  expect(showNumber(126.5, 0)).toBe("127");
  expect(showNumber(0.004, 2)).toBe("0");
  expect(showNumber(-0.004, 2)).toBe("0");
  expect(showNumber(126.4, 3)).toBe("126.4");
});

test("what is no number says so", () => {
  expect(show(Number.NaN, lb)).toBe("? lb");
  expect(showNumber(Number.NEGATIVE_INFINITY)).toBe("?");
});

test("a typed figure prints as typed, whatever unit it went through", () => {
  fc.assert(
    fc.property(typed, units, (figure, unit) => {
      expect(show(figure * unit.factor, unit)).toBe(`${figure} ${unit.name}`);
    }),
  );
});

test("a figure is a figure: no -0, NaN, exponent or zero at the end of decimals", () => {
  const digits = fc.option(fc.integer({ min: 0, max: 12 }), { nil: undefined });
  fc.assert(
    fc.property(figures, digits, (value, digits) => {
      const shown = showNumber(value, digits);
      expect(shown).toMatch(/^-?\d{1,3}(,\d{3})*(\.\d*[1-9])?$/);
      expect(shown).not.toBe("-0");
    }),
  );
});

test("what is shown is near: half of the last digit that may be shown", () => {
  const sensible = fc.double({ noNaN: true, min: -1e6, max: 1e6 });
  fc.assert(
    fc.property(sensible, fc.integer({ min: 0, max: 6 }), (value, digits) => {
      const shown = Number(showNumber(value, digits).replaceAll(",", ""));
      expect(Math.abs(shown - value)).toBeLessThanOrEqual(0.5001 * 10 ** -digits);
    }),
  );
});

test("unequal values never print alike", () => {
  expect(closestShown(40.001 * lb.factor, 40 * lb.factor, lb)).toEqual(["40.001 lb", "40 lb"]);
  expect(closestShown(42.5 * lb.factor, 40 * lb.factor, lb)).toEqual(["42.5 lb", "40 lb"]);
  expect(closestShown(1650.04 * lb.factor, 1650 * lb.factor, lb)).toEqual([
    "1,650.04 lb",
    "1,650 lb",
  ]);

  const magnitudes = fc.double({ noNaN: true, min: 1e-12, max: 1e12 });
  const pairs = fc.oneof(
    fc.tuple(magnitudes, magnitudes),
    fc.tuple(magnitudes, fc.double({ min: 1.1e-9, max: 1e-3, noNaN: true })).map(([a, by]) => {
      return [a, a * (1 + by)] as [number, number];
    }),
    fc.tuple(magnitudes, fc.constantFrom(0, -1)),
  );
  fc.assert(
    fc.property(pairs, units, ([a, b], unit) => {
      fc.pre(!same(a, b));
      const [left, right] = closestShown(a, b, unit);
      expect(left).not.toBe(right);
    }),
  );
});

test("equal values always print alike", () => {
  expect(closestShown((0.1 + 0.2) * lb.factor, 0.3 * lb.factor, lb)).toEqual(["0.3 lb", "0.3 lb"]);
  // On either side of a half, closer than anyone could tell.
  expect(closestShown(1.0049999999, 1.005, { ...lb, factor: 1 })).toEqual(["1.01 lb", "1.01 lb"]);
});
