import type { Root } from "../model/root";
import { rounded } from "./exact";
import type { Weighing } from "./scales";
import { emptyDeviation } from "./whole";

/** How the CG as weighed lies to the one of the parts, on one axis: m. */
export interface Apart {
  readonly axis: "fs" | "bl";
  /** Weighed less rolled up. */
  readonly by: number;
  /** Root of the sum of both spreads squared, and of how well a place is measured. */
  readonly off: number;
}

/** How well a station is found with a plumb line and a tape, m, one standard deviation: common practice. */
export const TAPE = 0.005;

/**
 * The CG of a weighing beside the one of the parts, on each axis where both are known. Of scales it takes the
 * moment of their errors about the CG; arms of parts carry no spread, so what the parts may be off is by their
 * masses. Nothing where nobody says how far those may be off, or where no CG was measured.
 */
export function centresApart(weighing: Weighing): readonly Apart[] {
  const { broken, balance, rolledUp, known, errors, oneStation } = weighing;
  const parts = emptyDeviation(known);
  if (broken || parts.mass === 0 || balance.mass === 0) return [];
  return (["fs", "bl"] as const).flatMap(axis => {
    const [is, was, off] = [balance[axis], rolledUp[axis], parts[axis]];
    const isWhole = axis === "fs" ? rolledUp.complete : rolledUp.complete && rolledUp.blComplete;
    if (is === null || was === null || off === null || !isWhole) return [];
    if (axis === "fs" && oneStation !== undefined) return [];
    const scales = Math.hypot(...errors.map(it => it.mass * ((it.place[axis] ?? 0) - is)));
    return [{ axis, by: is - was, off: Math.hypot(off, scales / balance.mass, TAPE) }];
  });
}

/** Those that nobody's spread explains. */
export const unexplainedCentres = (weighing: Weighing): readonly Apart[] =>
  centresApart(weighing).filter(({ by, off }) => Math.abs(by) > 2 * off);

/** Where each scale alone would have to stand for both to agree on an axis, m. */
export function standsInstead(
  { terms, totals }: Weighing,
  { axis, by }: Apart,
): readonly {
  readonly term: Weighing["terms"][number];
  readonly is: number;
  readonly to: number;
}[] {
  const excess = by * rounded(totals.mass);
  return terms.flatMap(term => {
    const net = rounded(term.totals.mass);
    if (term.kind !== "scale" || net === 0) return [];
    const is = rounded(term.totals[axis]) / net;
    return [{ term, is, to: is - excess / net }];
  });
}

/** Is a place within what the aircraft says of its extent? */
export function isWithin({ aircraft }: Root, axis: "FS" | "BL", value: number): boolean {
  const range = aircraft.core.extent?.[axis];
  return !(
    value < (range?.low ?? Number.NEGATIVE_INFINITY) ||
    value > (range?.high ?? Number.POSITIVE_INFINITY)
  );
}
