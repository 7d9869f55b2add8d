import { type Dimension, over, PLAIN, power, times } from "./dimension";
import type { Unit } from "./units";

export interface Quantity {
  /** In kg, m, s, rad, A and their products. */
  readonly value: number;
  readonly dimension: Dimension;
  /** The author's, for showing; sums and plain multiples keep it, other products have none. */
  readonly unit?: Unit;
}

/** So many of a unit: `quantity(12.5, lb)`. */
export function quantity(figure: number, unit: Unit): Quantity {
  return { value: figure * unit.factor, dimension: unit.dimension, unit };
}

export function plain(value: number): Quantity {
  return { value, dimension: PLAIN };
}

/** Undefined where the dimensions differ. The unit is the left one's, if it has any. */
export function plus(a: Quantity, b: Quantity): Quantity | undefined {
  return a.dimension === b.dimension
    ? of(a.value + b.value, a.dimension, unitOfSum(a, b))
    : undefined;
}

/** Undefined where the dimensions differ. The unit is the left one's, if it has any. */
export function minus(a: Quantity, b: Quantity): Quantity | undefined {
  return a.dimension === b.dimension
    ? of(a.value - b.value, a.dimension, unitOfSum(a, b))
    : undefined;
}

export function multiply(a: Quantity, b: Quantity): Quantity {
  const unit = unitIfScaled(a, b) ?? unitIfScaled(b, a);
  return of(a.value * b.value, times(a.dimension, b.dimension), unit);
}

/** A division by zero gives an infinite or undefined (NaN) value: the caller says what is wrong. */
export function divide(a: Quantity, b: Quantity): Quantity {
  return of(a.value / b.value, over(a.dimension, b.dimension), unitIfScaled(a, b));
}

/** To a plain power. An even root of a negative value is NaN: the caller says what is wrong. */
export function raise(q: Quantity, n: number): Quantity {
  return n === 1 ? q : of(q.value ** n, power(q.dimension, n), undefined);
}

export function negate(q: Quantity): Quantity {
  return of(-q.value, q.dimension, q.unit);
}

function of(value: number, dimension: Dimension, unit: Unit | undefined): Quantity {
  return unit === undefined ? { value, dimension } : { value, dimension, unit };
}

// `1 + 18 %` is better read as 1.18 than as 118 %, so a plain sum is in percent only if both are.
function unitOfSum(a: Quantity, b: Quantity): Unit | undefined {
  if (a.dimension === PLAIN && (a.unit === undefined || b.unit === undefined)) return undefined;
  return a.unit ?? b.unit;
}

function unitIfScaled(scaled: Quantity, by: Quantity): Unit | undefined {
  return by.dimension === PLAIN ? scaled.unit : undefined;
}
