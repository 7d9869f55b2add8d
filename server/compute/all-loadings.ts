import { memo } from "../memo";
import { type Envelope, openIn } from "../model/envelope";
import type { Root } from "../model/root";
import { carriersOf } from "./carriers";
import { type Counterexample, counterexampleOf, type Suspect } from "./counterexample";
import { capsOf, permittedOf } from "./permitted";
import { reachable } from "./reachable";
import { shapesOf } from "./shapes";
import type { Shape } from "./stages";
import { hulls, suspectsIn } from "./suspects";

/** What an envelope says about every loading at once: every amount in its range, every limit kept. */
export interface AllLoadings {
  readonly envelope: Envelope;
  /**
   * Undefined: something has no mass or no arm, nothing can be loaded, no loading is permitted, or
   * none is seen outside an envelope without CG limits.
   * `not-excluded`: what is known of the loadings only from outside leaves the envelope, and none that
   * does was found.
   */
  readonly verdict: "inside" | "can-exceed" | "not-excluded" | undefined;
  /** Of each code the worst, CGs before weights. With basic masses, at takeoff. */
  readonly found: readonly Counterexample[];
}

/** Of every envelope, over the aircraft as drawn and every configuration that flies. */
export const allLoadingsOf = memo((root: Root): readonly AllLoadings[] =>
  root.envelopes.map(envelope => ({ envelope, ...judged(root, envelope) })),
);

function judged(root: Root, envelope: Envelope): Pick<AllLoadings, "verdict" | "found"> {
  const nothing = { verdict: undefined, found: [] };
  if (carriersOf(root).list.length === 0 || envelope.broken) return nothing;
  const { exact } = capsOf(root, envelope, 0);
  const suspects: Suspect[] = [];
  let vague = false;
  let sure = true;
  const hullOf = hulls();
  for (const shape of shapesOf(root)) {
    const seen = suspectsIn(shape, envelope, hullOf);
    if (seen === undefined) vague = true;
    else suspects.push(...seen.suspects);
    if (seen?.unsure) sure = false;
  }
  const found: Counterexample[] = [];
  for (const code of codes) {
    const such = suspects.filter(it => it.code === code).sort((a, b) => b.by - a.by);
    const real = firstOf(such.slice(0, tries), it => counterexampleOf(it, envelope, exact));
    if (real) found.push(real);
    else if (such.length > 0) sure = false;
  }
  found.sort((a, b) => rank(a) - rank(b) || b.worst.breach.by - a.worst.breach.by);
  if (found.length > 0) return { verdict: "can-exceed", found };
  if (vague || openIn(envelope) !== undefined) return nothing;
  return { verdict: sure ? "inside" : "not-excluded", found };
}

/** Of a hull that is only an outer one: enough to find what there is, and quick where there is nothing. */
const tries = 24;

const codes = [
  ...(["cg-forward", "cg-aft", "cg-lateral"] as const),
  ...(["below-weight-limit", "above-weight-limit"] as const),
];
const rank = ({ worst }: Counterexample) => (worst.breach.code.startsWith("cg-") ? 0 : 1);

function firstOf<T, R>(all: readonly T[], of: (it: T) => R | undefined): R | undefined {
  for (const it of all) {
    const result = of(it);
    if (result !== undefined) return result;
  }
  return undefined;
}

/** The smallest and the largest CG, m, of every loading an envelope permits, as drawn. */
export function extremesOf(
  shape: Shape,
  envelope: Envelope,
  which: "basic" | "predicted",
): { readonly forward: number; readonly aft: number; readonly exact: boolean } | undefined {
  const permitted = permittedOf(shape, envelope, "fs", which);
  if (permitted === undefined) return undefined;
  const { vertices, outer } = reachable(permitted.loadings);
  if (vertices.length === 0) return undefined;
  const cgs = vertices.map(it => it.moment / it.mass);
  const { exact } = capsOf(shape.root, envelope, 0);
  return { forward: Math.min(...cgs), aft: Math.max(...cgs), exact: exact && !outer };
}
