/** How one figure stands to another where a slip is likely: two units, or a decimal point. */
export interface Slip {
  /** How many times the smaller one the larger is. */
  readonly ratio: number;
  /** "2.2 times", or "one 2.2th of". */
  readonly words: string;
  /** "as pounds are to kilograms". */
  readonly what: string;
}

/** Pounds for kilograms, a decimal point, ounces for pounds, grams for ounces, for pounds and for kilograms. */
export const slips: readonly {
  readonly ratio: number;
  readonly within: number;
  readonly what: string;
}[] = [
  { ratio: 2.2046, within: 0.02, what: "as pounds are to kilograms" },
  { ratio: 10, within: 0.01, what: "as with a decimal point out of place" },
  { ratio: 16, within: 0.01, what: "as ounces are to pounds" },
  { ratio: 28.35, within: 0.02, what: "as grams are to ounces" },
  { ratio: 453.59, within: 0.02, what: "as grams are to pounds" },
  { ratio: 1000, within: 0.02, what: "as grams are to kilograms" },
];

/** The slip that a figure's ratio to the one before it tells of, if it tells of one. */
export function slipOf(now: number, before: number): Slip | undefined {
  const times = now / before;
  const ratio = times > 1 ? times : 1 / times;
  const slip = slips.find(it => Math.abs(ratio / it.ratio - 1) < it.within);
  if (slip === undefined) return undefined;
  return { ratio, words: timesText(times), what: slip.what };
}

/** "2.2 times", "one 2.2th of". */
export function timesText(times: number): string {
  const shown = Number((times > 1 ? times : 1 / times).toPrecision(2));
  return times > 1 ? `${shown} times` : `one ${shown}th of`;
}

/** How far a piece on a scale may be from what was thought of it, by no slip. Shares of what was thought. */
export interface Reach {
  /** One standard deviation. */
  readonly off: number;
  /** What it is still expected to grow by. */
  readonly growth: number;
}

/** What nobody is surprised by, as a share: common practice. */
export const USUAL = 0.15;

/**
 * How far a figure is from what was thought, as a share of it, beyond the growth that was expected; a figure
 * half as large is as far off as one twice as large.
 */
export function beyondGrowth(times: number, { growth }: Reach): number {
  return times < 1 ? 1 / times - 1 : Math.max(0, times / (1 + growth) - 1);
}

/**
 * The slip that a figure is nearest to, where that is nearer than what was thought and it would be no more than
 * three spreads off without the slip, or what is usual.
 * @param others further ratios that would explain it
 */
export function nearestSlip<T extends { readonly ratio: number; readonly within: number }>(
  times: number,
  reach: Reach,
  others: readonly T[],
): { readonly slip: (typeof slips)[number] | T; readonly close: boolean } | undefined {
  const judged = (slip: (typeof slips)[number] | T, ratio: number) => {
    const left = times / ratio;
    const close = Math.abs((ratio > 1 ? left : 1 / left) - 1) < slip.within;
    return { slip, close, miss: close ? 0 : beyondGrowth(left, reach) };
  };
  const all = [
    ...slips.flatMap(it => [judged(it, it.ratio), judged(it, 1 / it.ratio)]),
    ...others.map(it => judged(it, it.ratio)),
  ];
  const best = all.sort((a, b) => a.miss - b.miss)[0]!;
  if (best.close) return best;
  const own = beyondGrowth(times, reach);
  if (own <= Math.max(USUAL, 2 * reach.off) || best.miss >= own) return undefined;
  return best.miss <= Math.max(USUAL, 3 * reach.off) ? best : undefined;
}
