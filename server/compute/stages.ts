import { memo } from "../memo";
import type { Place } from "../model/env";
import type { Load, Loading, Use } from "../model/loading";
import { fullOf } from "../model/loading";
import type { Root } from "../model/root";
import type { Station } from "../model/station";
import {
  type Contents,
  empty,
  fluidAt,
  loaded,
  type Overdrawn,
  pathOf,
  type State,
  used,
  zeroFuel,
} from "./contents";
import { add, type Exact, rounded } from "./exact";
import type { Sums } from "./stretch";
import {
  type Balance,
  balanceOf,
  merge,
  none,
  predictedOf,
  put,
  type Totals,
  type Vague,
  weightOf,
} from "./weight";

export interface Stage {
  readonly stage: string;
  readonly kind: "ramp" | "takeoff" | "after" | "landing" | "zero_fuel";
  /** With the basic and with the predicted empty weight. */
  readonly basic: Balance;
  readonly predicted: Balance;
  /** Of the basic state. */
  readonly sums: Sums;
  readonly overdrawn: Overdrawn | undefined;
  /** How the aircraft got here from the stage before, where that is judged: a burn or a release. */
  readonly path: Path | undefined;
}

export interface Path {
  readonly use: Use;
  /** In order, both ends included; from one to the next every sum runs straight. */
  readonly points: readonly Point[];
}

/** So much was used by then, kg of both sides together. */
export interface Point {
  readonly used: number;
  readonly basic: Sums;
  readonly predicted: Sums;
}

/** What loadings are put into: the aircraft as drawn, or with something swung. */
export interface Shape {
  readonly root: Root;
  /** Null: as drawn. */
  readonly configuration: string | null;
  readonly basic: Totals;
  readonly growth: Totals;
  readonly predicted: Totals;
  /** How many parts have no mass; whether a CG rests on such. */
  readonly unknown: number;
  /** How many of them are not understood. */
  readonly broken: number;
  readonly vague: Vague;
  /** Where a place written for a tank, seat or bay (its right-hand one) lies, on one side of it. */
  readonly moved: (station: Station, place: Place, side: 1 | -1) => Place;
}

export const asDrawn = memo((root: Root): Shape => {
  const weight = weightOf(root.aircraft);
  const { basic, growth, unknown, broken, vague } = weight;
  return {
    root,
    ...{ basic, growth, unknown, broken, vague },
    predicted: predictedOf(weight),
    configuration: null,
    moved: (_, place, side) =>
      side === 1 || place.bl === undefined ? place : { ...place, bl: -place.bl },
  };
});

/** The basic empty weight: the parts, unusable fluid, and full operating tanks. kg, m. */
export const emptyOf = memo((root: Root) => emptyBalance(asDrawn(root)));

export function emptyBalance(shape: Shape): { basic: Balance; predicted: Balance } {
  const { basic, predicted } = figuresOf(empty(shape.root), shape);
  return { basic: basic.balance, predicted: predicted.balance };
}

/** The sums of the basic empty weight: of the parts, and of the fluids where they lie. */
export function emptyTotals(shape: Shape): Totals {
  const totals = none();
  merge(totals, shape.basic);
  for (const [station, contents] of empty(shape.root))
    putContents(totals, station, contents, shape);
  return totals;
}

/** A fluid that any loading burns or taxies away is fuel. */
export function fuelsOf(loadings: readonly Loading[]): ReadonlySet<string> {
  const fuels = new Set<string>();
  for (const { uses } of loadings)
    for (const use of uses)
      if (use.kind !== "release" && use.station.fluid) fuels.add(use.station.fluid.text);
  return fuels;
}

/** What a loading puts in, and what it then uses. */
export interface Carried {
  /** Something in it is not understood: its sums are of the rest. */
  readonly broken?: boolean;
  readonly loads: readonly Omit<Load, "at">[];
  readonly uses: readonly Use[];
}

