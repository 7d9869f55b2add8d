import type { Envelope } from "../model/envelope";
import type { Breach } from "./limits";
import type { Path, Stage } from "./stages";
import { leavingsOf } from "./stretch";

/** Where a burn or release takes the aircraft out of an envelope; one a code. */
export interface Excursion {
  readonly code: Breach["code"];
  /** Where it is on the limit, before it is outside for the first time. */
  readonly first: Spot;
  /** Where it is farthest outside, and by how much there. */
  readonly worst: Spot;
  readonly breach: Breach;
}

/** A place on a path: kg used by then, of both sides together, and kg that the aircraft weighs there. */
export interface Spot {
  readonly used: number;
  readonly mass: number;
}

/** Every stretch of a path judged, in the order in which it is flown. */
export function excursionsOf(
  { points }: Path,
  which: "basic" | "predicted",
  envelope: Envelope,
  kind: Stage["kind"],
): readonly Excursion[] {
  const found = new Map<Breach["code"], Excursion>();
  points.forEach((to, i) => {
    const from = points[i - 1];
    if (from === undefined) return;
    for (const { code, first, worst, breach } of leavingsOf(
      from[which],
      to[which],
      envelope,
      kind,
    )) {
      const spot = (t: number): Spot => ({
        used: between(from.used, to.used, t),
        mass: between(from[which].mass, to[which].mass, t),
      });
      const known = found.get(code);
      if (known === undefined)
        found.set(code, { code, first: spot(first), worst: spot(worst), breach });
      else if (breach.by > known.breach.by)
        found.set(code, { ...known, worst: spot(worst), breach });
    }
  });
  return [...found.values()];
}

const between = (a: number, b: number, t: number) => a + (b - a) * t;
