import { exceeds } from "../quantity/compare";
import { type Holder, type Loadings, leastOf, momentAt, mostOf } from "./holders";
import type { Vertex } from "./support";

/** Amounts, kg, and moments, kg m, by holder. */
export type Carried = Pick<Vertex, "amounts" | "moments">;

/**
 * A plainer loading that is still `outside`: whatever may be at its least is, in the order of the
 * holders; other amounts are rounded to whole multiples of the first of their holder's steps, kg, that
 * serves. Ranges and caps are kept, and each moment stays where it was between its holder's curves.
 * Undefined where even the given amounts, with moments the curves really have, are not outside.
 */
export function shrunk(
  from: Carried,
  { holders, caps }: Pick<Loadings, "holders" | "caps">,
  steps: readonly (readonly number[])[],
  outside: (carried: Carried) => boolean,
): Carried | undefined {
  const height = holders.map((holder, i) => heightIn(holder, from.amounts[i]!, from.moments[i]!));
  const carrying = (amounts: readonly number[]): Carried => ({
    amounts,
    moments: holders.map((holder, i) => momentIn(holder, amounts[i]!, height[i]!)),
  });
  const serves = (amounts: readonly number[]) =>
    !caps.some(cap =>
      exceeds(
        cap.of.reduce((sum, i) => sum + amounts[i]!, 0),
        cap.most,
      ),
    ) && outside(carrying(amounts));

  let amounts = from.amounts;
  if (!serves(amounts)) return undefined;
  const least = holders.map(leastOf);
  for (let before: unknown; before !== amounts; ) {
    before = amounts;
    for (const [i, amount] of least.entries()) {
      const fewer = amounts.with(i, amount);
      if (amounts[i] !== amount && serves(fewer)) amounts = fewer;
    }
  }
  for (const [i, holder] of holders.entries()) {
    if (amounts[i] === least[i]) continue;
    const round = figuresNear(amounts[i]!, steps[i] ?? [], holder).find(it =>
      serves(amounts.with(i, it)),
    );
    if (round !== undefined) amounts = amounts.with(i, round);
  }
  return carrying(amounts);
}

/** Multiples of each step next to an amount and in range, the nearer one of a step first. */
function figuresNear(amount: number, steps: readonly number[], holder: Holder): number[] {
  return steps.flatMap(step => {
    const near = Math.round(amount / step);
    const next = near * step > amount ? near - 1 : near + 1;
    return [near, next]
      .map(it => it * step)
      .filter(it => !exceeds(it, mostOf(holder)) && !exceeds(leastOf(holder), it));
  });
}

/** Where a moment stands between the curves: 0 on the lower, 1 on the upper one. */
function heightIn({ lower, upper }: Holder, amount: number, moment: number): number {
  const low = momentAt(lower, amount);
  const span = momentAt(upper, amount) - low;
  return span > 0 ? Math.min(Math.max((moment - low) / span, 0), 1) : 1;
}

function momentIn({ lower, upper }: Holder, amount: number, height: number): number {
  const low = momentAt(lower, amount);
  return low + (momentAt(upper, amount) - low) * height;
}
