/** How one figure stands to another where a slip is likely: two units, or a decimal point. */
export interface Slip {
  /** How many times the smaller one the larger is. */
  readonly ratio: number;
  /** "2.2 times", or "one 2.2th of". */
  readonly words: string;
  /** "as pounds are to kilograms". */
  readonly what: string;
}

/** Pounds for kilograms, a decimal point, ounces for pounds, grams for ounces. */
export const slips: readonly {
  readonly ratio: number;
  readonly within: number;
  readonly what: string;
}[] = [
  { ratio: 2.2046, within: 0.02, what: "as pounds are to kilograms" },
  { ratio: 10, within: 0.01, what: "as with a decimal point out of place" },
  { ratio: 16, within: 0.01, what: "as ounces are to pounds" },
  { ratio: 28.35, within: 0.02, what: "as grams are to ounces" },
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
