import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import { clauseOf, clausesOf } from "../model/clauses";
import { fullOf, type Load, type Loading } from "../model/loading";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import type { Station } from "../model/station";
import { levelsOf } from "./contents";
import { courseBetween, courseBy, leastFree } from "./courses";
import type { Flight } from "./flights";
import type { Breach } from "./limits";
import { heaviestOf, partsOf } from "./parts-inside";
import { fartherAft, heavier, massInAll } from "./response";

/** One change that ends a finding if it goes at least so far. Exact: nothing is rounded yet. */
export type Remedy =
  /** kg in all, below zero for less. */
  | { readonly kind: "ballast"; readonly part: Part; readonly by: number }
  /** kg on each side that is loaded; `load` is absent where the loading does not name the place. */
  | {
      readonly kind: "load";
      readonly station: Station;
      readonly load: Load | undefined;
      readonly to: number;
    }
  /** m aft. */
  | { readonly kind: "move"; readonly part: Part; readonly by: number };

/**
 * What would bring a loading back inside the limits that a code is about, and break no other of it:
 * ballast, less of what is loaded, more in a bay, equipment moved. With upright limits the ballast is
 * weight × distance out ÷ distance from the ballast to the limit (FAA-H-8083-1B, chapter 7); limits that
 * slope with the weight make it a quadratic, which is solved here. Nothing where a mass or an arm is not
 * known: it may need more.
 */
export function remediesOf(root: Root, flight: Flight, code: Breach["code"]): readonly Remedy[] {
  if (flight.stages.some(({ basic }) => !basic.complete)) return [];
  const broken = flight.verdicts.flatMap(({ states }) => states.map(it => it.basic));
  const codes = broken.flatMap(it => [...it.breaches, ...it.excursions]).map(it => it.code);
  const allowed = new Set<string>(codes.filter(it => it !== code));
  const heaviest = Math.max(...flight.stages.map(({ basic }) => basic.mass));
  return [
    ...ballastOf(root, flight, allowed, heaviest),
    ...lessOf(root, flight, allowed),
    ...moreOf(root, flight, allowed),
    ...movesOf(root, flight, allowed),
  ];
}

function* ballastOf(
  root: Root,
  flight: Flight,
  allowed: ReadonlySet<string>,
  most: number,
): Iterable<Remedy> {
  for (const part of partsOf(root.aircraft)) {
    if (part.kind !== "ballast" || part.mass === undefined) continue;
    for (const amount of [most, -massInAll(root, part)]) {
      const course = courseBy(flight, it => heavier(root, part, it), amount);
      const share = amount === 0 || !course ? undefined : leastFree(course, allowed);
      if (share) yield { kind: "ballast", part, by: share * amount };
    }
  }
}

function* lessOf(root: Root, flight: Flight, allowed: ReadonlySet<string>): Iterable<Remedy> {
  const { loading } = flight;
  for (const load of loading.loads) {
    const { station, mass } = load;
    const floors = loading.uses.map(it => (it.station === station ? (it.downTo ?? 0) : 0));
    const least = Math.max(station.range?.[0].value ?? 0, ...floors);
    const to = leastChange(root, loading, load, [mass, least], allowed);
    if (to !== undefined) yield { kind: "load", station, load, to };
  }
}

/** A bay may take more, up to its range. */
function* moreOf(root: Root, flight: Flight, allowed: ReadonlySet<string>): Iterable<Remedy> {
  const { loading } = flight;
  for (const station of root.aircraft.stations) {
    if (station.kind !== "bay" || station.range === undefined) continue;
    const loads = loading.loads.filter(it => it.station === station);
    const load = loads.length === 0 ? undefined : loads[0]!;
    const [low, high] = station.range;
    const now = load ?? { station, side: undefined, mass: 0, place: undefined, at: loading.at };
    const from = now.mass === 0 ? low.value : now.mass;
    const to = leastChange(root, loading, now, [from, high.value], allowed);
    if (to !== undefined && to > now.mass) yield { kind: "load", station, load, to };
  }
}

/** The first amount on the way from one to another that keeps every limit but the allowed. */
function leastChange(
  root: Root,
  loading: Loading,
  load: Load,
  [from, to]: readonly [number, number],
  allowed: ReadonlySet<string>,
): number | undefined {
  if (from === to) return undefined;
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const corners = cornersOf(root, loading, load.station).filter(it => it > low && it < high);
  const stops = [low, ...corners.sort((a, b) => a - b), high];
  if (from > to) stops.reverse();
  const holding = (mass: number): Loading => {
    const others = loading.loads.filter(it => it !== load);
    return { ...loading, loads: [...others, { ...load, mass }] };
  };
  for (const [i, stop] of stops.slice(1).entries()) {
    const start = stops[i]!;
    const share = leastFree(courseBetween(holding, [start, stop], root), allowed);
    if (share !== undefined) return start + share * (stop - start);
  }
  return undefined;
}

/** Amounts, kg of one side, between which every state of the loading changes straight with the amount. */
function cornersOf(root: Root, loading: Loading, station: Station): readonly number[] {
  const levels = [...levelsOf(station, root), fullOf(station, root) ?? 0];
  let drawn = 0;
  const corners = [...levels];
  for (const use of loading.uses) {
    if (use.station !== station) continue;
    drawn += use.by ?? 0;
    corners.push(...[...levels, use.downTo ?? 0].map(it => it + drawn));
  }
  return [...new Set(corners)];
}

/** Ballast and equipment may be moved, as far as anything lies; structure stays where it is. */
function* movesOf(root: Root, flight: Flight, allowed: ReadonlySet<string>): Iterable<Remedy> {
  const parts = partsOf(root.aircraft).filter(
    part => massInAll(root, part) > 0 && (part.kind === "ballast" || isEquipment(part)),
  );
  for (const part of heaviestOf(root, parts, MOVABLE))
    for (const amount of roomToMove(root, part)) {
      const course = courseBy(flight, it => fartherAft(root, part, it), amount);
      const share = course && leastFree(course, allowed);
      if (share) yield { kind: "move", part, by: share * amount };
    }
}

/** Only so many are tried: the heaviest need the shortest way. */
const MOVABLE = 8;

function isEquipment(part: Part): boolean {
  const kind = clauseOf(clausesOf(part.item), "kind")?.value;
  return kind !== undefined && kind !== "structure";
}

/** m forward (below zero) and aft, to where the outermost part lies or the aircraft ends. */
function roomToMove(root: Root, { place }: Part): readonly number[] {
  const { fs } = place;
  if (fs === undefined) return [];
  const { low, high } = root.aircraft.core.extent?.FS ?? {};
  const [first, last] = reachOf(root.aircraft);
  return [(low ?? first) - fs, (high ?? last) - fs].filter(it => it !== 0);
}

const reachOf = memo((aircraft: Assembly): readonly [number, number] => {
  const places = partsOf(aircraft).flatMap(({ place }) => place.fs ?? []);
  return [
    places.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    places.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
  ];
});
