import type { Basis, Clause } from "../../grammar/tree";
import type { Rates, Spreads } from "./env";
import type { Setting } from "./evaluate";
import { share } from "./figures";

/** For each basis the nearest figure wins; one without a basis stands for all but weighed. */
export function growthIn(outer: Rates, clauses: readonly Clause[], setting: Setting): Rates {
  let rates = outer;
  for (const clause of clauses) {
    if (clause.kind !== "growth") continue;
    for (const { basis, value } of clause.rates) {
      const rate = share(value, "a growth", setting);
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
      const own = share(value, "a spread", setting);
      const shared = share(common, "a common spread", setting);
      if (own === undefined) continue;
      const next = { own, common: shared ?? 0, said: shared ? clause : undefined };
      for (const it of basis ? [basis] : unweighed) spreads = { ...spreads, [it]: next };
    }
  }
  return spreads;
}
