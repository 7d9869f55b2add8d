import type { Amount, Expr, Item, Path, Span, StatementOf } from "../../grammar/tree";
import { exceeds } from "../quantity/compare";
import { MASS, nameOf, PLAIN, VOLUME } from "../quantity/dimension";
import type { Quantity } from "../quantity/quantity";
import type { Unit } from "../quantity/units";
import { isBlockUnread } from "./clauses";
import type { Place } from "./env";
import type { Envelope } from "./envelope";
import { evaluate, type Setting } from "./evaluate";
import { collector, type Fault } from "./fault";
import { noSums } from "./part";
import { placeOf } from "./places";
import type { Root } from "./root";
import type { Station } from "./station";

/** Where something may be loaded, on one side or, of a mirrored one without a side, on both. */
export interface Spot {
  readonly station: Station;
  readonly side: "RH" | "LH" | undefined;
}

export interface Load extends Spot {
  /** kg on each side it speaks for. */
  readonly mass: number;
  /** Where a seat or bay says so itself. */
  readonly place: Place | undefined;
  readonly at: Span;
}

export interface Use extends Spot {
  readonly kind: "burn" | "release" | "taxi";
  /** kg on each side: down to this, or by this. */
  readonly downTo: number | undefined;
  readonly by: number | undefined;
  /** The author's, where an amount was given as a volume or a mass. */
  readonly unit: Unit | undefined;
  readonly at: Span;
  readonly name: string;
}

export interface Loading {
  readonly item: Item;
  readonly name: string;
  readonly title: string | undefined;
  readonly at: Span;
  readonly loads: readonly Load[];
  readonly uses: readonly Use[];
  readonly envelopes: readonly Envelope[];
  /** Something in it could not be understood: its figures rest on less than it says. */
  readonly broken: boolean;
  readonly faults: readonly Fault[];
}

/** A loading with its amounts in kg. A loading without `under` is judged under every envelope. */
export function loadingOf(item: Item, root: Root): Loading {
  const head = item.head as StatementOf<"loading">;
  const { report, found } = collector();
  const setting: Setting = { scope: root.scope, report, ask: noSums(report) };
  let broken = isBlockUnread(item);
  const loads: Load[] = [];
  const uses: Use[] = [];
  for (const { head: line } of item.items) {
    if (line.kind === "load") {
      const spot = spotAt(line.path, root, setting);
      const mass = spot && line.amount && amountIn(spot, line.amount, root, setting);
      if (spot === undefined || mass === undefined || spot.station.broken) broken = true;
      if (spot === undefined || mass === undefined) continue;
      const at = line.at && placeOf(line.at, root.units.length, setting);
      const says = (axis: string) => line.at?.coords.some(coord => coord.axis === axis) === true;
      const own = spot.station.place;
      const place = at && {
        fs: says("FS") ? at.fs : own.fs,
        bl: says("BL") ? at.bl : own.bl,
        wl: says("WL") ? at.wl : own.wl,
      };
      checkRange(spot.station, mass, line.amount!, root, setting);
      const again = loads.some(it => it.station === spot.station && it.side === spot.side);
      if (again || (place && place.fs === undefined && own.fs !== undefined)) broken = true;
      if (again) report("declared-twice", line.path, `${line.path.text} is loaded twice`);
      loads.push({ ...spot, mass, place, at: line.path });
    } else if (line.kind === "burn" || line.kind === "release" || line.kind === "taxi") {
      const spot = line.path && spotAt(line.path, root, setting);
      if (spot === undefined || spot.station.broken) broken = true;
      if (spot === undefined) continue;
      const says = line.amount?.value !== undefined || line.amount?.full === true;
      const mass = says ? amountIn(spot, line.amount!, root, setting) : undefined;
      if ((says || line.downTo) && mass === undefined) broken = true;
      if (says && mass === undefined) continue;
      const nothing = line.kind === "release" ? 0 : (unusableOf(spot.station, root) ?? 0);
      uses.push({
        ...spot,
        kind: line.kind,
        downTo: mass === undefined ? nothing : line.downTo ? mass : undefined,
        by: mass === undefined || line.downTo ? undefined : mass,
        unit: says ? unitIn(line.amount?.value, setting) : undefined,
        at: line.path!,
        name: line.path!.text,
      });
    }
  }
  const envelopes = head.under.flatMap(word => {
    const envelope = root.envelopes.find(it => it.name === word.text);
    if (envelope === undefined) report("unknown-name", word, `no envelope is called ${word.text}`);
    return envelope ?? [];
  });
  return {
    item,
    name: head.name?.text ?? "",
    title: head.title?.text,
    at: head.name ?? head,
    loads,
    // what is used in taxiing is used first, wherever it stands
    uses: [...uses.filter(it => it.kind === "taxi"), ...uses.filter(it => it.kind !== "taxi")],
    envelopes: head.under.length === 0 ? root.envelopes : envelopes,
    broken,
    faults: found(),
  };
}

