import { same } from "./compare";
import type { Unit } from "./units";

/**
 * A value (SI) in a unit: '1,112.4 lb', '0.84 lb', '14 ft^2', '18 %'.
 * Without `digits`: one decimal from 100 up, two from 1 up, three significant digits below.
 * With it: that many decimals at most. Zeros at the end are dropped, halves are rounded away
 * from zero as on paper. What is no number shows as '?'.
 */
export function show(value: number, unit: Unit, digits?: number): string {
  return withUnit(showNumber(value / unit.factor, digits), unit);
}

/** A plain figure under the same rule. */
export function showNumber(value: number, digits: number = usualDigits(value)): string {
  return Number.isFinite(value) ? figureOf(value, digits) : "?";
}

/**
 * Two values (SI) in a unit, with as few more digits as it takes to print them differently,
 * so that no message says '40 lb over its budget of 40 lb'. Equal ones (`same`) print alike, as
 * the second does: it is the one somebody wrote.
 */
export function closestShown(a: number, b: number, unit: Unit): [string, string] {
  if (same(a, b)) return [show(b, unit), show(b, unit)];

  const [left, right] = [a / unit.factor, b / unit.factor];
  let shown: [string, string] = [show(a, unit), show(b, unit)];
  let digits = Math.min(usualDigits(left), usualDigits(right));
  while (shown[0] === shown[1] && digits <= -exponentOf(left - right)) {
    digits++;
    shown = [show(a, unit, digits), show(b, unit, digits)];
  }
  return shown;
}

function withUnit(figure: string, unit: Unit): string {
  return unit.name === "" ? figure : `${figure} ${unit.name}`;
}

function usualDigits(value: number): number {
  const size = Math.abs(value);
  if (size >= 100) return 1;
  if (size >= 1) return 2;
  // Below a billionth lies the rounding of sums that should be zero, not a figure.
  return size < 1e-9 ? 2 : 2 - exponentOf(value);
}

/** That of the first significant digit. */
function exponentOf(value: number): number {
  return Number(value.toExponential().split("e")[1]);
}

function figureOf(value: number, digits: number): string {
  // A double of this size has no decimals.
  const decimals = Math.abs(value) < 1e15 ? digits : 0;
  const scaled = Math.abs(value) * 10 ** decimals;
  // 1.005 is kept a little below itself and a figure converted there and back may be: a half
  // that misses by less than any real figure would is still a half.
  const whole = BigInt(Math.round(scaled + Math.min(scaled * 1e-12, 1e-3)));
  const text = whole.toString().padStart(decimals + 1, "0");
  const point = text.length - decimals;

  const thousands = text.slice(0, point).replace(/\B(?=(\d{3})+$)/g, ",");
  const rest = text.slice(point).replace(/0+$/, "");
  return (value < 0 && whole > 0n ? "-" : "") + thousands + (rest && `.${rest}`);
}
