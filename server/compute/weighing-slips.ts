import type { Span } from "../../grammar/tree";
import type { Quantity } from "../quantity/quantity";
import { rounded } from "./exact";
import type { Term, Weighing } from "./scales";
import { slipOf, slips, USUAL } from "./slips";

/** Readings of a weighing that look like a slip of the pen, or of the scale's display. */
export interface ReadingSlip {
  readonly at: Span;
  readonly quantity: Quantity;
  /** How many times what it should be, and what that is like: "as pounds are to kilograms". */
  readonly times: number;
  readonly what: string;
  /** Another reading of the same scale; undefined: what the parts come to, by one scale or by all of them. */
  readonly beside: Span | undefined;
  readonly all: boolean;
}

/**
 * A reading that stands to another one of its scale as two units do, or with which right the scales would
 * come to what the parts come to, in weight and in moment about their CG. The second is looked for where both
 * differ by more than both may be off and a fiftieth of the weight; what is right then comes four times as
 * near, and within what an airframe is usually off: of one scale a twentieth, of all of them what is usual of
 * anything that is weighed.
 */
export function readingSlips(weighing: Weighing): readonly ReadingSlip[] {
  const scales = weighing.terms.filter(it => it.kind === "scale" && it.reads !== undefined);
  const among = scales.flatMap(it => slipAmong(it));
  return among.length > 0 ? among : slipByParts(weighing, scales);
}

/** The reading that differs from most of its like. */
function slipAmong({ reads = [] }: Term): readonly ReadingSlip[] {
  const middle = [...reads].sort((a, b) => a.quantity.value - b.quantity.value)[
    Math.floor((reads.length - 1) / 2)
  ];
  if (middle === undefined) return [];
  return reads.flatMap(({ at, quantity }) => {
    const slip = slipOf(quantity.value, middle.quantity.value);
    if (slip === undefined) return [];
    const times = quantity.value / middle.quantity.value;
    return [{ at, quantity, times, what: slip.what, beside: middle.at, all: false }];
  });
}

function slipByParts(
  { rolledUp, unexplained, off, totals, broken }: Weighing,
  scales: readonly Term[],
): readonly ReadingSlip[] {
  const { fs } = rolledUp;
  if (broken || !rolledUp.complete || fs === null || scales.length === 0) return [];
  const tolerance = Math.max(2 * off, 0.02 * rolledUp.mass);
  if (Math.abs(unexplained) <= tolerance) return [];
  const moment = rounded(totals.fs) - rounded(totals.mass) * fs;
  const arms = scales.map(it => rounded(it.totals.fs) / rounded(it.totals.mass));
  const known = arms.filter(Number.isFinite);
  // scales at one station cannot tell their readings apart by moment
  const base = Math.max(...known) - Math.min(...known) || Math.abs(fs);
  const near = (share: number) =>
    Math.min(Math.max(tolerance, share * rolledUp.mass), Math.abs(unexplained) / 4);
  let best: { slip: readonly ReadingSlip[]; miss: number } | undefined;
  for (const { ratio, what } of slips)
    for (const times of [ratio, 1 / ratio]) {
      const excess = scales.map(it => readOf(it) * (1 - 1 / times));
      const suspects = [
        ...scales.map((_, i) => [i]),
        ...(scales.length > 1 ? [[...scales.keys()]] : []),
      ];
      for (const which of suspects) {
        const sum = (of: (i: number) => number) => which.reduce((all, i) => all + of(i), 0);
        const miss = Math.max(
          Math.abs(unexplained - sum(i => excess[i]!)),
          Math.abs(moment - sum(i => excess[i]! * (arms[i]! - fs))) / base,
        );
        if (!(miss <= near(which.length > 1 ? USUAL : USUAL / 3)) || (best && best.miss <= miss))
          continue;
        const { at, quantity } = scales[which[0]!]!.reads![0]!;
        const all = which.length > 1;
        best = { miss, slip: [{ at, quantity, times, what, beside: undefined, all }] };
      }
    }
  return best?.slip ?? [];
}

/** kg, on average. */
const readOf = ({ reads = [] }: Term) =>
  reads.reduce((sum, it) => sum + it.quantity.value, 0) / Math.max(1, reads.length);
