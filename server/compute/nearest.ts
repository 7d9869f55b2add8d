import { type Condition, statesOf } from "./courses";
import type { Flight } from "./flights";
import { type Limit, limitsAt } from "./limit-lines";
import { hasRowsAt, weightLimitAt } from "./limits";

/** How far a state is from an end of what is allowed: m inside it; below zero: outside. */
export interface Distance {
  readonly condition: Condition;
  readonly limit: Limit;
  readonly distance: number;
}

/** Of every state of a flight from every FS limit, with basic masses. The ramp has none. */
export const stationDistances = (flight: Flight) => distancesOf(statesOf(flight).from);

/** Of every state from every FS limit. */
export function* distancesOf(conditions: Iterable<Condition>): Iterable<Distance> {
  for (const condition of conditions) {
    const { verdict, stage, sums } = condition;
    const { mass, fsMass, fsMoment } = sums;
    if (stage.kind === "ramp" || fsMass === 0) continue;
    if (!hasRowsAt(mass, stage.kind, verdict.envelope)) continue;
    const fs = fsMoment / fsMass;
    for (const limit of limitsAt(verdict.envelope.rows, mass))
      yield { condition, limit, distance: limit.out * (limit.x - fs) };
  }
}

/** The same of the lateral limits, by weight and by station. */
export function* lateralDistances(flight: Flight): Iterable<Distance> {
  for (const condition of statesOf(flight).from) {
    const { verdict, stage, sums } = condition;
    const { mass, fsMass, fsMoment, blMass, blMoment } = sums;
    if (stage.kind === "ramp" || blMass === 0) continue;
    const { lateral, lateralByStation } = verdict.envelope;
    const bl = blMoment / blMass;
    const limits = [
      ...limitsAt(lateral, mass, "lateral"),
      ...(fsMass === 0 ? [] : limitsAt(lateralByStation, fsMoment / fsMass, "lateral")),
    ];
    for (const limit of limits) yield { condition, limit, distance: limit.out * (limit.x - bl) };
  }
}

/** kg that a state may still gain; below zero: too much. */
export interface WeightRoom {
  readonly condition: Condition;
  readonly what: string;
  readonly room: number;
}

/** Of every state that an envelope gives a weight for. */
export function* weightRooms(flight: Flight): Iterable<WeightRoom> {
  for (const condition of statesOf(flight).from) {
    const { verdict, stage, sums } = condition;
    // what is swung weighs what it weighs
    const most =
      verdict.configuration === null ? weightLimitAt(stage.kind, verdict.envelope) : undefined;
    if (most) yield { condition, what: most.what, room: most.limit.mass - sums.mass };
  }
}
