import type { Point } from "../../grammar/tree";
import type { Unit } from "../quantity/units";
import type { Core, Edit, Place, Side } from "./env";
import type { Setting } from "./evaluate";
import { coordinates } from "./figures";

export const nowhere: Place = { fs: undefined, bl: undefined, wl: undefined };

/** A place as written; BL is 0 where the point does not say it, FS and WL are unknown. */
export function placeOf(point: Point, unit: Unit, setting: Setting): Place {
  let fs: number | undefined;
  let bl: number | undefined = 0;
  let wl: number | undefined;
  const said = new Set<string>();
  for (const { axis, value, upTo, ...at } of point.coords) {
    if (said.has(axis)) setting.report("declared-twice", at, `${axis} stands here twice`);
    said.add(axis);
    const [low, high] = coordinates(value, upTo, unit, axis, setting);
    // a seat's range of arms means its middle where no loading says more
    const x = low !== undefined && high !== undefined ? (low + high) / 2 : low;
    if (axis === "FS") fs = x;
    else if (axis === "BL") bl = x;
    else wl = x;
  }
  return { fs, bl, wl };
}

/** The places at the ends of a point's ranges, each axis by itself; the one place without any. */
export function endsOf(point: Point, unit: Unit, setting: Setting): readonly Place[] {
  let ends: readonly Place[] = [placeOf(point, unit, setting)];
  for (const { axis, value, upTo } of point.coords) {
    if (upTo === undefined) continue;
    const key = axis === "FS" ? "fs" : axis === "BL" ? "bl" : "wl";
    const both = coordinates(value, upTo, unit, axis, setting);
    ends = ends.flatMap(end => both.map(x => ({ ...end, [key]: x })));
  }
  return ends;
}

/** A place in a frame as a place in the aircraft. Unknown in either is unknown. */
export function inFrame(origin: Place, place: Place): Place {
  if (origin.fs === 0 && origin.bl === 0 && origin.wl === 0) return place;
  return {
    fs: add(origin.fs, place.fs),
    bl: add(origin.bl, place.bl),
    wl: add(origin.wl, place.wl),
  };
}

/** A place written in an assembly as a place in the aircraft: of a left-hand one turned over. */
export function placedIn(core: Core, place: Place): Place {
  const right = inFrame(core.origin, place);
  return core.side === "LH" ? turnedOver(right) : right;
}

/** On the other side of the plane of symmetry. */
export const turnedOver = (place: Place): Place => ({
  ...place,
  bl: place.bl === undefined || place.bl === 0 ? place.bl : -place.bl,
});

const add = (a: number | undefined, b: number | undefined) =>
  a === undefined || b === undefined ? undefined : a + b;

/** The middle of a span: its mass is spread evenly along the line. */
export function middle(a: Place, b: Place): Place {
  const mean = (x: number | undefined, y: number | undefined) =>
    x === undefined || y === undefined ? undefined : (x + y) / 2;
  return { fs: mean(a.fs, b.fs), bl: mean(a.bl, b.bl), wl: mean(a.wl, b.wl) };
}

/**
 * Where an airframe says that something with a place of its own lies, move after move: what one leaves out
 * stays. Of one side it is where it is, else it is said of the right-hand one.
 * @param place as written, in the frame around it
 * @param side of something mirrored that is read apart
 */
export function movedTo(
  place: Place,
  edits: readonly Edit[],
  length: Unit,
  side: Side | undefined,
  setting: Setting,
): Place {
  let now = place;
  for (const { does, words, point, scope, sided } of edits) {
    if (does !== "move" || words.length > 0 || point === undefined) continue;
    const said = placeOf(point, length, { ...setting, scope });
    const there = sided && side === "LH" ? turnedOver(said) : said;
    const says = (axis: string) => point.coords.some(it => it.axis === axis);
    now = {
      fs: says("FS") ? there.fs : now.fs,
      bl: says("BL") ? there.bl : now.bl,
      wl: says("WL") ? there.wl : now.wl,
    };
  }
  return now;
}
