import fc from "fast-check";
import { expect, test } from "vitest";
import { same } from "../../server/quantity/compare";
import * as dim from "../../server/quantity/dimension";
import {
  divide,
  minus,
  multiply,
  negate,
  plain,
  plus,
  quantity,
  raise,
} from "../../server/quantity/quantity";
import { unitTable } from "../../server/quantity/units";

const unit = (name: string) => unitTable.get(name)!;
const [lb, kg, inch, percent] = ["lb", "kg", "in", "%"].map(unit) as [U, U, U, U];
type U = ReturnType<typeof unit>;

test("there and back through any unit", () => {
  const units = fc.constantFrom(...unitTable.values());
  const figures = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 });
  fc.assert(
    fc.property(units, figures, (it, figure) => {
      const back = quantity(figure, it).value / it.factor;
      expect(Math.abs(back - figure)).toBeLessThanOrEqual(4e-16 * Math.abs(figure) + 1e-300);
    }),
  );
});

test("sums of one dimension keep the left one's unit", () => {
  expect(plus(quantity(2, lb), quantity(1, kg))).toEqual({
    value: 2 * 0.45359237 + 1,
    dimension: dim.MASS,
    unit: lb,
  });
  expect(minus(quantity(2, kg), quantity(1, lb))?.unit).toBe(kg);
  expect(plus({ value: 1, dimension: dim.MASS }, quantity(1, lb))?.unit).toBe(lb);
});

test("inches and pounds do not add", () => {
  expect(plus(quantity(1, inch), quantity(1, lb))).toBeUndefined();
  expect(minus(quantity(1, inch), plain(1))).toBeUndefined();
});

test("plain multiples keep the unit", () => {
  expect(multiply(quantity(3, lb), plain(2))).toEqual(quantity(6, lb));
  expect(multiply(plain(2), quantity(3, lb))).toEqual(quantity(6, lb));
  expect(multiply(quantity(18, percent), quantity(50, lb)).unit).toBe(lb);
  expect(multiply(quantity(50, lb), quantity(18, percent)).unit).toBe(lb);
  expect(divide(quantity(3, lb), plain(2))).toEqual(quantity(1.5, lb));
  expect(negate(quantity(3, lb))).toEqual(quantity(-3, lb));
});

test("other products and quotients have a dimension of their own and no unit", () => {
  const moment = multiply(quantity(10, lb), quantity(70, inch));
  expect(moment.dimension).toBe(dim.MOMENT);
  expect(moment).not.toHaveProperty("unit");
  expect(divide(moment, quantity(10, lb))).toEqual({
    value: expect.closeTo(70 * 0.0254, 12),
    dimension: dim.LENGTH,
  });
  expect(divide(quantity(3, lb), quantity(3, lb))).toEqual(plain(1));
  expect(divide(plain(1), quantity(1, inch)).dimension).toBe(dim.power(dim.LENGTH, -1));
});

test("percents stay percents among themselves only", () => {
  expect(plus(quantity(18, percent), quantity(2, percent))?.unit).toBe(percent);
  expect(plus(plain(1), quantity(18, percent))).toEqual(plain(1.18));
  expect(multiply(plain(2), quantity(18, percent)).unit).toBe(percent);
});

test("powers and roots", () => {
  expect(raise(quantity(3, kg), 1)).toEqual(quantity(3, kg));
  expect(raise(quantity(3, unit("m")), 2)).toEqual({ value: 9, dimension: dim.AREA });
  expect(raise({ value: 9, dimension: dim.AREA }, 0.5)).toEqual({
    value: 3,
    dimension: dim.LENGTH,
  });
});

test("what cannot be computed is told by its value", () => {
  expect(divide(plain(1), plain(0)).value).toBe(Number.POSITIVE_INFINITY);
  expect(raise(plain(-1), 0.5).value).toBeNaN();
});

test("adding and taking away again changes nothing that counts", () => {
  const masses = fc.double({ noNaN: true, min: 1, max: 1e6 }).map(it => quantity(it, lb));
  fc.assert(
    fc.property(masses, masses, (a, b) => {
      expect(same(minus(plus(a, b)!, b)!.value, a.value)).toBe(true);
    }),
  );
});
