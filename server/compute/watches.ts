import type { RecordClause } from "../../grammar/tree";
import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import { type Condition, statesOf } from "./courses";
import { rounded } from "./exact";
import { flightsOf } from "./flights";
import { heaviestAt } from "./limits";
import type { Distance } from "./nearest";
import { densityAt, overBy } from "./normal";
import { partsOf } from "./parts-inside";
import { aroundOf, heavier } from "./response";
import { changeAt, nearestEdge } from "./sensitivity";
import { shapesOf } from "./shapes";
import { chanceOver, deviationOf, errorsOfMember, type Source } from "./spread";
import { sumsOf } from "./stages";
import type { Sums } from "./stretch";
import { balanceOf, basicBalance, oneSide } from "./weight";

/** What may come out beyond a budget or a limit, as far as the spreads of its records say. */
export interface Watch {
  readonly of:
    | { readonly budget: Assembly }
    | { readonly edge: Distance }
    | { readonly condition: Condition; readonly weight: string };
  readonly chance: number;
  /** By how much the chance changes for each kg more of a part, in all or on the one side it is of. */
  readonly slope: (part: Part) => number;
  /** A budget of one side of something mirrored: kg of that side count. */
  readonly ofOneSide: boolean;
}

/**
 * Every budget that a spread bears on, and of all loadings the state nearest to a CG limit and the one
 * nearest to a weight limit: about basic + growth, reserves unspent, as `chanceOver` has it. Normal
 * and first order (JCGM 100:2008, 5.1.2): the chance of exceeding by z standard deviations falls with z as
 * the normal density does. What nothing bears on is left out, and limits where a part has no mass: what it
 * will bring is in no chance.
 */
export function watchesOf(root: Root): readonly Watch[] {
  const known = oneSide(root.aircraft).unknown === 0;
  const states = known ? expectedStates(root) : [];
  return [...budgetWatches(root), ...edgeWatch(root, states), ...weightWatch(root, states)];
}

/** Every state of every loading, with growth in. */
function expectedStates(root: Root): readonly Condition[] {
  const growth = new Map(shapesOf(root).map(it => [it.configuration, sumsOf(it.growth)]));
  return flightsOf(root).flatMap(flight =>
    statesOf(flight).from.map(it => ({
      ...it,
      sums: together(it.sums, growth.get(it.verdict.configuration)!),
    })),
  );
}

const together = (a: Sums, b: Sums): Sums => ({
  mass: a.mass + b.mass,
  fsMoment: a.fsMoment + b.fsMoment,
  fsMass: a.fsMass + b.fsMass,
  blMoment: a.blMoment + b.blMoment,
  blMass: a.blMass + b.blMass,
});

function budgetWatches(root: Root): readonly Watch[] {
  return assembliesIn(root.aircraft).flatMap(budget => {
    const chance = chanceOver(budget);
    if (chance === undefined) return [];
    const weight = oneSide(budget);
    const sigma = deviationOf(budget).mass;
    const left = budget.budget!.mass - basicBalance(weight).mass - balanceOf(weight.growth, 0).mass;
    const ofOneSide = [...aroundOf(root, budget), budget].some(it => it.mirrored);
    const slope = densityAt(left / sigma) / sigma;
    const inside = (part: Part) => aroundOf(root, part).includes(budget);
    return { of: { budget }, chance, ofOneSide, slope: part => (inside(part) ? slope : 0) };
  });
}

function edgeWatch(root: Root, states: readonly Condition[]): readonly Watch[] {
  const edge = nearestEdge(states, () => true);
  if (edge === undefined) return [];
  const { configuration } = edge.condition.verdict;
  const change = memo((part: Part): number => {
    const by = heavier(root, part, configuration);
    return by === undefined ? 0 : changeAt(edge, by);
  });
  const sigma = spreadBy(root, change);
  if (sigma === 0) return [];
  const z = edge.distance / sigma;
  const slope = (part: Part) => (densityAt(z) / sigma) * change(part);
  return [{ of: { edge }, chance: overBy(z), slope, ofOneSide: false }];
}

function weightWatch(root: Root, states: readonly Condition[]): readonly Watch[] {
  let least: { condition: Condition; weight: string; left: number } | undefined;
  for (const condition of states) {
    const { stage, verdict, sums } = condition;
    const most = heaviestAt(stage.kind, verdict.envelope);
    if (most === undefined) continue;
    const left = most.mass - sums.mass;
    if (least === undefined || left < least.left) least = { condition, weight: most.what, left };
  }
  const sigma = deviationOf(root.aircraft).mass;
  if (least === undefined || sigma === 0) return [];
  const { condition, weight, left } = least;
  const slope = densityAt(left / sigma) / sigma;
  return [
    {
      of: { condition, weight },
      chance: overBy(left / sigma),
      slope: () => slope,
      ofOneSide: false,
    },
  ];
}

/** One standard deviation of a sum in which a kg of each part counts by its own slope. */
function spreadBy(root: Root, slope: (part: Part) => number): number {
  let variance = 0;
  const shared = new Map<Source | RecordClause, number>();
  const put = (from: Source | RecordClause, by: number) =>
    shared.set(from, (shared.get(from) ?? 0) + by);
  // inside what is weighed as a whole the slope is nothing
  for (const part of partsOf(root.aircraft)) {
    const errors = errorsOfMember(part);
    const around = aroundOf(root, part);
    // the record speaks for both sides of what is around it, too
    const by = slope(part) * (around.some(it => it.mirrored) ? 2 : 1);
    const own = Math.sqrt(rounded(errors.mass));
    // and so it does where an airframe has them apart
    if (part.governing && [...around, part].some(it => it.side))
      put(part.governing.clause, by * own);
    else variance += (by * own) ** 2;
    for (const [from, { mass }] of errors.shared) put(from, by * rounded(mass));
  }
  for (const by of shared.values()) variance += by ** 2;
  return Math.sqrt(variance);
}

function assembliesIn(assembly: Assembly): readonly Assembly[] {
  const inside = assembly.members.flatMap(it => (it.kind === "assembly" ? assembliesIn(it) : []));
  return [assembly, ...inside];
}
