import { over } from "../checks/show";
import { slipOf } from "../compute/slips";
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
  const { before, item, around } = weighable;
  const pieces = figure.total ? weighable.pieces : 1;
  const mass = figure.mass / pieces;
  if (before === undefined) return { mass, by: undefined, spreads: undefined };
  const own =
    figure.spread === undefined
      ? weighedSpread(item, around, mass, pieces)
      : figure.spread / pieces;
  const by = mass - before.mass;
  const both = Math.hypot(own, before.spread);
  return { mass, by, spreads: both === 0 ? undefined : Math.abs(by) / both };
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
 * What is most likely wrong with a reading, in words: another unit, a point out of place, or all like
 * pieces on the scale at once. Undefined where nothing looks like it.
 */
export function suspicion(weighable: Weighable, figure: Figure): string | undefined {
  const { before, pieces } = weighable;
  const { mass, by } = offOf(weighable, figure);
  if (!before?.mass || by === undefined) return undefined;
  const was = `the ${show(before.mass, before.unit)} ${before.basis}`;
  const now = figure.total ? `${show(mass, before.unit)} a piece` : figure.shown;
  const slip = slipOf(mass, before.mass);
  if (slip) return `${now} is ${slip.words} ${was}, ${slip.what}`;
  const times = mass / before.mass;
  if (pieces > 1 && !figure.total && Math.abs(times / pieces - 1) < 0.05) {
    const all = pieces === 2 ? "both pieces weigh together" : `all ${pieces} pieces weigh together`;
    return `${now} is ${pieces} times ${was}, as ${all}: write total ${figure.shown}`;
  }
  return undefined;
}
