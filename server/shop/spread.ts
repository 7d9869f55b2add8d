import type { Item } from "../../grammar/tree";
import type { Assembly } from "../model/assembly";
import { clausesOf } from "../model/clauses";
import type { Setting } from "../model/evaluate";
import { noSums } from "../model/part";
import { spreadIn } from "../model/rates";

/** Faults of the spec are said where it is judged, and not again by who asks for a figure of it. */
export function settingIn({ scope }: Assembly): Setting {
  const report = () => {};
  return { scope, report, ask: noSums(report) };
}

/**
 * kg of one piece, one standard deviation of a weighing that does not say its own; 0: nobody says.
 * @param pieces how many lay on the scale together: a scale's own error in kg is parted among them
 */
export function weighedSpread(item: Item, around: Assembly, mass: number, pieces: number): number {
  const spreads = spreadIn(around.core.spread, clausesOf(item), settingIn(around));
  const { own, common } = spreads.weighed;
  const of = (off: typeof own) => off.share * mass + off.mass / pieces;
  return Math.hypot(of(own), of(common));
}