/** A loading at the ramp, at takeoff, after each burn and release, at landing and at zero fuel. */
export function stagesOf(
  loading: Carried,
  shape: Shape,
  fuels: ReadonlySet<string>,
): readonly Stage[] {
  const { root } = shape;
  const stages: Stage[] = [];
  const swung = shape.configuration !== null;
  let state = loaded(loading.loads, root);
  const counted = loading.broken ? { ...shape, unknown: shape.unknown + 1 } : shape;
  let figures = figuresOf(state, counted);
  const at = (
    stage: string,
    kind: Stage["kind"],
    overdrawn?: Stage["overdrawn"],
    path?: Stage["path"],
  ) =>
    stages.push({
      ...{ stage, kind, overdrawn, path },
      basic: figures.basic.balance,
      predicted: figures.predicted.balance,
      sums: figures.basic.sums,
    });
  // what swings is judged from takeoff on
  if (!swung) at("ramp", "ramp");
  const taxis = loading.uses.filter(use => use.kind === "taxi");
  let drawn: Stage["overdrawn"];
  for (const use of taxis) {
    const next = used(state, use, root);
    state = next.state;
    drawn ??= next.overdrawn;
  }
  if (taxis.length > 0) figures = figuresOf(state, counted);
  at("takeoff", "takeoff", drawn);
  const takeoff = state;
  const flown = loading.uses.filter(use => use.kind !== "taxi");
  for (const use of flown) {
    const next = used(state, use, root);
    const points = pathOf(state, next.state, use, root).map(point => {
      if (point.state !== state) figures = figuresOf(point.state, counted);
      return {
        used: point.used,
        basic: figures.basic.sums,
        predicted: figures.predicted.sums,
      };
    });
    state = next.state;
    at(
      `after ${use.name}`,
      "after",
      next.overdrawn,
      points.at(-1)!.used > 0 ? { use, points } : undefined,
    );
  }
  if (flown.length > 0) at("landing", "landing");
  figures = figuresOf(zeroFuel(takeoff, fuels, root), counted);
  at("zero_fuel", "zero_fuel");
  return stages;
}

interface Figures {
  readonly balance: Balance;
  readonly sums: Sums;
}

function figuresOf(state: State, shape: Shape): { basic: Figures; predicted: Figures } {
  let { unknown } = shape;
  for (const station of state.keys())
    if (station.broken || (station.kind === "tank" && fullOf(station, shape.root) === undefined))
      unknown++;
  const figures = (parts: Totals): Figures => {
    const totals = none();
    merge(totals, parts);
    for (const [station, contents] of state) putContents(totals, station, contents, shape);
    return { balance: balanceOf(totals, unknown, shape.vague), sums: sumsOf(totals) };
  };
  return { basic: figures(shape.basic), predicted: figures(shape.predicted) };
}

export function sumsOf({ mass, fs, lacksFs, bl, lacksBl }: Totals): Sums {
  return {
    mass: rounded(mass),
    fsMoment: rounded(fs),
    fsMass: placed(mass, lacksFs),
    blMoment: rounded(bl),
    blMass: placed(mass, lacksBl),
  };
}

function placed(mass: Exact, lacking: Exact): number {
  const sum = [...mass];
  for (const x of lacking) add(sum, -x);
  return rounded(sum);
}

/** Adds what is in a tank, seat or bay, where it lies in a shape. */
export function putContents(
  totals: Totals,
  station: Station,
  { right, left, place }: Contents,
  { root, moved }: Shape,
): void {
  const one = (mass: number, side: 1 | -1) => {
    if (mass === 0) return;
    for (const [part, from] of station.kind === "tank"
      ? fluidAt(station, mass, root)
      : [[mass, place ?? station.place] as const])
      put(totals, part, moved(station, from, side), false);
  };
  one(right, 1);
  if (station.mirrored) one(left, -1);
}
