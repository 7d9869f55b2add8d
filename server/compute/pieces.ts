import type { Corner, Holder } from "./holders";

/**
 * The largest (or smallest) moments of all holders, each curve made concave (or convex) by straight
 * lines across its bends, cut into straight pieces. They stand in the order in which mass is best
 * added: steepest first (flattest first). That order is the same for every direction.
 */
export interface Pieces {
  readonly curves: readonly (readonly Corner[])[];
  readonly holder: Int32Array;
  /** kg */
  readonly length: Float64Array;
  /** kg m for each kg: an arm, m. */
  readonly slope: Float64Array;
}

/**
 * How much each holder is raised above its least, kg, for the largest u·mass + v·moment. `pieces` are
 * those of the upper curves for v ≥ 0, of the lower ones for v ≤ 0. The array is used again.
 */
export type Raise = (u: number, v: number) => Float64Array;

export function piecesOf(holders: readonly Holder[], side: "upper" | "lower"): Pieces {
  const sign = side === "upper" ? 1 : -1;
  const curves = holders.map(holder => straightened(holder[side], sign));
  const pieces = curves.flatMap((curve, holder) =>
    curve.slice(1).map((b, i) => {
      const a = curve[i]!;
      const length = b.amount - a.amount;
      return { holder, length, slope: (b.moment - a.moment) / length };
    }),
  );
  pieces.sort((a, b) => sign * (b.slope - a.slope) || a.holder - b.holder);
  return {
    curves,
    holder: Int32Array.from(pieces, it => it.holder),
    length: Float64Array.from(pieces, it => it.length),
    slope: Float64Array.from(pieces, it => it.slope),
  };
}

/** The corners of a curve's concave hull from above (sign 1) or its convex hull from below (-1). */
function straightened(curve: readonly Corner[], sign: number): readonly Corner[] {
  const kept: Corner[] = [];
  for (const c of curve) {
    if (kept.at(-1)?.amount === c.amount) {
      if (sign * (c.moment - kept.at(-1)!.moment) <= 0) continue;
      kept.pop();
    }
    while (kept.length > 1 && sign * turn(kept.at(-2)!, kept.at(-1)!, c) >= 0) kept.pop();
    kept.push(c);
  }
  return kept;
}

const turn = (a: Corner, b: Corner, c: Corner) =>
  (b.amount - a.amount) * (c.moment - a.moment) - (b.moment - a.moment) * (c.amount - a.amount);
