import type { Clause } from "../../grammar/tree";
import type { Envelope, Row, WeightLimit } from "../model/envelope";
import { exceeds } from "../quantity/compare";
import { type Limit, limitsAt } from "./limit-lines";
import type { Stage } from "./stages";
import type { Balance } from "./weight";

/** A limit that a state breaks. m for a CG, kg for a weight. */
export interface Breach {
  readonly code:
    | "cg-forward"
    | "cg-aft"
    | "cg-lateral"
    | "above-weight-limit"
    | "below-weight-limit";
  /** How far outside, always positive. */
  readonly by: number;
  readonly limit: number;
  readonly value: number;
  readonly clause: Clause;
  readonly what: string;
}

/**
 * Everything an envelope forbids about a state. Limits are straight in arm against weight; on the line
 * is inside (relative tolerance 1e-9, and a hundredth of a micron about zero). The ramp is checked for
 * weight only.
 */
export function breachesOf(
  balance: Pick<Balance, "mass" | "fs" | "bl">,
  stage: Stage["kind"],
  envelope: Envelope,
): readonly Breach[] {
  const { mass, fs, bl } = balance;
  const breaches = [...weightBreachesOf(mass, stage, envelope)];
  if (stage === "ramp") return breaches;
  const judge = (value: number, limits: readonly Limit[]) => {
    for (const limit of limits) {
      const breach = breachAt(limit, value, limit.x);
      if (breach) breaches.push(breach);
    }
  };
  if (fs !== null && hasRowsAt(mass, stage, envelope)) judge(fs, limitsAt(envelope.rows, mass));
  if (bl !== null) {
    judge(bl, limitsAt(envelope.lateral, mass, "lateral"));
    if (fs !== null) judge(bl, limitsAt(envelope.lateralByStation, fs, "lateral"));
  }
  return breaches;
}

/** What an envelope forbids about a mass, kg: at most one breach of each code. */
export function weightBreachesOf(
  mass: number,
  stage: Stage["kind"],
  envelope: Envelope,
): readonly Breach[] {
  const weight = weightLimitAt(stage, envelope);
  const above =
    weight && exceeds(mass, weight.limit.mass)
      ? over("above-weight-limit", mass, weight.limit.mass, weight.limit.clause, weight.what)
      : undefined;
  if (stage === "ramp") return above ? [above] : [];
  const { first, last } = outermost(envelope);
  const breaches: Breach[] = [];
  if (above) breaches.push(above);
  else if (last && exceeds(mass, last.key!))
    breaches.push(
      over(
        "above-weight-limit",
        mass,
        last.key!,
        last.clause,
        "the heaviest weight of the CG limits",
      ),
    );
  if (first && exceeds(first.key!, mass) && stage !== "zero_fuel")
    breaches.push(
      over("below-weight-limit", mass, first.key!, first.clause, "the lightest weight"),
    );
  return breaches;
}

/** What a state may weigh at most, kg, by a limit of its weight or else the last row of the CG limits. */
export function heaviestAt(
  stage: Stage["kind"],
  envelope: Envelope,
): { readonly mass: number; readonly what: string } | undefined {
  const weight = weightLimitAt(stage, envelope);
  if (weight) return { mass: weight.limit.mass, what: weight.what };
  const { last } = outermost(envelope);
  if (stage === "ramp" || last === undefined) return undefined;
  return { mass: last.key!, what: "the heaviest weight of the CG limits" };
}

/** The masses, kg, at which what is forbidden about a mass begins or ends, and the CG limits with it. */
export function weightsAt(stage: Stage["kind"], envelope: Envelope): readonly number[] {
  const { first, last } = outermost(envelope);
  const all = [weightLimitAt(stage, envelope)?.limit.mass, first?.key, last?.key];
  return all.filter(it => it !== undefined);
}

/** Beyond the first and the last row the weight itself is outside, and no CG is spoken of. */
export function hasRowsAt(mass: number, stage: Stage["kind"], envelope: Envelope): boolean {
  const { first, last } = outermost(envelope);
  // at zero fuel a weight below the lightest row is judged by that row
  const light = stage !== "zero_fuel" && first !== undefined && exceeds(first.key!, mass);
  return !light && !(last !== undefined && exceeds(mass, last.key!));
}

function outermost({ rows }: Envelope): { first: Row | undefined; last: Row | undefined } {
  return {
    first: rows.find(row => row.key !== undefined),
    last: rows.findLast(row => row.key !== undefined),
  };
}

/** Whether an arm is outside an end that stands at `x` here; all m. */
export function breachAt(limit: Limit, value: number, x: number): Breach | undefined {
  const { code, what, row, out } = limit;
  if (!(out === 1 ? below(x, value) : below(value, x))) return undefined;
  return { code, by: Math.abs(value - x), limit: x, value, clause: row.clause, what };
}

/** The weight limit that holds at a stage; in landing the takeoff one where there is none of its own. */
export function weightLimitAt(
  stage: Stage["kind"],
  envelope: Envelope,
): { limit: WeightLimit; what: string } | undefined {
  const named = (limit: WeightLimit | undefined, what: string) => limit && { limit, what };
  switch (stage) {
    case "ramp":
      return named(envelope.ramp, "the ramp weight");
    case "zero_fuel":
      return named(envelope.zero_fuel, "the zero-fuel weight");
    case "landing":
      return (
        named(envelope.landing, "the landing weight") ??
        named(envelope.takeoff, "the takeoff weight")
      );
    default:
      return named(envelope.takeoff, "the takeoff weight");
  }
}

/** A hundredth of a micron, so that a limit at zero is not broken by rounding. */
const near = 1e-8;
const below = (a: number, b: number) => exceeds(b, a) && b - a > near;

const over = (
  code: Breach["code"],
  value: number,
  limit: number,
  clause: Clause,
  what: string,
): Breach => ({ code, by: Math.abs(value - limit), limit, value, clause, what });
