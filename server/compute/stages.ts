import { memo } from "../memo";
import type { Place } from "../model/env";
import type { Load, Loading, Use } from "../model/loading";
import { contentsMass, fullOf, unusableOf } from "../model/loading";
import type { Root } from "../model/root";
import type { Station } from "../model/station";
import {
  type Balance,
  balanceOf,
  merge,
  none,
  predictedOf,
  put,
  type Totals,
  weightOf,
} from "./weight";

/** What is in a place, kg: right, and left where there are two. */
interface Contents {
  readonly right: number;
  readonly left: number;
  readonly place: Place | undefined;
}
type State = ReadonlyMap<Station, Contents>;

export interface Stage {
  readonly stage: string;
  readonly kind: "ramp" | "takeoff" | "after" | "landing" | "zero_fuel";
  /** With the basic and with the predicted empty weight. */
  readonly basic: Balance;
  readonly predicted: Balance;
  /** What was taken from a tank that did not have it, or below what is usable. */
  readonly overdrawn: { readonly use: Use; readonly why: string } | undefined;
}

/** The basic empty weight: the parts, unusable fluid, and full operating tanks. kg, m. */
export const emptyOf = memo((root: Root) => ({
  basic: balance(root, empty(root), "basic"),
  predicted: balance(root, empty(root), "predicted"),
}));

/** A fluid that any loading burns or taxies away is fuel. */
export function fuelsOf(loadings: readonly Loading[]): ReadonlySet<string> {
  const fuels = new Set<string>();
  for (const { uses } of loadings)
    for (const use of uses)
      if (use.kind !== "release" && use.station.fluid) fuels.add(use.station.fluid.text);
  return fuels;
}

/** A loading at the ramp, at takeoff, after each burn and release, at landing and at zero fuel. */
export function stagesOf(
  loading: Loading,
  root: Root,
  fuels: ReadonlySet<string>,
): readonly Stage[] {
  const stages: Stage[] = [];
  let state = loaded(loading.loads, root);
  const at = (stage: string, kind: Stage["kind"], of: State, overdrawn?: Stage["overdrawn"]) =>
    stages.push({
      stage,
      kind,
      basic: balance(root, of, "basic"),
      predicted: balance(root, of, "predicted"),
      overdrawn,
    });
  at("ramp", "ramp", state);
  const taxis = loading.uses.filter(use => use.kind === "taxi");
  let drawn: Stage["overdrawn"];
  for (const use of taxis) {
    const next = used(state, use, root);
    state = next.state;
    drawn ??= next.overdrawn;
  }
  at("takeoff", "takeoff", state, drawn);
  const takeoff = state;
  const flown = loading.uses.filter(use => use.kind !== "taxi");
  for (const use of flown) {
    const next = used(state, use, root);
    state = next.state;
    at(`after ${use.name}`, "after", state, next.overdrawn);
  }
  if (flown.length > 0) at("landing", "landing", state);
  at("zero_fuel", "zero_fuel", zeroFuel(takeoff, fuels, root));
  return stages;
}

const empty = memo((root: Root): State => {
  const state = new Map<Station, Contents>();
  for (const station of root.aircraft.stations) {
    if (station.kind !== "tank") continue;
    const each = (station.operating ? fullOf(station, root) : unusableOf(station, root)) ?? 0;
    state.set(station, { right: each, left: station.mirrored ? each : 0, place: undefined });
  }
  return state;
});

function loaded(loads: readonly Load[], root: Root): State {
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

function used(state: State, use: Use, root: Root): { state: State; overdrawn: Stage["overdrawn"] } {
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

function zeroFuel(takeoff: State, fuels: ReadonlySet<string>, root: Root): State {
  const state = new Map(takeoff);
  for (const [station, contents] of takeoff)
    if (station.kind === "tank" && station.fluid && fuels.has(station.fluid.text)) {
      const each = unusableOf(station, root) ?? 0;
      state.set(station, { ...contents, right: each, left: station.mirrored ? each : 0 });
    }
  return state;
}

function balance(root: Root, state: State, which: "basic" | "predicted"): Balance {
  const weight = weightOf(root.aircraft);
  const totals = none();
  merge(totals, which === "basic" ? weight.basic : predictedOf(weight));
  let unknown = weight.unknown;
  for (const [station, contents] of state) {
    putContents(totals, station, contents, root);
    if (station.kind === "tank" && fullOf(station, root) === undefined) unknown++;
  }
  return balanceOf(totals, unknown, weight.vague);
}

function putContents(
  totals: Totals,
  station: Station,
  { right, left, place }: Contents,
  root: Root,
): void {
  const one = (mass: number, side: 1 | -1) => {
    if (mass === 0) return;
    for (const [part, at] of station.kind === "tank"
      ? fluidAt(station, mass, root)
      : [[mass, place ?? station.place] as const])
      put(totals, part, { ...at, bl: at.bl === undefined ? undefined : side * at.bl }, false);
  };
  one(right, 1);
  if (station.mirrored) one(left, -1);
}

/**
 * A tank's contents by its `filled` rows. Between two rows the moment runs straight, to zero at empty;
 * above the last row its CG holds. Unusable fluid may sit elsewhere.
 */
function fluidAt(
  station: Station,
  mass: number,
  root: Root,
): readonly (readonly [number, Place])[] {
  const unusable = Math.min(mass, unusableOf(station, root) ?? 0);
  if (station.unusableAt && unusable > 0) {
    const rest = mass - unusable;
    return [
      [unusable, station.unusableAt],
      ...(rest > 0 ? [[rest, centreAt(station, mass, root)] as const] : []),
    ];
  }
  return [[mass, centreAt(station, mass, root)]];
}

function centreAt(station: Station, mass: number, root: Root): Place {
  const rows = station.filled.map(row => ({
    mass: contentsMass(station, row.amount, root) ?? 0,
    place: row.place,
  }));
  const last = rows.at(-1);
  if (last === undefined) return station.place;
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
