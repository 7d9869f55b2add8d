import type { Assembly } from "../model/assembly";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import { heaviestOf, partsOf } from "./parts-inside";
import type { Remedy } from "./remedies";
import { aroundOf, massInAll } from "./response";
import { basicBalance, oneSide, predictedBalance } from "./weight";

/**
 * How far one part alone must move along FS for an assembly's CG to meet its target: mass of the
 * assembly × distance ÷ mass of the part, the heaviest first. Nothing where the target is not of FS.
 */
export function movesToTarget(root: Root, assembly: Assembly): readonly Remedy[] {
  const { target } = assembly;
  const { mass, fs, complete } = basicBalance(oneSide(assembly));
  if (target?.axis !== "FS" || fs === null || !complete || assembly.weighed) return [];
  const { low, high } = target;
  const limit = low !== undefined && fs < low ? low : high;
  if (limit === undefined) return [];
  const parts = partsOf(assembly).filter(
    part => part.place.fs !== undefined && massInAll(root, part) > 0 && !isWeighedIn(root, part),
  );
  const sides = aroundOf(root, assembly).some(it => it.mirrored) || assembly.mirrored ? 2 : 1;
  return heaviestOf(root, parts, MOST).map(part => ({
    kind: "move",
    part,
    by: (mass * sides * (limit - fs)) / massInAll(root, part),
  }));
}

/** How much each of the heaviest parts must lose alone, in kg of one side's pieces together. */
export interface Loss {
  readonly part: Part;
  readonly by: number;
  /** There is a left-hand one in the assembly too, and each must lose as much. */
  readonly bothSides: boolean;
}

/**
 * What ends `over-budget` and `budget-at-risk`: the heaviest parts first, growth counted, so that what
 * is left is predicted within the budget. A part that would have to lose all it has is left out.
 */
export function lossesOf(root: Root, assembly: Assembly): readonly Loss[] {
  const { budget } = assembly;
  const short = budget === undefined ? 0 : predictedBalance(oneSide(assembly)).mass - budget.mass;
  if (budget === undefined || short <= 1e-9 * budget.mass) return [];
  const sides = aroundOf(root, assembly).some(it => it.mirrored) || assembly.mirrored ? 2 : 1;
  const parts = partsOf(assembly).filter(part => !isWeighedIn(root, part));
  return heaviestOf(root, parts, HEAVIEST).flatMap(part => {
    const { mass, growth } = part;
    if (!mass) return [];
    const copies = massInAll(root, part) / mass / sides;
    const by = short / copies / (1 + growth / mass);
    return by < mass ? { part, by, bothSides: copies === 2 } : [];
  });
}

/** As many are named as fit in a line. */
const HEAVIEST = 3;
/** The heaviest need the shortest way: what is lighter is not offered. */
const MOST = 8;

function isWeighedIn(root: Root, part: Part): boolean {
  return aroundOf(root, part).some(it => it.weighed !== undefined);
}
