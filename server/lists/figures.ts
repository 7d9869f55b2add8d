import type { Expr } from "../../grammar/tree";
import { type Unit, unitOf } from "../quantity/units";

/** A number without a unit, as `104`. */
export const isBare = (expr: Expr): boolean =>
  expr.kind === "negative"
    ? isBare(expr.of)
    : expr.kind === "quantity" && expr.measures[0].unit.length === 0;

/** A written quantity in SI; undefined for whatever would have to be computed. */
export function siOf(expr: Expr | undefined, dimension: Unit["dimension"]): number | undefined {
  if (expr?.kind === "negative") {
    const value = siOf(expr.of, dimension);
    return value === undefined ? undefined : -value;
  }
  if (expr?.kind !== "quantity") return undefined;
  let sum = 0;
  for (const { value, unit } of expr.measures) {
    const of = unitOf(unit);
    if ("unknown" in of || of.dimension !== dimension) return undefined;
    sum += value * of.factor;
  }
  return sum;
}

/** The value of a number that is written without a unit. */
export function plainValue(expr: Expr | undefined): number | undefined {
  if (expr?.kind === "negative") {
    const value = plainValue(expr.of);
    return value === undefined ? undefined : -value;
  }
  return expr?.kind === "quantity" && isBare(expr) && expr.measures.length === 1
    ? expr.measures[0].value
    : undefined;
}
