import type { Envelope } from "../model/envelope";
import type { Root } from "../model/root";
import { type Carriers, carriersOf, type Held, heldBy } from "./carriers";
import { rounded } from "./exact";
import type { Cap, Loadings } from "./holders";
import { type LoadLimit, loadLimitsOf } from "./load-limits";
import { putContents, type Shape } from "./stages";
import { merge, none, type Totals } from "./weight";

/** Every loading that an envelope permits in one shape, by its moments about one axis. */
export interface Permitted {
  readonly held: readonly Held[];
  readonly loadings: Loadings;
}

/** Undefined where a mass or an arm is not known. */
export function permittedOf(
  shape: Shape,
  envelope: Envelope,
  axis: "fs" | "bl",
  which: "basic" | "predicted" = "basic",
): Permitted | undefined {
  const carriers = carriersOf(shape.root);
  if (carriers.vague || shape.unknown > 0 || shape.vague.fs) return undefined;
  const base = baseOf(shape, shape[which], carriers);
  if ((axis === "fs" ? base.lacksFs : base.lacksBl).length > 0) return undefined;
  const held = carriers.list.map(it => heldBy(it, shape, axis));
  if (!held.every(it => it !== undefined)) return undefined;
  const mass = rounded(base.mass);
  const moment = rounded(base[axis]);
  const { caps } = capsOf(shape.root, envelope, mass);
  const holders = held.map(it => it.holder);
  return { held, loadings: { base: { mass, moment }, holders, caps } };
}

/** The parts and what is full in every loading. */
function baseOf(shape: Shape, parts: Totals, { full }: Carriers): Totals {
  const base = none();
  merge(base, parts);
  for (const { station, each } of full) {
    const left = station.mirrored ? each : 0;
    putContents(base, station, { right: each, left, place: undefined }, shape);
  }
  return base;
}

/** The limits that an envelope's loadings keep: those of every loading, and its own. */
export const limitsUnder = (root: Root, envelope: Envelope): readonly LoadLimit[] =>
  loadLimitsOf(root).limits.filter(it => it.under === undefined || it.under === envelope);

/**
 * What is kept by every permitted loading, above a base in kg. Where a limit counts one side of one
 * place and both of another it takes more than one cap, which together permit no less: not `exact`.
 */
export function capsOf(
  root: Root,
  envelope: Envelope,
  base: number,
): { readonly caps: readonly Cap[]; readonly exact: boolean } {
  const { list, full } = carriersOf(root);
  const caps: Cap[] = [];
  const leastOf = (i: number) => list[i]!.levels[0]!;
  const sum = (of: readonly number[], value: (i: number) => number) =>
    of.reduce((all, i) => all + value(i), 0);
  const all = [...list.keys()];
  const weights = [envelope.takeoff, envelope.ramp].flatMap(it => it?.mass ?? []);
  if (weights.length > 0) caps.push({ of: all, most: Math.min(...weights) - base });
  if (envelope.zero_fuel) {
    const fuel = all.filter(i => list[i]!.fuel);
    const most = envelope.zero_fuel.mass - base - sum(fuel, leastOf);
    caps.push({ of: all.filter(i => !list[i]!.fuel), most });
  }
  let exact = true;
  for (const limit of limitsUnder(root, envelope)) {
    let { most } = limit;
    const shares = new Map<number, number>();
    for (const { station, side } of limit.spots) {
      const i = list.findIndex(it => it.station === station);
      const share = side && station.mirrored ? 0.5 : 1;
      if (i >= 0) shares.set(i, (shares.get(i) ?? 0) + share);
      for (const it of full)
        if (it.station === station) most -= it.each * (station.mirrored ? 2 : 1) * share;
    }
    const of = [...shares.keys()];
    const different = [...new Set(shares.values())];
    exact &&= different.length <= 1;
    for (const share of different) {
      const alike = of.filter(i => shares.get(i) === share);
      const others = of.filter(i => shares.get(i) !== share);
      caps.push({
        of: alike,
        most: (most - sum(others, i => shares.get(i)! * leastOf(i))) / share,
      });
    }
    if (different.length > 1) caps.push({ of, most: most / Math.min(...different) });
  }
  return { caps, exact };
}
