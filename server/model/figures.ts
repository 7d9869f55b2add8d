import type { Expr } from "../../grammar/tree";
import { type Dimension, LENGTH, MASS, nameOf, PLAIN } from "../quantity/dimension";
import type { Quantity } from "../quantity/quantity";
import type { Unit } from "../quantity/units";
import { evaluate, type Setting, textOf } from "./evaluate";

/** An expression's value where one dimension is wanted; a fault and undefined where it is another. */
export function figure(
  expr: Expr | undefined,
  dimension: Dimension,
  what: string,
  setting: Setting,
): Quantity | undefined {
  if (expr === undefined) return undefined;
  const value = evaluate(expr, setting);
  if (value === undefined || value.dimension === dimension) return value;
  if (value.dimension === PLAIN) setting.report("unit-missing", expr, `${what} needs its unit`);
  else if (value.dimension === MASS && dimension === PLAIN)
    setting.report("wrong-dimension", expr, gram(what));
  else
    setting.report(
      "wrong-dimension",
      expr,
      `${what} is ${nameOf(dimension)}, not ${nameOf(value.dimension)}`,
    );
  return undefined;
}

const gram = (what: string) =>
  `${what} is a plain number, not a mass (g is the gram; the standard acceleration is g0)`;

/** A mass that cannot be negative, in kg. */
export function massOf(
  expr: Expr | undefined,
  what: string,
  setting: Setting,
): Quantity | undefined {
  const mass = figure(expr, MASS, what, setting);
  if (mass === undefined || mass.value >= 0) return mass;
  setting.report("negative-mass", expr!, `${what} is negative`);
  return undefined;
}

/** A coordinate in m; a bare number is in the aircraft's length unit, as on a drawing. */
export function coordinate(
  expr: Expr | undefined,
  unit: Unit,
  what: string,
  setting: Setting,
): number | undefined {
  return lengthOf(expr, unit, what, setting)?.value;
}

/**
 * Both ends of a range of coordinates, m. A bare end beside one in another unit is an error: in
 * `FS 2 .. 2.4 m` on a drawing in mm the 2 is read as metres by everybody, and would be millimetres.
 */
export function coordinates(
  low: Expr | undefined,
  high: Expr | undefined,
  unit: Unit,
  what: string,
  setting: Setting,
): readonly [number | undefined, number | undefined] {
  const ends = [lengthOf(low, unit, what, setting), lengthOf(high, unit, what, setting)] as const;
  const [a, b] = ends;
  const known = [a, b].map((end, i) => {
    const other = ends[1 - i]?.unit;
    if (!end?.bare || end.value === 0 || other === undefined || other.factor === unit.factor)
      return end?.value;
    reportBare(i === 0 ? low! : high!, [other.name, unit.name], setting);
    return undefined;
  });
  return [known[0], known[1]];
}

/** A number that stands without its unit beside one that says its own. */
export function reportBare(expr: Expr, units: readonly [string, string], setting: Setting): void {
  const text = textOf(expr);
  const [one, other] = units.map(it => `${text} ${it}`);
  setting.report("unit-missing", expr, `say the unit of ${text}: ${one} or ${other}`);
}

interface Length {
  readonly value: number;
  /** It says no unit of its own. */
  readonly bare: boolean;
  readonly unit: Unit | undefined;
}

function lengthOf(
  expr: Expr | undefined,
  unit: Unit,
  what: string,
  setting: Setting,
): Length | undefined {
  if (expr === undefined) return undefined;
  const value = evaluate(expr, setting);
  if (value === undefined) return undefined;
  if (value.dimension === LENGTH) return { value: value.value, bare: false, unit: value.unit };
  if (value.dimension === PLAIN && value.unit === undefined)
    return { value: value.value * unit.factor, bare: true, unit: undefined };
  setting.report("wrong-dimension", expr, `${what} is a length, not ${nameOf(value.dimension)}`);
  return undefined;
}

/** A percentage or another plain share, such as 0.18. */
export function share(expr: Expr | undefined, what: string, setting: Setting): number | undefined {
  const value = figure(expr, PLAIN, what, setting);
  if (value === undefined || value.value >= 0) return value?.value;
  setting.report("out-of-range", expr!, `${what} is negative`);
  return undefined;
}

/** A growth or a margin: a share whose % is written, or 15 would be fifteen times the mass. */
export function percentage(
  expr: Expr | undefined,
  what: string,
  setting: Setting,
): number | undefined {
  const value = share(expr, what, setting);
  return value === undefined ? undefined : asPercent(value, expr!, setting);
}

/**
 * A bare number where a percentage is wanted is an error, and then counts as it can only be meant: 15 is
 * 15%. Below 1 it may be meant either way, and stays the share it is.
 */
export function asPercent(value: number, expr: Expr, setting: Setting): number {
  const unit = evaluate(expr, { ...setting, report: () => {} })?.unit;
  const bare = unit === undefined && value !== 0;
  if (!bare || (value < 1 && expr.kind !== "quantity")) return value;
  const text = textOf(expr);
  const percent = Number((value * 100).toPrecision(12));
  const says = value < 1 ? `write ${text}% or ${percent}%` : `write ${text}%`;
  setting.report("unit-missing", expr, says);
  return value < 1 ? value : value / 100;
}

/** Is an ISO date a day of the calendar? By figures: a Date object for every record would cost more than its mass. */
export function isPlainDate(text: string): boolean {
  const [year, month, day] = text.split("-").map(Number) as [number, number, number];
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && day >= 1 && day <= days;
}
