import type { Axis, Clause, Point, Toward } from "../../grammar/tree";
import { ANGLE } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { clauseOf } from "./clauses";
import type { Place } from "./env";
import type { Setting } from "./evaluate";
import { figure } from "./figures";
import { inFrame, placeOf } from "./places";

/** How an assembly moves: about a line, by an angle. In the aircraft's axes, of the right-hand one. */
export interface Swing {
  readonly clause: Clause;
  /** A point of the hinge. */
  readonly hinge: readonly [number, number, number];
  /** Along the hinge, of length one: aft, right, up. */
  readonly axis: readonly [number, number, number];
  /** Radians: by the right-hand rule, or the way `toward` says. */
  readonly angle: number;
  /** Which way its CG sets off. */
  readonly toward: Toward | undefined;
}

/**
 * @param origin of the frame the assembly stands in: its header is measured there, not in its own
 * @param left the swing of the left-hand one, the mirror image of what is written
 */
export function swingOf(
  clauses: readonly Clause[],
  origin: Place,
  length: Unit,
  setting: Setting,
  left = false,
): Swing | undefined {
  const clause = clauseOf(clauses, "swing");
  if (clause === undefined) return undefined;
  const angle = figure(clause.angle, ANGLE, "the angle of a swing", setting)?.value;
  const placed = (point: Point) => inFrame(origin, placeOf(point, length, setting));
  let hinge: Place | undefined;
  let axis: readonly [number, number, number] | undefined;
  if (clause.ends) {
    const [a, b] = clause.ends.map(point => solid(placed(point)));
    if (a && b) {
      const along = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
      const size = Math.hypot(...along);
      if (size < 1e-9) {
        setting.report("syntax", clause, "a hinge runs between two points: these are one");
        return undefined;
      }
      hinge = placed(clause.ends[0]);
      axis = [along[0] / size, along[1] / size, along[2] / size];
    }
  } else if (clause.axis && clause.at) {
    axis = units[clause.axis];
    // where along the hinge the point lies makes no difference
    const own = axisKey[clause.axis];
    hinge = { ...placed(clause.at), [own]: 0 };
  }
  if (angle === undefined || axis === undefined) {
    if (clause.angle === undefined || (clause.axis === undefined && clause.ends === undefined))
      setting.report("syntax", clause, "a swing says its angle and the hinge it is about");
    else if (angle !== undefined)
      setting.report("syntax", clause, "a hinge needs its place: at FS …, WL …");
    return undefined;
  }
  const point = hinge && solid(hinge);
  if (point === undefined) {
    setting.report("syntax", clause, "the place of this hinge is not known in both directions");
    return undefined;
  }
  if (clause.toward && angle < 0) {
    setting.report("out-of-range", clause.angle!, "the word says which way: the angle is positive");
    return undefined;
  }
  const { toward } = clause;
  if (!left) return { clause, hinge: point, axis, angle, toward };
  // a mirror turns a screw the other way; a word that says where the CG sets off it turns with it
  return {
    ...{ clause, toward },
    hinge: [point[0], -point[1], point[2]],
    axis: [axis[0], -axis[1], axis[2]],
    angle: toward === undefined ? -angle : angle,
  };
}

const units: Readonly<Record<Axis, readonly [number, number, number]>> = {
  FS: [1, 0, 0],
  BL: [0, 1, 0],
  WL: [0, 0, 1],
};
const axisKey = { FS: "fs", BL: "bl", WL: "wl" } as const;

function solid({ fs, bl, wl }: Place): readonly [number, number, number] | undefined {
  return fs === undefined || bl === undefined || wl === undefined ? undefined : [fs, bl, wl];
}
