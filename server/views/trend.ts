import { basicMass } from "../checks/over-budget";
import { sharesOf } from "../compute/shares";
import { emptyOf } from "../compute/stages";
import type { JudgedRoot } from "../judge";
import { exceeds } from "../quantity/compare";
import type { Unit } from "../quantity/units";
import { airframeOf } from "./diff/difference";
import { assembliesOf } from "./diff/things";

/** One aircraft at one commit: kg and m; null is unknown. */
export interface Point {
  readonly commit: string;
  readonly date: string;
  readonly subject: string;
  /** The basic empty weight and its CG. */
  readonly basic: number;
  readonly fs: number | null;
  readonly predicted: number;
  readonly complete: boolean;
  /** Of the parts' basic mass, how much stood on a scale: 0 to 1. */
  readonly weighed: number;
  /** By path, of one side: what budgeted assemblies and parts weigh and may weigh. */
  readonly budgets: ReadonlyMap<string, { readonly mass: number; readonly budget: number }>;
}

export interface Trend {
  readonly name: string;
  readonly airframe: string | undefined;
  /** Those of the latest state. */
  readonly units: { readonly mass: Unit; readonly length: Unit };
  /** Oldest first. */
  readonly points: readonly Point[];
  readonly crossings: readonly Crossing[];
}

/** A commit that brought something above its budget, or back within. */
export interface Crossing {
  readonly path: string;
  readonly over: boolean;
  readonly point: Point;
  readonly before: Point | undefined;
}

export interface Commit {
  readonly commit: string;
  readonly date: string;
  readonly subject: string;
}

/** Puts the states of a history together, oldest first, an aircraft each. */
export function trendsOf(
  history: readonly { readonly at: Commit; readonly roots: readonly Seen[] }[],
): readonly Trend[] {
  const all = new Map<string, Trend & { points: Point[] }>();
  for (const { at, roots } of history)
    for (const { name, airframe, units, figures } of roots) {
      const key = `${name} ${airframe ?? ""}`;
      const points = all.get(key)?.points ?? [];
      points.push({ ...at, ...figures });
      all.set(key, { name, airframe, units, points, crossings: [] });
    }
  return [...all.values()].map(it => ({ ...it, crossings: crossingsIn(it.points) }));
}

/** What is kept of a state, so that the state itself need not be. */
export interface Seen extends Pick<Trend, "name" | "airframe" | "units"> {
  readonly figures: Omit<Point, keyof Commit>;
}

export function seenOf(judged: JudgedRoot): Seen {
  const { root, name } = judged;
  const { basic, predicted } = emptyOf(root);
  const shares = sharesOf(root.aircraft);
  const whole = shares.estimated + shares.calculated + shares.quoted + shares.weighed;
  const budgets = new Map<string, { mass: number; budget: number }>();
  for (const { assembly } of assembliesOf(root))
    for (const it of [assembly, ...assembly.members]) {
      const mass = "budget" in it && it.budget ? basicMass(it) : undefined;
      if ("budget" in it && it.budget && mass !== undefined)
        budgets.set(it.path, { mass, budget: it.budget.mass });
    }
  const { mass, length } = root.units;
  return {
    name,
    airframe: airframeOf(judged),
    units: { mass, length },
    figures: {
      ...{ basic: basic.mass, fs: basic.fs, predicted: predicted.mass, complete: basic.complete },
      weighed: whole === 0 ? 0 : shares.weighed / whole,
      budgets,
    },
  };
}

function crossingsIn(points: readonly Point[]): readonly Crossing[] {
  return points.flatMap((point, i) => {
    const before = points[i - 1];
    return [...point.budgets.keys()].flatMap(path => {
      const over = isOver(point, path);
      return over === (before ? isOver(before, path) : false)
        ? []
        : [{ path, over, point, before }];
    });
  });
}

export function isOver({ budgets }: Point, path: string): boolean {
  const found = budgets.get(path);
  return found !== undefined && exceeds(found.mass, found.budget);
}
