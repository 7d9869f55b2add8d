import { memo } from "../memo";
import type { Place } from "../model/env";
import type { Load, Use } from "../model/loading";
import { contentsMass, fullOf, unusableOf } from "../model/loading";
import type { Root } from "../model/root";
import type { Station } from "../model/station";

/** What is in a place, kg: right, and left where there are two. */
export interface Contents {
  readonly right: number;
  readonly left: number;
  readonly place: Place | undefined;
}
export type State = ReadonlyMap<Station, Contents>;

/** What was taken from a tank that did not have it, or below what is usable. */
export interface Overdrawn {
  readonly use: Use;
  readonly why: string;
}

/** Unusable fluid, and full operating tanks. */
export const empty = memo((root: Root): State => {
  const state = new Map<Station, Contents>();
  for (const station of root.aircraft.stations) {
    if (station.kind !== "tank") continue;
    const each = (station.operating ? fullOf(station, root) : unusableOf(station, root)) ?? 0;
    state.set(station, { right: each, left: station.mirrored ? each : 0, place: undefined });
  }
  return state;
});

export function loaded(loads: readonly Omit<Load, "at">[], root: Root): State {
  const state = new Map(empty(root));
  for (const { station, side, mass, place } of loads) {
    const before = state.get(station) ?? { right: 0, left: 0, place: undefined };
    state.set(station, {
      right: side === "LH" ? before.right : mass,
      left: station.mirrored && side !== "RH" ? mass : before.left,
      place: place ?? before.place,
    });
  }
  return state;
}

export function used(
  state: State,
  use: Use,
  root: Root,
): { state: State; overdrawn: Overdrawn | undefined } {
  const { station, side } = use;
  const before = state.get(station) ?? { right: 0, left: 0, place: undefined };
  const least = use.kind === "release" ? 0 : (unusableOf(station, root) ?? 0);
  let why: string | undefined;
  const draw = (from: number) => {
    const to = use.downTo ?? from - (use.by ?? 0);
    if (to > from * (1 + 1e-9)) why = `${use.name} holds less than that already`;
    else if (to < -1e-9) why = `${use.name} does not hold so much`;
    else if (to < least * (1 - 1e-9)) why = `${use.name} is drawn below what is usable`;
    return Math.max(0, Math.min(to, from));
  };
  const next = new Map(state).set(station, {
    right: side === "LH" ? before.right : draw(before.right),
    left: station.mirrored && side !== "RH" ? draw(before.left) : before.left,
    place: before.place,
  });
  return { state: next, overdrawn: why === undefined ? undefined : { use, why } };
}

/** Everything burnt at its unusable; what is only released is no fuel. */
export function zeroFuel(takeoff: State, fuels: ReadonlySet<string>, root: Root): State {
  const state = new Map(takeoff);
  for (const [station, contents] of takeoff)
    if (station.kind === "tank" && station.fluid && fuels.has(station.fluid.text)) {
      const each = unusableOf(station, root) ?? 0;
      state.set(station, { ...contents, right: each, left: station.mirrored ? each : 0 });
    }
  return state;
}

/**
 * The states on the way from before a use to after it between which every sum runs straight, both ends
 * included, and how much was used by then, kg in all. Two sides are drawn at the same rate, until the
 * one that has less to give has given it.
 */
export function pathOf(
  before: State,
  after: State,
  { station }: Use,
  root: Root,
): readonly { used: number; state: State }[] {
  const nothing: Contents = { right: 0, left: 0, place: undefined };
  const [from, to] = [before.get(station) ?? nothing, after.get(station) ?? nothing];
  const drawn = { right: from.right - to.right, left: from.left - to.left };
  const corners = [drawn.right, drawn.left];
  for (const level of levelsOf(station, root)) corners.push(from.right - level, from.left - level);
  const most = Math.max(drawn.right, drawn.left);
  const inner = corners.filter(it => it > 0 && it < most).sort((a, b) => a - b);
  const at = (each: number) => {
    const [right, left] = [Math.min(each, drawn.right), Math.min(each, drawn.left)];
    const contents = { right: from.right - right, left: from.left - left, place: from.place };
    return { used: right + left, state: new Map(before).set(station, contents) };
  };
  return [
    { used: 0, state: before },
    ...[...new Set(inner)].map(at),
    { used: drawn.right + drawn.left, state: after },
  ];
}

/** The contents, kg, at which a tank's moment may change its slope: its rows, and unusable elsewhere. */
export function levelsOf(station: Station, root: Root): readonly number[] {
  if (station.kind !== "tank") return [];
  const rows = station.filled.map(row => contentsMass(station, row.amount, root) ?? 0);
  return station.unusableAt ? [unusableOf(station, root) ?? 0, ...rows] : rows;
}

/**
 * A tank's contents by its `filled` rows, kg of one side. Between two rows the moment runs straight, to
 * zero at empty; above the last row its CG holds. Unusable fluid that sits elsewhere does so whatever is
 * on top of it, and the rows are then of the rest.
 */
export function fluidAt(
  station: Station,
  mass: number,
  root: Root,
): readonly (readonly [number, Place])[] {
  if (!station.unusableAt) return [[mass, centreAt(station, mass, 0, root)]];
  const below = unusableOf(station, root) ?? 0;
  const unusable = Math.min(mass, below);
  const rest = mass - unusable;
  return [
    ...(unusable > 0 ? [[unusable, station.unusableAt] as const] : []),
    ...(rest > 0 ? [[rest, centreAt(station, rest, below, root)] as const] : []),
  ];
}

function centreAt(station: Station, mass: number, below: number, root: Root): Place {
  const rows = station.filled
    .map(row => ({
      mass: (contentsMass(station, row.amount, root) ?? 0) - below,
      place: row.place,
    }))
    .filter(row => row.mass > 0);
  const last = rows.at(-1);
  if (last === undefined) return station.filled.at(-1)?.place ?? station.place;
  if (mass >= last.mass) return last.place;
  const above = rows.findIndex(row => mass < row.mass);
  const high = rows[above]!;
  const low = rows[above - 1];
  if (low === undefined) return high.place;
  const share = (mass - low.mass) / (high.mass - low.mass);
  const between = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined
      ? undefined
      : (low.mass * a + share * (high.mass * b - low.mass * a)) / mass;
  return {
    fs: between(low.place.fs, high.place.fs),
    bl: between(low.place.bl, high.place.bl),
    wl: between(low.place.wl, high.place.wl),
  };
}
