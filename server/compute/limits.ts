import type { Clause } from "../../grammar/tree";
import type { Envelope, Row, WeightLimit } from "../model/envelope";
import { exceeds } from "../quantity/compare";
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
  balance: Balance,
  stage: Stage["kind"],
  envelope: Envelope,
): readonly Breach[] {
  const breaches: Breach[] = [];
  const weight = weightLimitAt(stage, envelope);
  if (weight && exceeds(balance.mass, weight.limit.mass))
    breaches.push(over(balance.mass, weight.limit.mass, weight.limit.clause, weight.what));
  if (stage === "ramp") return breaches;

  const { rows } = envelope;
  const keyed = rows.filter(row => row.key !== undefined);
  const [first, last] = [keyed[0], keyed.at(-1)];
  const tooLight = first !== undefined && exceeds(first.key!, balance.mass);
  const tooHeavy = last !== undefined && exceeds(balance.mass, last.key!);
  if (tooLight && stage !== "zero_fuel") {
    const by = first.key! - balance.mass;
    breaches.push({
      code: "below-weight-limit",
      by,
      limit: first.key!,
      value: balance.mass,
      clause: first.clause,
      what: "the lightest weight",
    });
  }
  if (tooHeavy && breaches.length === 0)
    breaches.push(
      over(balance.mass, last.key!, last.clause, "the heaviest weight of the CG limits"),
    );
  if (balance.fs !== null && !tooHeavy && !(tooLight && stage !== "zero_fuel")) {
    // at zero fuel a weight below the lightest row is judged by that row
    const at = tooLight ? first.key! : balance.mass;
    for (const { low, high } of bandsAt(rows, at)) {
      if (low && below(balance.fs, low.x))
        breaches.push(cg("cg-forward", balance.fs, low, "the forward limit"));
      if (high && below(high.x, balance.fs))
        breaches.push(cg("cg-aft", balance.fs, high, "the aft limit"));
    }
  }
  if (balance.bl !== null) {
    const bands = [...bandsAt(envelope.lateral, balance.mass)];
    if (balance.fs !== null) bands.push(...bandsAt(envelope.lateralByStation, balance.fs));
    for (const { low, high } of bands) {
      if (low && below(balance.bl, low.x))
        breaches.push(cg("cg-lateral", balance.bl, low, "the left limit"));
      if (high && below(high.x, balance.bl))
        breaches.push(cg("cg-lateral", balance.bl, high, "the right limit"));
    }
  }
  return breaches;
}

interface End {
  readonly x: number;
  readonly row: Row;
}

/** The limits at a weight (or a station): of the rows that hold at every weight, and of the keyed ones. */
export function bandsAt(
  rows: readonly Row[],
  key: number,
): readonly { low: End | undefined; high: End | undefined }[] {
  const bands = rows
    .filter(row => row.key === undefined)
    .map(row => ({ low: end(row.low, row), high: end(row.high, row) }));
  const keyed = rows.filter(row => row.key !== undefined);
  if (keyed.length > 1)
    bands.push({
      low: along(
        keyed.filter(row => row.low !== undefined),
        key,
        row => row.low!,
        Math.min,
      ),
      high: along(
        keyed.filter(row => row.high !== undefined),
        key,
        row => row.high!,
        Math.max,
      ),
    });
  return bands;
}

const end = (x: number | undefined, row: Row): End | undefined =>
  x === undefined ? undefined : { x, row };

/** A limit at a weight between two corners; at a step both hold, and the wider counts. */
function along(
  corners: readonly Row[],
  key: number,
  of: (row: Row) => number,
  wider: (a: number, b: number) => number,
): End | undefined {
  const first = corners[0];
  const last = corners.at(-1);
  if (first === undefined || last === undefined) return undefined;
  if (key <= first.key!)
    return widest(
      corners.filter(row => row.key === first.key),
      of,
      wider,
    );
  if (key >= last.key!)
    return widest(
      corners.filter(row => row.key === last.key),
      of,
      wider,
    );
  const here = corners.filter(row => row.key === key);
  if (here.length > 0) return widest(here, of, wider);
  const above = corners.findIndex(row => row.key! > key);
  const [a, b] = [corners[above - 1]!, corners[above]!];
  const x = of(a) + ((key - a.key!) / (b.key! - a.key!)) * (of(b) - of(a));
  return { x, row: b };
}

function widest(
  rows: readonly Row[],
  of: (row: Row) => number,
  wider: (a: number, b: number) => number,
): End {
  const x = rows.map(of).reduce(wider);
  return { x, row: rows.find(row => of(row) === x)! };
}

function weightLimitAt(
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

const over = (value: number, limit: number, clause: Clause, what: string): Breach => ({
  code: "above-weight-limit",
  by: value - limit,
  limit,
  value,
  clause,
  what,
});

const cg = (code: Breach["code"], value: number, { x, row }: End, what: string): Breach => ({
  code,
  by: Math.abs(value - x),
  limit: x,
  value,
  clause: row.clause,
  what,
});
