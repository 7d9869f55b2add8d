import type { Expr, Measure } from "../../grammar/tree";
import { unitOf } from "../quantity/units";
import { unitsBeyond } from "./units-beyond";

/**
 * How far the true figure may lie from a printed one: half a unit in its last printed place, in SI
 * units. `121.0` is good to 0.05, `14` to 0.5, `3/8` to half an eighth. What is worked out from
 * others is taken as exact: nobody rounded it.
 * @param bare the factor of a figure without a unit
 */
export function slackOf(expr: Expr, bare: number): number {
  if (expr.kind === "negative") return slackOf(expr.of, bare);
  if (expr.kind !== "quantity") return 0;
  const last = expr.measures.at(-1)!;
  if (last.unit.length === 0) return halfPlace(last) * bare;
  const unit = unitOf(last.unit, unitsBeyond);
  return "unknown" in unit ? 0 : halfPlace(last) * unit.factor;
}

function halfPlace({ line, from, to, unitAt }: Measure): number {
  const printed = line.text.slice(from, unitAt?.from ?? to).trim();
  const over = /\/\s*([\d.]+)$/.exec(printed);
  if (over) return 0.5 / Number(over[1]);
  const [, decimals = "", exponent = "0"] = /^\d*(?:\.(\d+))?(?:e([+-]?\d+))?/i.exec(printed)!;
  return 0.5 * 10 ** (Number(exponent) - decimals.length);
}
