import type { Span } from "../../../grammar/tree";
import { flightsOf } from "../../compute/flights";
import { memo } from "../../memo";
import type { Place } from "../../model/env";
import type { Load } from "../../model/loading";
import type { Root } from "../../model/root";
import type { RootDifference } from "./difference";
import { outer } from "./pairs";
import type { PartChange } from "./parts";
import { type Thing, thingsOf } from "./things";

/** Something on a line of the head that a change made heavier, lighter or put elsewhere. */
export interface Mover {
  readonly at: Span;
  readonly name: string;
  readonly base: Pull;
  readonly head: Pull;
}

/** kg, and m in the aircraft's axes; an undefined coordinate is unknown. */
export interface Pull {
  readonly basic: number;
  readonly predicted: number;
  readonly place: Place;
  /** It stands on both sides: its lateral moments cancel. */
  readonly mirrored: boolean;
}

const nothing: Pull = {
  ...{ basic: 0, predicted: 0, mirrored: false },
  place: { fs: undefined, bl: undefined, wl: undefined },
};

/**
 * What changed in an assembly ("": in the aircraft), as it changed that: what came from another one is
 * new there. Parts inside a whole that was weighed change nothing above it.
 */
export function moversIn(difference: RootDifference, assembly: string): readonly Mover[] {
  const { now } = difference.parts;
  return (changesWithin(difference).get(assembly) ?? []).map(({ base, head }) => {
    const stayed = base && isIn(ownerOf(base.path, assembly, now), assembly);
    return {
      ...{ at: head!.figureAt, name: head!.path },
      ...{ base: stayed ? pull(base) : nothing, head: pull(head!) },
    };
  });
}

/** By the path of each part and of all that it stands in: many findings ask for theirs. */
const changesWithin = memo(({ parts, head }: RootDifference) => {
  const wholes = new Set(
    thingsOf(head!.root).flatMap(it => (it.kind === "assembly" ? it.path : [])),
  );
  const all = new Map<string, PartChange[]>();
  for (const change of parts.changes) {
    const paths = change.head ? around(change.head.path) : [];
    if (paths.slice(1).some(it => wholes.has(it))) continue;
    for (const path of paths) {
      const known = all.get(path);
      if (known) known.push(change);
      else all.set(path, [change]);
    }
  }
  return all;
});

/** A path, and those of all that is around it, to the aircraft. */
function around(path: string): readonly string[] {
  return path === "" ? [path] : [path, ...around(outer(path))];
}

/** Where what was at a path belonged, under its present name. */
const ownerOf = (path: string, assembly: string, now: (path: string) => string) =>
  now(path) === assembly ? assembly : now(outer(path));

const pull = ({ mass = 0, growth, place, mirrored }: Thing): Pull => ({
  ...{ basic: mass, predicted: mass + growth, place, mirrored },
});

/** Reserves that were raised, and growth that was, with what the rest of the predicted mass grew by. */
export function promisesIn(
  difference: RootDifference,
  assembly: string,
  unexplained: number,
): readonly Mover[] {
  const at = (kind: string) =>
    promises(difference).flatMap(({ head, base }) => {
      if (head?.kind !== kind || head.path === undefined) return [];
      const within = isIn(head.path, assembly) || (kind === "growth" && isIn(assembly, head.path));
      return within ? [{ head, from: base?.values[0] ?? 0, to: head.values[0] ?? 0 }] : [];
    });
  const reserves = at("reserve").map(({ head, from, to }) => mover(head, from, to));
  const rest =
    unexplained - reserves.reduce((sum, it) => sum + it.head.predicted - it.base.predicted, 0);
  const raised = at("growth").filter(({ from, to }) => to > from);
  return [...reserves, ...raised.map(({ head }) => mover(head, 0, rest / raised.length))];
}

const promises = memo(({ yardstick }: RootDifference) =>
  yardstick.filter(({ head }) => head?.kind === "reserve" || head?.kind === "growth"),
);

const mover = ({ at, path }: { at: Span; path: string | undefined }, from: number, to: number) => ({
  ...{ at, name: path ?? "" },
  base: { ...nothing, predicted: from },
  head: { ...nothing, predicted: to },
});

/** What is put into one loading, where it is another amount or another place than it was. */
export function loadsOf(base: Root, head: Root, loading: string): readonly Mover[] {
  const before = new Map(loadsIn(base, loading).map(it => [keyOf(it), it]));
  return loadsIn(head, loading).map(it => {
    const was = before.get(keyOf(it));
    const name = it.station.path;
    return { at: it.at, name, base: was ? pullOf(was) : nothing, head: pullOf(it) };
  });
}

const loadsIn = (root: Root, name: string) =>
  flightsOf(root).find(it => it.loading.name === name)?.loading.loads ?? [];
const keyOf = ({ station, side }: Load) => `${station.path} ${side ?? ""}`;

function pullOf({ station, side, mass, place }: Load): Pull {
  const both = station.mirrored && side === undefined;
  const whole = both ? 2 * mass : mass;
  return { basic: whole, predicted: whole, place: place ?? station.place, mirrored: both };
}

export const isIn = (path: string, assembly: string) =>
  assembly === "" || path === assembly || path.startsWith(`${assembly}.`);
