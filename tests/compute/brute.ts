import type { Corner, Holder, Loadings } from "../../server/compute/holders";

export interface Point {
  readonly mass: number;
  readonly moment: number;
}

/**
 * Points whose convex hull is the polygon, the slow way: each holder is at one of its corners or free,
 * the free ones solved from as many caps held tight, and what breaks a range or a cap is thrown out.
 */
export function pointsByForce({ base, holders, caps }: Loadings): readonly Point[] {
  const points: Point[] = [];
  const amounts: number[] = [];
  choose(0);
  return points;

  function choose(i: number): void {
    const holder = holders[i];
    if (!holder) {
      solve();
      return;
    }
    for (const amount of new Set([...holder.lower, ...holder.upper].map(it => it.amount))) {
      amounts[i] = amount;
      choose(i + 1);
    }
    amounts[i] = Number.NaN;
    if (amounts.slice(0, i + 1).filter(Number.isNaN).length <= caps.length) choose(i + 1);
  }

  function solve(): void {
    const free = [...holders.keys()].filter(i => Number.isNaN(amounts[i]));
    for (const tight of subsets([...caps.keys()], free.length)) {
      const rows = tight.map(k => {
        const { of, most } = caps[k]!;
        const fixed = of.reduce((sum, i) => sum + (free.includes(i) ? 0 : amounts[i]!), 0);
        return [...free.map(i => (of.includes(i) ? 1 : 0)), most - fixed];
      });
      const found = solved(rows);
      if (!found) continue;
      const all = amounts.map((amount, i) => (free.includes(i) ? found[free.indexOf(i)]! : amount));
      if (!keeps(all, { holders, caps }, 1e-9)) continue;
      const mass = all.reduce((sum, it) => sum + it, base.mass);
      for (const [side, sign] of [
        ["upper", 1],
        ["lower", -1],
      ] as const) {
        const moments = holders.map((it, i) => sign * highest(it[side], all[i]!, sign));
        points.push({ mass, moment: moments.reduce((sum, it) => sum + it, base.moment) });
      }
    }
  }
}

/** Whether amounts are in range and within the caps, but for so much of the larger one. */
export function keeps(
  amounts: readonly number[],
  { holders, caps }: Pick<Loadings, "holders" | "caps">,
  near: number,
): boolean {
  const above = (a: number, b: number) => a - b > near * Math.max(1, Math.abs(a), Math.abs(b));
  return (
    holders.every(
      ({ lower }, i) =>
        !above(amounts[i]!, lower.at(-1)!.amount) && !above(lower[0]!.amount, amounts[i]!),
    ) &&
    caps.every(
      ({ of, most }) =>
        !above(
          of.reduce((sum, i) => sum + amounts[i]!, 0),
          most,
        ),
    )
  );
}

/** The smallest and the largest moment that straight lines between corners give at an amount. */
export function bandOf(holder: Holder, amount: number): readonly [low: number, high: number] {
  return [-highest(holder.lower, amount, -1), highest(holder.upper, amount, 1)];
}

/** The highest of all lines between two corners (the lowest, negated, for sign -1). */
function highest(curve: readonly Corner[], amount: number, sign: number): number {
  const at = Math.min(Math.max(amount, curve[0]!.amount), curve.at(-1)!.amount);
  let best = Number.NEGATIVE_INFINITY;
  for (const a of curve)
    for (const b of curve) {
      if (a.amount > at || b.amount < at) continue;
      const part = b.amount > a.amount ? (at - a.amount) / (b.amount - a.amount) : 0;
      best = Math.max(best, sign * (a.moment * (1 - part) + b.moment * part));
    }
  return best;
}

function subsets(of: readonly number[], size: number): readonly (readonly number[])[] {
  if (size === 0) return [[]];
  return of.flatMap((it, i) => subsets(of.slice(i + 1), size - 1).map(rest => [it, ...rest]));
}

/** The solution of square equations, the right side last in each row; none when they are singular. */
export function solved(rows: readonly (readonly number[])[]): readonly number[] | undefined {
  const left = rows.map(row => [...row]);
  for (const c of rows.keys()) {
    const best = left.findIndex((row, i) => i >= c && Math.abs(row[c]!) > 1e-9);
    if (best < 0) return undefined;
    [left[c], left[best]] = [left[best]!, left[c]!];
    for (const [i, row] of left.entries()) {
      const times = row[c]! / left[c]![c]!;
      if (i !== c) for (const k of row.keys()) row[k]! -= times * left[c]![k]!;
    }
  }
  return left.map((row, i) => row.at(-1)! / row[i]!);
}
