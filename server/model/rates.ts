import type { Basis, Clause, Expr } from "../../grammar/tree";
import { MASS, nameOf, PLAIN } from "../quantity/dimension";
import { noSpread, type Off, type Rates, type Spreads } from "./env";
import { evaluate, type Setting } from "./evaluate";
import { asPercent, percentage } from "./figures";

/** For each basis the nearest figure wins; one without a basis stands for all but weighed. */
export function growthIn(outer: Rates, clauses: readonly Clause[], setting: Setting): Rates {
  let rates = outer;
  for (const clause of clauses) {
    if (clause.kind !== "growth") continue;
    for (const { basis, value } of clause.rates) {
      const rate = percentage(value, "a growth", setting);
      if (rate === undefined) continue;
      for (const it of basis ? [basis] : unweighed) rates = { ...rates, [it]: rate };
    }
  }
  return rates;
}

const unweighed: readonly Basis[] = ["estimated", "calculated", "quoted"];

/** For each basis the nearest figure wins; what it shares is shared by the records inside. */
export function spreadIn(outer: Spreads, clauses: readonly Clause[], setting: Setting): Spreads {
  let spreads = outer;
  for (const clause of clauses) {
    if (clause.kind !== "spread") continue;
    for (const { basis, value, common } of clause.rates) {
      const own = offIn(value, "a spread", setting);
      const shared = offIn(common, "a common spread", setting);
      if (own === undefined) continue;
      const next = { own, common: shared ?? noSpread.common, said: shared ? clause : undefined };
      for (const it of basis ? [basis] : unweighed) spreads = { ...spreads, [it]: next };
    }
  }
  return spreads;
}

/** A percentage, a mass, or a sum of both, as a scale's sheet gives it: 0.02 lb + 0.1 %. */
function offIn(expr: Expr | undefined, what: string, setting: Setting): Off | undefined {
  if (expr === undefined) return undefined;
  if (expr.kind === "binary" && expr.operator === "+") {
    const left = offIn(expr.left, what, setting);
    const right = offIn(expr.right, what, setting);
    return left && right && { share: left.share + right.share, mass: left.mass + right.mass };
  }
  const off = evaluate(expr, setting);
  if (off === undefined) return undefined;
  const { value, dimension } = off;
  if (dimension !== PLAIN && dimension !== MASS)
    setting.report(
      "wrong-dimension",
      expr,
      `${what} is a percentage or a mass, not ${nameOf(dimension)}`,
    );
  else if (value < 0) setting.report("out-of-range", expr, `${what} is negative`);
  else if (dimension === PLAIN) return { share: asPercent(value, expr, setting), mass: 0 };
  else return { share: 0, mass: value };
  return undefined;
}
