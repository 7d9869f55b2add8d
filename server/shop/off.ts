import { over } from "../checks/show";
import { beyondGrowth, nearestSlip, timesText, USUAL } from "../compute/slips";
import type { Root } from "../model/root";
import { same } from "../quantity/compare";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";
import type { Figure } from "./reading";
import { weighedSpread } from "./spread";
import { isWhole, laterWhole, type Thought, type Weighable } from "./weighable";

/** How a reading stands to what was thought of the piece. */
export interface Off {
  /** kg of one piece. */
  readonly mass: number;
  /** kg of one piece, more than was thought; undefined: nothing was. */
  readonly by: number | undefined;
  /** How many spreads of the difference that is; undefined where nobody says how far off either may be. */
  readonly spreads: number | undefined;
}

/** The spread of the difference is the root of the sum of both squared, as of a weighing and the roll-up. */
export function offOf(weighable: Weighable, figure: Figure): Off {
  const { before } = weighable;
  const mass = figure.mass / (figure.total ? weighable.pieces : 1);
  if (before === undefined) return { mass, by: undefined, spreads: undefined };
  const own = ownSpread(weighable, figure, mass);
  const by = mass - before.mass;
  const both = Math.hypot(own, before.spread);
  return { mass, by, spreads: both === 0 ? undefined : Math.abs(by) / both };
}

/** How far off a reading that comes to a mass a piece may itself be, kg of one piece. */
function ownSpread({ item, around, ...it }: Weighable, { total, spread }: Figure, mass: number) {
  const pieces = total ? it.pieces : 1;
  return spread === undefined ? weighedSpread(item, around, mass, pieces) : spread / pieces;
}

/** "3.9 lb calculated", "not known". */
export function thought(before: Thought | undefined, unit: Unit): string {
  return before ? `${show(before.mass, unit)} ${before.basis}` : "no mass yet";
}

/** "0.16 lb more, 1.3 spreads", in the unit of what was thought. */
export function toldOff(weighable: Weighable, { mass, by, spreads }: Off): string {
  const { before } = weighable;
  if (before === undefined || by === undefined)
    return isWhole(weighable) ? "not all of its parts have a mass" : "no mass was known";
  if (same(mass, before.mass)) return "the same";
  const more = `${over(mass, before.mass, before.unit).by} ${by > 0 ? "more" : "less"}`;
  if (spreads === undefined) return `${more}, no spread is declared`;
  const times = showNumber(spreads, 1);
  return `${more}, ${times} ${times === "1" ? "spread" : "spreads"} off`;
}

/** What a reading does to the assembly around it that was weighed as a whole; empty where none was. */
export function toldWithin(weighable: Weighable, root: Root, on: string): string {
  const { within, fitted } = weighable;
  if (within === undefined) return "";
  const day = within.weighed?.clause.on;
  const whole = `; ${within.path} was weighed as a whole${day ? ` on ${day.text}` : ""}`;
  const changes = root.airframe && !fitted && laterWhole(weighable, root, on) === undefined;
  return changes ? `${whole} and changes by as much` : `${whole} and keeps that figure`;
}

/**
 * What is most likely wrong with a reading, in words: another unit, a point out of place, all like pieces on
 * the scale at once, or simply further off than anyone said it may be. Undefined where nothing looks like it.
 */
export function suspicion(weighable: Weighable, figure: Figure): string | undefined {
  const { before, pieces } = weighable;
  const { mass, by } = offOf(weighable, figure);
  if (!before?.mass || by === undefined) return undefined;
  const was = `the ${show(before.mass, before.unit)} ${before.basis}`;
  const now = figure.total ? `${show(mass, before.unit)} a piece` : figure.shown;
  const times = mass / before.mass;
  // of a reading as it was thought to be: a share of a slip would excuse the slip
  const own = ownSpread(weighable, figure, before.mass);
  const both = Math.hypot(own, before.spread);
  const reach = { off: both / before.mass, growth: before.growth / before.mass };
  const together =
    pieces > 1 && !figure.total ? [{ ratio: pieces, within: 0.05, what: undefined }] : [];
  const found = nearestSlip(times, reach, together);
  const words = timesText(times);
  const likely = found?.close ? "" : "most likely ";
  if (found?.slip.what !== undefined) {
    const about = found.close ? "" : ` (${timesText(found.slip.ratio)})`;
    return `${now} is ${words} ${was}, ${likely}${found.slip.what}${about}`;
  }
  if (found) {
    const all = pieces === 2 ? "both pieces weigh together" : `all ${pieces} pieces weigh together`;
    return `${now} is ${words} ${was}, ${likely}as ${all}: write total ${figure.shown}`;
  }
  const silent = before.spread === 0;
  if (beyondGrowth(times, reach) <= Math.max(USUAL, silent ? TWICE : FAR * reach.off))
    return undefined;
  const grows =
    before.growth > 0 ? `, growth of ${show(before.growth, before.unit)} allowed for` : "";
  const held = silent
    ? "and nobody says how far off that may be: held against a factor of two"
    : `held against ± ${show(both, before.unit)} (one spread of both)`;
  const difference = over(mass, before.mass, before.unit).by;
  return `${now} is ${difference} ${by > 0 ? "more" : "less"} than ${was}, ${held}${grows}`;
}

/** Further off than this nobody takes a reading unasked: in spreads, and as a share where none is declared. */
const FAR = 5;
const TWICE = 1;
