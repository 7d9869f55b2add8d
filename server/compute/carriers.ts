import { memo } from "../memo";
import type { Place } from "../model/env";
import { fullOf, unusableOf } from "../model/loading";
import type { Root } from "../model/root";
import type { Station } from "../model/station";
import { VOLUME } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { levelsOf } from "./contents";
import { rounded } from "./exact";
import { flightsOf } from "./flights";
import type { Corner, Holder } from "./holders";
import { fuelsOf, putContents, type Shape } from "./stages";
import { none } from "./weight";

/** A seat, bay or tank that a loading may fill; both sides of a mirrored one alike. */
export interface Carrier {
  readonly station: Station;
  readonly sides: 1 | 2;
  readonly fuel: boolean;
  /**
   * kg of both sides together, from the least to the most; between two of them every moment runs
   * straight. A range counts as it is written, its least included; a tank's is its unusable fluid.
   */
  readonly levels: readonly number[];
  /** kg of both sides that are there where no loading names it. */
  readonly unnamed: number;
  /** The author's: of a tank as it says what it holds, of a seat or bay as its range. */
  readonly unit: Unit;
  /** kg in one of that unit. */
  readonly kg: number;
}

export interface Carriers {
  readonly list: readonly Carrier[];
  /** Full in every loading: operating tanks whose fluid no loading burns. */
  readonly full: readonly { readonly station: Station; readonly each: number }[];
  /** Seats and bays without a range: they stay empty. */
  readonly idle: readonly Station[];
  /** Some tank's contents are not known. */
  readonly vague: boolean;
}

/** What a root's loadings may fill. A range or contents that end before they begin are not known. */
export const carriersOf = memo((root: Root): Carriers => {
  const fuels = fuelsOf(flightsOf(root).map(it => it.loading));
  const list: Carrier[] = [];
  const full: Carriers["full"][number][] = [];
  const idle: Station[] = [];
  let vague = false;
  for (const station of root.aircraft.stations) {
    const sides = station.mirrored ? 2 : 1;
    const fuel = station.fluid !== undefined && fuels.has(station.fluid.text);
    const add = (least: number, most: number, between: readonly number[], unnamed: number) => {
      if (!(least <= most)) vague = true;
      const inner = between.filter(it => it > least && it < most);
      const levels = [...new Set([least, ...inner, most])].sort((a, b) => a - b);
      const unit = unitOf(station, root);
      list.push({
        ...{ station, sides, fuel },
        levels: levels.map(it => it * sides),
        unnamed: unnamed * sides,
        unit,
        kg: kgIn(unit, station, root),
      });
    };
    if (station.kind !== "tank")
      if (station.range) add(station.range[0].value, station.range[1].value, [], 0);
      else idle.push(station);
    else {
      const [least, most] = [unusableOf(station, root), fullOf(station, root)];
      if (least === undefined || most === undefined) vague = true;
      else if (!station.operating) add(least, most, levelsOf(station, root), least);
      else if (fuel) add(least, most, levelsOf(station, root), most);
      else full.push({ station, each: most });
    }
  }
  return { list, full, idle, vague };
});

function unitOf({ kind, holds, range }: Station, root: Root): Unit {
  if (kind !== "tank") return range?.[1].unit ?? root.units.mass;
  return holds?.unit ?? (holds?.dimension === VOLUME ? root.units.volume : root.units.mass);
}

function kgIn(unit: Unit, { fluid }: Station, root: Root): number {
  const density = unit.dimension === VOLUME ? root.fluids.get(fluid?.text ?? "")?.density : 1;
  return unit.factor * (density ?? 1);
}

/** A holder's moments about one axis, and the places a load is at for either of its curves. */
export interface Held {
  readonly holder: Holder;
  readonly low: Place;
  readonly high: Place;
}

/** Undefined where an arm is not known. */
export function heldBy(carrier: Carrier, shape: Shape, axis: "fs" | "bl"): Held | undefined {
  const { station, sides, levels } = carrier;
  const momentOf = (mass: number, place: Place | undefined) => {
    const totals = none();
    const each = mass / sides;
    putContents(totals, station, { right: each, left: sides === 2 ? each : 0, place }, shape);
    const lacks = axis === "fs" ? totals.lacksFs : totals.lacksBl;
    return lacks.length > 0 ? Number.NaN : rounded(totals[axis]);
  };
  const [first = station.place, ...others] = station.kind === "tank" ? [] : station.ends;
  let [low, high] = [first, first];
  if (others.length > 0) {
    const reach = (place: Place) => momentOf(1, place);
    for (const place of others) {
      if (reach(place) < reach(low)) low = place;
      if (reach(place) > reach(high)) high = place;
    }
  }
  const curve = (place: Place | undefined): readonly Corner[] =>
    levels.map(amount => ({ amount, moment: momentOf(amount, place) }));
  const lower = curve(station.kind === "tank" ? undefined : low);
  const upper = low === high ? lower : curve(high);
  if ([...lower, ...upper].some(it => Number.isNaN(it.moment))) return undefined;
  return { holder: { lower, upper }, low, high };
}
