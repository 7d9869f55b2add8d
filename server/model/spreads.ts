import type { Expr } from "../../grammar/tree";
import { MASS, nameOf, PLAIN } from "../quantity/dimension";
import type { Quantity } from "../quantity/quantity";
import { evaluate, type Setting } from "./evaluate";
import { asPercent } from "./figures";
import type { Let, Scope } from "./scope";

/** How far a figure moves, in its own unit, when a `let ±` it is made of is one spread off. */
export interface Lean {
  readonly from: Let;
  readonly by: number;
}

/**
 * One standard deviation, in SI units of the figure it follows: a percentage of that figure, a figure of
 * its dimension, or a sum of both, as a scale's sheet gives it (0.02 lb + 0.1 %). Undefined, with a fault,
 * where it is neither.
 */
export function spreadOf(
  expr: Expr | undefined,
  of: Quantity | undefined,
  setting: Setting,
): number | undefined {
  if (expr === undefined || of === undefined) return undefined;
  if (expr.kind === "binary" && expr.operator === "+") {
    const left = spreadOf(expr.left, of, setting);
    const right = spreadOf(expr.right, of, setting);
    return left === undefined || right === undefined ? undefined : left + right;
  }
  const value = evaluate(expr, setting);
  if (value === undefined) return undefined;
  const relative =
    value.dimension === PLAIN && (of.dimension !== PLAIN || value.unit?.name === "%");
  if (!relative && value.dimension !== of.dimension) {
    const wanted = of.dimension === PLAIN ? "a plain number" : nameOf(of.dimension);
    setting.report(
      "wrong-dimension",
      expr,
      `the spread of ${wanted} is ${wanted} or a percentage, not ${nameOf(value.dimension)}`,
    );
    return undefined;
  }
  if (value.value < 0) {
    setting.report("out-of-range", expr, "a spread is not negative");
    return undefined;
  }
  return relative ? asPercent(value.value, expr, setting) * Math.abs(of.value) : value.value;
}

/**
 * What a mass owes to each let with a spread: its slope there times that spread, first order, by the
 * difference over two steps either side (exact where the let enters linearly or squared).
 * @param lets those its value rests on, each with the scope it stands in
 */
export function leansOf(
  figure: Expr,
  lets: ReadonlyMap<Let, Scope>,
  setting: Setting,
): readonly Lean[] {
  const leans: Lean[] = [];
  // its own faults have been said, and those of a let are said where it stands
  const quiet = { ...setting, report: () => {} };
  for (const [from, scope] of lets) {
    const value = from.value && evaluate(from.value, { ...quiet, scope });
    const spread = spreadOf(from.spread, value, { ...quiet, scope });
    if (value === undefined || !spread) continue;
    const step = Math.abs(value.value) * 1e-5 || spread * 1e-5;
    const at = (x: number) => {
      const instead = { of: from, value: { ...value, value: x } };
      const mass = evaluate(figure, { ...quiet, instead, values: new Map() });
      return mass?.dimension === MASS ? mass.value : Number.NaN;
    };
    const slope = (at(value.value + step) - at(value.value - step)) / (2 * step);
    if (Number.isFinite(slope) && slope !== 0) leans.push({ from, by: slope * spread });
  }
  return leans;
}
