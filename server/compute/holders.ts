/** A point of a curve: an amount, kg, and its moment about the datum, kg m. */
export interface Corner {
  readonly amount: number;
  readonly moment: number;
}

/**
 * What may hold any amount between two. At each amount its moment is anything between two curves,
 * straight from corner to corner. Both run from its least amount to its most, amounts rising. A seat
 * with a range of arms: least arm × amount, largest arm × amount. A tank: the same curve twice.
 */
export interface Holder {
  readonly lower: readonly Corner[];
  readonly upper: readonly Corner[];
}

/** The most that some holders, by their index, hold together, kg: a floor limit, a takeoff weight. */
export interface Cap {
  readonly of: readonly number[];
  readonly most: number;
}

/** An aircraft without its load, kg and kg m; what it may carry; and what must be kept. No unknowns. */
export interface Loadings {
  readonly base: { readonly mass: number; readonly moment: number };
  readonly holders: readonly Holder[];
  readonly caps: readonly Cap[];
}

export const leastOf = (holder: Holder): number => holder.lower[0]!.amount;
export const mostOf = (holder: Holder): number => holder.lower.at(-1)!.amount;

/** The moment at an amount, straight between corners; that of the nearest end beyond them. */
export function momentAt(curve: readonly Corner[], amount: number): number {
  const i = curve.findIndex(corner => corner.amount >= amount);
  const b = curve[i];
  if (!b) return curve.at(-1)!.moment;
  const a = curve[i - 1];
  if (!a || b.amount === amount) return b.moment;
  return a.moment + ((b.moment - a.moment) * (amount - a.amount)) / (b.amount - a.amount);
}
