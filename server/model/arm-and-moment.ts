import type { Clause, ClauseOf, Span } from "../../grammar/tree";
import { MOMENT } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { clauseOf } from "./clauses";
import type { Core } from "./env";
import { evaluate, type Setting } from "./evaluate";
import { coordinate, figure } from "./figures";
import { slackOf } from "./printed";
import type { MassRecord } from "./records";

/** The two stations of a piece that has an arm and a moment: one of them is a slip. */
export interface ArmAndMoment {
  /** The arm, where it is written. */
  readonly at: Span;
  readonly momentAt: Span;
  /** m, both in the frame the arm is written in. */
  readonly said: number;
  readonly given: number;
  /** The author's, of the arm. */
  readonly unit: Unit;
  /** kg m between arm × mass and the moment, and how much of it the printed digits allow. */
  readonly off: number;
  readonly slack: number;
}

/**
 * Arm and moment side by side, where both are written; undefined where one of them or the mass is
 * missing or unknown. Of the digits printed every combination is allowed: they agree if any arm and
 * mass that round to what is printed have a moment that does.
 * @param record the one the moment stands with
 * @param pieces how many pieces a `total` speaks of
 */
export function armAndMoment(
  clauses: readonly Clause[],
  record: MassRecord | undefined,
  pieces: number,
  core: Core,
  setting: Setting,
): ArmAndMoment | undefined {
  const moment = clauseOf(clauses, "moment");
  const arm = clauseOf(clauses, "at")?.point.coords.find(it => it.axis === "FS");
  if (!moment?.value || !arm?.value || arm.upTo || !record?.mass || core.origin.fs === undefined)
    return undefined;
  // what is wrong with these figures has been said where the place was read
  const quiet: Setting = { ...setting, report: () => {} };
  const { length } = core.units;
  const about = figure(moment.value, MOMENT, "a moment", quiet)?.value;
  const own = coordinate(arm.value, length, "FS", quiet);
  if (about === undefined || own === undefined) return undefined;

  const { mass, clause } = record;
  const spoken = moment.total ? pieces : 1;
  const fs = core.origin.fs + own;
  const armSlack = slackOf(arm.value, length.factor);
  const massSlack = massSlackOf(clause, pieces);
  return {
    at: arm,
    momentAt: moment,
    said: own,
    given: about / (mass * spoken) - core.origin.fs,
    unit: evaluate(arm.value, quiet)?.unit ?? length,
    off: Math.abs(fs * mass - about / spoken),
    slack:
      mass * armSlack +
      Math.abs(fs) * massSlack +
      armSlack * massSlack +
      slackOf(moment.value, 1) / spoken,
  };
}

/** kg of one piece. */
function massSlackOf({ figure: mass, total }: MassRecord["clause"], pieces: number): number {
  const slack = mass ? slackOf(mass, 1) : 0;
  return total ? slack / pieces : slack;
}

/** The record a moment stands with: the last before it, else the governing one. */
export function recordOfMoment(
  clauses: readonly Clause[],
  moment: ClauseOf<"moment">,
  records: readonly MassRecord[],
  rules: MassRecord | undefined,
): MassRecord | undefined {
  const before = clauses.slice(0, clauses.indexOf(moment)).findLast(it => it.kind === "record");
  return records.find(it => it.clause === before) ?? rules;
}
