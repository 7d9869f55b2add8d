import type { Axis, Clause, Point, Span } from "../../grammar/tree";
import { exceeds } from "../quantity/compare";
import type { Unit } from "../quantity/units";
import { clauseOf } from "./clauses";
import type { Core } from "./env";
import type { Setting } from "./evaluate";
import { coordinate, coordinates } from "./figures";

/** How far the aircraft reaches on each axis, in m; an end left open is undefined. */
export type Extent = Readonly<
  Partial<Record<Axis, { readonly low: number | undefined; readonly high: number | undefined }>>
>;

/** A coordinate beyond the aircraft's extent, and the end of it that it is beyond. In m. */
export interface Outside {
  readonly at: Span;
  readonly axis: Axis;
  readonly value: number;
  readonly limit: number;
  readonly end: "begins" | "ends";
  /** Only its left-hand one is outside. */
  readonly left: boolean;
  readonly unit: Unit;
}

/** What the aircraft says of itself; undefined where it says nothing. */
export function extentIn(
  clauses: readonly Clause[],
  unit: Unit,
  setting: Setting,
): Extent | undefined {
  const clause = clauseOf(clauses, "extent");
  if (clause === undefined) return undefined;
  const extent: Record<string, { low: number | undefined; high: number | undefined }> = {};
  for (const { axis, value, upTo, ...at } of clause.point.coords) {
    const [low, high] = coordinates(value, upTo, unit, axis, setting);
    if (low !== undefined && high !== undefined && low > high)
      setting.report("rows-out-of-order", at, "an extent begins with its lower end");
    else extent[axis] = { low, high };
  }
  return extent;
}

/**
 * Every written coordinate that lies outside the aircraft, of the left-hand one too where there are
 * two. An unknown place lies nowhere.
 * @param given the station that a moment gives, m, and where the moment stands
 */
export function outsideOf(
  points: readonly Point[],
  mirrored: boolean,
  core: Core,
  setting: Setting,
  given?: { readonly at: Span; readonly fs: number | undefined },
): readonly Outside[] {
  const { extent, origin, units } = core;
  if (extent === undefined) return none;
  // what is wrong with these figures has been said where the place was read
  const quiet: Setting = { ...setting, report: () => {} };
  const found: Outside[] = [];
  const judge = (axis: Axis, at: Span, value: number, left: boolean) => {
    const end = beyond(extent[axis], value);
    if (end) found.push({ at, axis, value, left, unit: units.length, ...end });
    return end !== undefined;
  };
  for (const { coords } of points)
    for (const coord of coords) {
      const { axis } = coord;
      const own = origin[axis === "FS" ? "fs" : axis === "BL" ? "bl" : "wl"];
      for (const expr of [coord.value, coord.upTo]) {
        const x = expr && coordinate(expr, units.length, axis, quiet);
        if (x === undefined || own === undefined) continue;
        if (judge(axis, coord, own + x, false)) break;
        if (axis === "BL" && mirrored && judge(axis, coord, -(own + x), true)) break;
      }
    }
  if (given?.fs !== undefined) judge("FS", given.at, given.fs, false);
  return found.length === 0 ? none : found;
}

const none: readonly Outside[] = [];

function beyond(
  range: Extent[Axis],
  value: number,
): { readonly limit: number; readonly end: Outside["end"] } | undefined {
  if (range === undefined) return undefined;
  const { low, high } = range;
  if (low !== undefined && exceeds(low, value)) return { limit: low, end: "begins" };
  if (high !== undefined && exceeds(value, high)) return { limit: high, end: "ends" };
  return undefined;
}

export function sameExtent(a: Extent | undefined, b: Extent | undefined): boolean {
  if (a === b) return true;
  if (a === undefined || b === undefined) return false;
  return (["FS", "BL", "WL"] as const).every(
    axis => a[axis]?.low === b[axis]?.low && a[axis]?.high === b[axis]?.high,
  );
}
