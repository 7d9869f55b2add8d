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
const slips: readonly { readonly ratio: number; readonly within: number; readonly what: string }[] =
  [
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
  const shown = Number(ratio.toPrecision(2));
  return { ratio, words: times > 1 ? `${shown} times` : `one ${shown}th of`, what: slip.what };
}
