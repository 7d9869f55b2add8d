import type { Place } from "../model/env";
import type { Load } from "../model/loading";
import type { Root } from "../model/root";
import type { Station } from "../model/station";
import { same } from "../quantity/compare";
import type { Unit } from "../quantity/units";
import { carriersOf } from "./carriers";
import { momentAt } from "./holders";
import type { Permitted } from "./permitted";
import type { Carried } from "./shrink";
import type { Shape } from "./stages";

/** A line of a loading: an amount of each side in the author's unit, or full; and where. */
export interface Item {
  readonly station: Station;
  readonly amount: { readonly figure: number; readonly unit: Unit } | "full";
  /** In the aircraft's unit of length. */
  readonly at: readonly { readonly axis: "FS" | "BL" | "WL"; readonly figure: number }[];
}

/** What amounts are carried in, and where their moments are known from. */
interface In {
  readonly shape: Shape;
  readonly permitted: Permitted;
}

/** A carried amount as it is: loads in kg of each side, where they have to be. */
export function loadsOf(carried: Carried, { shape, permitted }: In): readonly Omit<Load, "at">[] {
  return carriersOf(shape.root).list.flatMap((carrier, i) => {
    const amount = carried.amounts[i]!;
    if (amount === carrier.unnamed) return [];
    const { station, sides } = carrier;
    const place = placeOf(carried, i, permitted);
    return { station, side: undefined, mass: amount / sides, place };
  });
}

/** Undefined: where it is anyway. */
function placeOf(carried: Carried, i: number, { held }: Permitted): Place | undefined {
  const { holder, low, high } = held[i]!;
  if (low === high) return undefined;
  const amount = carried.amounts[i]!;
  const least = momentAt(holder.lower, amount);
  const span = momentAt(holder.upper, amount) - least;
  if (!(span > 0)) return undefined;
  const share = Math.min(Math.max((carried.moments[i]! - least) / span, 0), 1);
  const mix = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined || a === b ? a : a + share * (b - a);
  return { fs: mix(low.fs, high.fs), bl: mix(low.bl, high.bl), wl: mix(low.wl, high.wl) };
}

/** The lines to write; places to so many decimals, or as near as makes no difference. */
export function itemsOf(
  carried: Carried,
  { shape, permitted }: In,
  digits: number | undefined,
): readonly Item[] {
  const { root } = shape;
  return carriersOf(root).list.flatMap((carrier, i): Item[] => {
    const amount = carried.amounts[i]!;
    if (same(amount, carrier.unnamed)) return [];
    const { station, sides, levels, unit, kg } = carrier;
    const figure = figureOf(amount / sides / kg);
    const full =
      same(amount, levels.at(-1)!) && (station.kind === "tank" || String(figure).length > 8);
    const place = placeOf(carried, i, permitted);
    return [
      {
        station,
        amount: full ? "full" : { figure, unit },
        at: place ? coordsOf(place, station, root, digits) : [],
      },
    ];
  });
}

function coordsOf(
  place: Place,
  { ends }: Station,
  root: Root,
  digits: number | undefined,
): Item["at"] {
  return (["fs", "bl", "wl"] as const).flatMap(key => {
    const x = place[key];
    if (x === undefined || ends.every(end => end[key] === ends[0]![key])) return [];
    const { factor } = root.units.length;
    const rounded = Number((x / factor).toFixed(digits ?? 0));
    const reach = ends.map(end => end[key]!);
    const serves =
      digits !== undefined &&
      rounded * factor >= Math.min(...reach) &&
      rounded * factor <= Math.max(...reach);
    const figure = serves ? rounded : figureOf(x / factor);
    return { axis: key.toUpperCase() as "FS", figure };
  });
}

export function loadOf({ station, amount, at }: Item, root: Root): Omit<Load, "at"> {
  const carrier = carriersOf(root).list.find(it => it.station === station)!;
  const mass =
    amount === "full" ? carrier.levels.at(-1)! / carrier.sides : amount.figure * carrier.kg;
  const place = { ...station.place };
  for (const { axis, figure } of at)
    place[axis.toLowerCase() as keyof Place] = figure * root.units.length.factor;
  return { station, side: undefined, mass, place: at.length > 0 ? place : undefined };
}

/** The shortest figure that is the same but for rounding. */
function figureOf(value: number): number {
  for (let digits = 1; digits <= 15; digits++) {
    const short = Number(value.toPrecision(digits));
    if (same(short, value)) return short;
  }
  return value;
}
