import { exceeds } from "../quantity/compare";
import { add, type Exact, rounded } from "./exact";
import { type Cap, type Holder, type Loadings, leastOf, momentAt, mostOf } from "./holders";
import { areLaminar, raiseGreedily } from "./laminar";
import { type Pieces, piecesOf } from "./pieces";
import { raiseByProgram } from "./program";

/** What is aboard at one point of the polygon: the sum, kg and kg m, and each holder's part in it. */
export interface Vertex {
  readonly mass: number;
  readonly moment: number;
  readonly amounts: readonly number[];
  readonly moments: readonly number[];
}

export type Support = (u: number, v: number) => Vertex;

/** The loading for which u·mass + v·moment is largest; undefined where none keeps every cap. */
export function supportOf(loadings: Loadings, u: number, v: number): Vertex | undefined {
  return supportsOf(loadings)?.(u, v);
}

/** supportOf for many directions of the same loadings. */
export function supportsOf(loadings: Loadings): Support | undefined {
  const { holders } = loadings;
  if (loadings.caps.some(cap => exceeds(sum(cap.of.map(i => leastOf(holders[i]!))), cap.most)))
    return undefined;
  const caps = loadings.caps.map(cap => roomIn(cap, holders)).filter(cap => canBind(cap, holders));
  const raise = areLaminar(caps) ? raiseGreedily : raiseByProgram;
  const sides = (["upper", "lower"] as const).map(side => {
    const pieces = piecesOf(holders, side);
    return { curves: pieces.curves, raise: raise(pieces, caps) };
  });

  return (u, v) => {
    const { curves, raise } = sides[v >= 0 ? 0 : 1]!;
    const raised = raise(u, v);
    const amounts = curves.map((curve, i) => snapped(curve[0]!.amount + raised[i]!, curve));
    const moments = curves.map((curve, i) => momentAt(curve, amounts[i]!));
    return {
      mass: sum([loadings.base.mass, ...amounts]),
      moment: sum([loadings.base.moment, ...moments]),
      amounts,
      moments,
    };
  };
}

/** The cap on what is added to the least amounts, of those holders that can take more. */
function roomIn(cap: Cap, holders: readonly Holder[]): Cap {
  const least = sum(cap.of.map(i => leastOf(holders[i]!)));
  return {
    of: cap.of.filter(i => mostOf(holders[i]!) > leastOf(holders[i]!)),
    most: Math.max(0, cap.most - least),
  };
}

const canBind = (cap: Cap, holders: readonly Holder[]) =>
  sum(cap.of.map(i => mostOf(holders[i]!) - leastOf(holders[i]!))) > cap.most;

/** A corner's amount where only rounding keeps the amount from it. */
function snapped(amount: number, curve: Pieces["curves"][number]): number {
  const near = curve.find(it => Math.abs(it.amount - amount) <= 1e-13 * Math.abs(it.amount));
  return near?.amount ?? Math.min(Math.max(amount, curve[0]!.amount), curve.at(-1)!.amount);
}

function sum(terms: readonly number[]): number {
  const exact: Exact = [];
  for (const it of terms) add(exact, it);
  return rounded(exact);
}