/** The tank, seat or bay a path means; `LH` or `RH` stands right after what is mirrored. */
export function spotAt(path: Path, root: Root, setting: Setting): Spot | undefined {
  const words = path.words.map(word => word.text);
  const sides = words.filter(word => word === "LH" || word === "RH");
  const plain = words.filter(word => word !== "LH" && word !== "RH").join(".");
  const station = root.aircraft.stations.find(it => it.path === plain);
  if (station === undefined) {
    setting.report("unknown-name", path, `no tank, seat or bay is called ${path.text}`);
    return undefined;
  }
  const side = sides[0] as "RH" | "LH" | undefined;
  if (side && !station.mirrored) {
    setting.report("unknown-name", path, `${plain} is not mirrored: it has no ${side}`);
    return undefined;
  }
  return { station, side };
}

/** kg on one side. */
export function amountIn(
  spot: Spot,
  amount: Amount,
  root: Root,
  setting: Setting,
): number | undefined {
  const { station } = spot;
  const sides = station.mirrored && spot.side === undefined ? 2 : 1;
  if (amount.full)
    return station.kind === "tank" ? fullOf(station, root) : station.range?.[1].value;
  const mass = amount.value && massIn(station, amount.value, root, setting);
  if (mass === undefined) return undefined;
  const each = amount.sides === "total" ? mass / sides : mass;
  return amount.usable ? each + (unusableOf(station, root) ?? 0) : each;
}

function massIn(station: Station, expr: Expr, root: Root, setting: Setting): number | undefined {
  const value = evaluate(expr, setting);
  if (value === undefined) return undefined;
  if (value.value < 0) {
    setting.report("negative-mass", expr, "this amount is negative");
    return undefined;
  }
  if (value.dimension === MASS) return value.value;
  if (station.kind === "tank" && value.dimension === VOLUME)
    return contentsMass(station, value, root);
  if (station.kind === "tank" && value.dimension === PLAIN && value.unit?.name === "%") {
    const full = fullOf(station, root);
    return full === undefined ? undefined : full * value.value;
  }
  const code = value.dimension === PLAIN ? "unit-missing" : "wrong-dimension";
  const wanted = station.kind === "tank" ? "a volume or a mass" : "a mass";
  setting.report(code, expr, `this amount is ${wanted}, not ${nameOf(value.dimension)}`);
  return undefined;
}

function unitIn(expr: Expr | undefined, setting: Setting): Unit | undefined {
  // what is wrong with it was said when it was read
  const amount = expr && evaluate(expr, { ...setting, report: () => {} });
  const kinds = [MASS, VOLUME];
  return amount && kinds.includes(amount.dimension) ? amount.unit : undefined;
}

/** kg of an amount of a tank's fluid; undefined where the density is not known. */
export function contentsMass(
  station: Station,
  amount: Quantity | undefined,
  root: Root,
): number | undefined {
  if (amount === undefined) return undefined;
  if (amount.dimension === MASS) return amount.value;
  const density = station.fluid && root.fluids.get(station.fluid.text)?.density;
  return density === undefined ? undefined : amount.value * density;
}

export const fullOf = (station: Station, root: Root) => contentsMass(station, station.holds, root);
export const unusableOf = (station: Station, root: Root) =>
  station.unusable === undefined ? 0 : contentsMass(station, station.unusable, root);

/** Does it hold so much, or is it in its range? A fault where not. */
export function checkRange(
  station: Station,
  mass: number,
  amount: Amount,
  root: Root,
  setting: Setting,
): boolean {
  if (station.kind === "tank") {
    const full = fullOf(station, root);
    if (full === undefined || !exceeds(mass, full)) return true;
    setting.report("out-of-range", amount, `${station.path} does not hold so much`);
    return false;
  }
  if (station.range === undefined) return true;
  const [low, high] = station.range;
  if (!exceeds(mass, high.value) && (mass === 0 || !exceeds(low.value, mass))) return true;
  setting.report("out-of-range", amount, `this is outside the range of ${station.path}`);
  return false;
}
