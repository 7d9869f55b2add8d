import { sumOf } from "../compute/exact";
import type { Root } from "../model/root";
import { type Actuals, type Thinking, thoughts } from "./actuals";
import { weighablesOf } from "./weighable";

/** Fewer say nothing: of five, the scatter itself is off by 36 % (JCGM 100:2008, table E.1), of two by 76 %. */
export const ENOUGH = 5;

/** What nobody has weighed yet, as far as it rests on one basis: kg. */
export interface ToCome {
  readonly basis: Thinking;
  readonly pieces: number;
  readonly mass: number;
  /** What growth adds to it already. */
  readonly growth: number;
  /** What it adds if it comes out as what was weighed did; undefined: too few were. */
  readonly adds: number | undefined;
  /** One standard deviation of that: of the bias, and of each piece's own scatter. */
  readonly error: number | undefined;
}

/** @param root by its parts: an airframe, or the aircraft as designed */
export function toComeOf(root: Root, { byBasis }: Actuals): readonly ToCome[] {
  const left = weighablesOf(root).filter(it => !it.weighed && it.before);
  return thoughts.flatMap(basis => {
    const its = left.filter(it => it.before!.basis === basis);
    if (its.length === 0) return [];
    const masses = its.map(it => it.before!.mass * it.pieces);
    const mass = sumOf(masses);
    // growth acts on a part as a whole: of an airframe's two sides each counts its half
    const growth = sumOf(
      its.map((it, i) => (it.part.mass ? (it.part.growth / it.part.mass) * masses[i]! : 0)),
    );
    const scatter = byBasis.get(basis)?.scatter;
    const enough = scatter !== undefined && scatter.count >= ENOUGH;
    return {
      ...{ basis, mass, growth },
      pieces: its.reduce((all, it) => all + it.pieces, 0),
      adds: enough ? scatter.weighted * mass : undefined,
      error: enough
        ? Math.hypot(scatter.weightedError! * mass, scatter.unbiased! * Math.hypot(...masses))
        : undefined,
    };
  });
}
