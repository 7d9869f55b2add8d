import type { Declaration, Item, Point, Word } from "../../grammar/tree";
import { exceeds } from "../quantity/compare";
import { MASS, PLAIN, VOLUME } from "../quantity/dimension";
import type { Quantity } from "../quantity/quantity";
import { clauseOf, clausesOf, isUnread } from "./clauses";
import { type Core, type Edit, joinPath, type Place } from "./env";
import { evaluate, type Setting } from "./evaluate";
import { type Outside, outsideOf } from "./extent";
import { collector, type Fault } from "./fault";
import { massOf } from "./figures";
import { reportAgain } from "./once";
import { noSums } from "./part";
import { endsOf, inFrame, movedTo, nowhere, placeOf } from "./places";
import type { Scope } from "./scope";

/** Where something is loaded: what is in it belongs to a loading, never to an assembly's mass. */
export interface Station {
  readonly kind: "tank" | "seat" | "bay";
  readonly item: Item;
  readonly head: Declaration;
  readonly name: string;
  readonly path: string;
  readonly mirrored: boolean;
  /** Its CG, of the right-hand one where there are two. */
  readonly place: Place;
  /** The corners of where its load may be: more than one where it gives a range of arms. */
  readonly ends: readonly Place[];
  readonly range: readonly [Quantity, Quantity] | undefined;
  readonly fluid: Word | undefined;
  /** Of one side: a volume, or a mass. */
  readonly holds: Quantity | undefined;
  readonly unusable: Quantity | undefined;
  readonly unusableAt: Place | undefined;
  /** Full in the empty aircraft, such as an oil tank. */
  readonly operating: boolean;
  /** The CG of the contents by amount, from the lowest: whole contents, unusable included. */
  readonly filled: readonly {
    readonly amount: Quantity;
    readonly place: Place;
    readonly expr: Point;
  }[];
  /** Coordinates beyond the aircraft's extent, of the rows too. */
  readonly outside: readonly Outside[];
  readonly core: Core;
  readonly scope: Scope;
  /** Something in it is not understood: no loading that uses it is judged. */
  readonly broken: boolean;
  readonly faults: readonly Fault[];
}

export function stationOf(
  item: Item,
  name: string,
  core: Core,
  scope: Scope,
  edits: readonly Edit[] = [],
): Station {
  const before = core.read.get(item) as Station | undefined;
  if (before?.scope === scope) return before;
  const station = readStation(item, name, core, scope, edits);
  core.read.set(item, station);
  return station;
}

function readStation(
  item: Item,
  name: string,
  core: Core,
  scope: Scope,
  edits: readonly Edit[],
): Station {
  const head = item.head as Declaration;
  const { report, found } = collector();
  const setting: Setting = { scope, report, ask: noSums(report) };
  const clauses = clausesOf(item);
  reportAgain(clauses, report);
  const mirrored = clauses.some(clause => clause.kind === "mirrored") || core.mirrored;
  const { length } = core.units;
  const unusable = clauseOf(clauses, "unusable");
  const at = clauseOf(clauses, "at")?.point ?? unusable?.at;
  const lies = (place: Place) =>
    inFrame(core.origin, movedTo(place, edits, length, undefined, setting));
  const written = at ? placeOf(at, length, setting) : nowhere;
  const drawn = at ? inFrame(core.origin, written) : nowhere;
  const place = at ? lies(written) : nowhere;
  // what is wrong with the place was said when it was read
  const quiet = { ...setting, report: () => {} };
  const ends = at ? endsOf(at, length, quiet).map(lies) : [nowhere];
  const holds = clauseOf(clauses, "holds");
  const range = clauseOf(clauses, "range");
  const [low, high] = [
    massOf(range?.low, "a range", setting),
    massOf(range?.high, "a range", setting),
  ];
  if (low && high && low.value > high.value)
    report("rows-out-of-order", range!, "a range begins with its lower end");

  // what a point inside leaves out is the tank's
  const placeWithin = (point: Point): Place => {
    const there = inFrame(core.origin, placeOf(point, length, setting));
    const says = (axis: string) => point.coords.some(coord => coord.axis === axis);
    // it goes where the tank goes
    const by = (axis: "fs" | "bl" | "wl") =>
      place[axis] === undefined ? 0 : place[axis] - (drawn[axis] ?? place[axis]);
    const gone = (axis: "fs" | "bl" | "wl") => {
      const x = there[axis];
      return x === undefined ? undefined : x + by(axis);
    };
    return {
      fs: says("FS") ? gone("fs") : place.fs,
      bl: says("BL") ? gone("bl") : place.bl,
      wl: says("WL") ? gone("wl") : place.wl,
    };
  };
  const filled = clauses.flatMap(clause => {
    if (clause.kind !== "filled") return [];
    const amount = contents(clause.value, setting);
    if (amount === undefined) return [];
    return [{ amount, expr: clause.point, place: placeWithin(clause.point) }];
  });
  filled.forEach((row, i) => {
    if (i > 0 && row.amount.value <= filled[i - 1]!.amount.value)
      report("rows-out-of-order", row.expr, "each row of a tank is fuller than the one before");
  });

  const [most, least] = [contents(holds?.value, setting), contents(unusable?.value, setting)];
  if (most && least && most.dimension === least.dimension && exceeds(least.value, most.value))
    report("out-of-range", unusable!, `${name} does not hold so much: this is more than all of it`);
  return {
    kind: head.kind as Station["kind"],
    item,
    head,
    name,
    path: joinPath(core.path, name),
    mirrored,
    place,
    ends,
    range: low && high ? [low, high] : undefined,
    fluid: holds?.of,
    holds: most,
    unusable: least,
    unusableAt: unusable?.at && placeWithin(unusable.at),
    operating: clauses.some(clause => clause.kind === "operating"),
    filled,
    outside: outsideOf(
      clauses.flatMap(it =>
        it.kind === "at" || it.kind === "filled"
          ? it.point
          : it.kind === "unusable"
            ? (it.at ?? [])
            : [],
      ),
      mirrored,
      core,
      setting,
    ),
    core,
    scope,
    broken: found().length > 0 || isUnread(clauses),
    faults: found(),
  };
}

/** An amount of a fluid: a volume or a mass. */
export function contents(
  expr: Parameters<typeof massOf>[0],
  setting: Setting,
): Quantity | undefined {
  if (expr === undefined) return undefined;
  const value = evaluate(expr, setting);
  if (value === undefined) return undefined;
  if (value.dimension !== MASS && value.dimension !== VOLUME) {
    const code = value.dimension === PLAIN ? "unit-missing" : "wrong-dimension";
    setting.report(code, expr, "an amount of fluid is a volume or a mass");
    return undefined;
  }
  if (value.value >= 0) return value;
  setting.report("negative-mass", expr, "this amount is negative");
  return undefined;
}
