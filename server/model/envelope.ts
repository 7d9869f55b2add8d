import type { Bound, Clause, ClauseOf, Item, StatementOf } from "../../grammar/tree";
import { PLAIN } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { clausesOf, isBlockUnread, membersOf } from "./clauses";
import type { Units } from "./env";
import { evaluate, type Setting } from "./evaluate";
import { collector, type Fault } from "./fault";
import { coordinate, coordinates, massOf, reportBare, share } from "./figures";
import { noSums } from "./part";
import type { Scope } from "./scope";

/** The mean aerodynamic chord: its leading edge's FS and its length, m. */
export interface Mac {
  readonly fs: number;
  readonly length: number;
}

/** One row: an end left open has no corner there. m; kg for a weight. */
export interface Row {
  readonly clause: ClauseOf<"cg">;
  /** What the row is keyed by; undefined: holds at every weight. */
  readonly key: number | undefined;
  readonly low: number | undefined;
  readonly high: number | undefined;
}

export interface WeightLimit {
  readonly mass: number;
  readonly unit: Unit;
  readonly clause: Clause;
}

export interface Envelope {
  readonly item: Item;
  readonly name: string;
  readonly ramp: WeightLimit | undefined;
  readonly takeoff: WeightLimit | undefined;
  readonly landing: WeightLimit | undefined;
  readonly zero_fuel: WeightLimit | undefined;
  /** FS against weight, in the order of weight. */
  readonly rows: readonly Row[];
  /** BL against weight. */
  readonly lateral: readonly Row[];
  /** BL against FS. */
  readonly lateralByStation: readonly Row[];
  /** Of what some places hold together, under this envelope alone. */
  readonly limits: readonly StatementOf<"limit">[];
  /** Something in it could not be understood: it forbids what it can, and vouches for nothing. */
  readonly broken: boolean;
  readonly faults: readonly Fault[];
}

/** Why a state that breaks none of its limits is not known to be inside; undefined: it is. */
export function openIn({ name, rows, broken }: Envelope): string | undefined {
  if (broken) return `something in ${name || "the envelope"} is not understood`;
  return rows.length === 0 ? `${name || "the envelope"} has no CG limits` : undefined;
}

/** @param mac unknown: it is there and could not be read, and what rests on it is not known */
export function envelopeOf(
  item: Item,
  units: Units,
  mac: Mac | "unknown" | undefined,
  scope: Scope,
): Envelope {
  const head = item.head as StatementOf<"envelope">;
  const { report, found } = collector();
  const setting: Setting = { scope, report, ask: noSums(report) };
  const limits: Partial<Record<"ramp" | "takeoff" | "landing" | "zero_fuel", WeightLimit>> = {};
  const rows: Row[] = [];
  const lateral: Row[] = [];
  const lateralByStation: Row[] = [];
  /** Lists of which a row could not be read: between the others nobody knows what holds. */
  const unknown = new Set<Row[]>();
  let broken = isBlockUnread(item);
  for (const clause of clausesOf(item))
    switch (clause.kind) {
      case "ramp":
      case "takeoff":
      case "landing":
      case "zero_fuel": {
        const mass = massOf(clause.value, `a ${clause.kind.replace("_", "-")} weight`, setting);
        if (mass === undefined) broken = true;
        if (limits[clause.kind])
          report("declared-twice", clause, `${clause.kind} is given twice`, [
            { at: limits[clause.kind]!.clause, message: "the other one" },
          ]);
        else if (mass)
          limits[clause.kind] = { mass: mass.value, unit: mass.unit ?? units.mass, clause };
        break;
      }
      case "cg":
      case "lateral": {
        const row = rowOf(clause, units, mac, setting);
        const byStation = clause.kind === "lateral" && clause.key?.axis === "FS";
        const list = clause.kind === "cg" ? rows : byStation ? lateralByStation : lateral;
        if (row) list.push(row);
        else unknown.add(list);
        break;
      }
      case "note":
      case "unread":
        break;
      default:
        report("syntax", clause, `${clause.kind} does not belong in an envelope`);
    }
  for (const list of [rows, lateral, lateralByStation])
    if (unknown.has(list)) list.length = 0;
    else checkRows(list, setting);
  const none = undefined;
  return {
    item,
    name: head.name?.text ?? "",
    ...{ ramp: none, takeoff: none, landing: none, zero_fuel: none, ...limits },
    rows,
    lateral,
    lateralByStation,
    limits: membersOf(item.items).flatMap(({ head: it }) => (it.kind === "limit" ? it : [])),
    broken: broken || unknown.size > 0 || found().length > 0,
    faults: found(),
  };
}

/** Undefined where a figure of it could not be read, or is not there: a fault says so. */
function rowOf(
  clause: ClauseOf<"cg">,
  units: Units,
  mac: Mac | "unknown" | undefined,
  setting: Setting,
): Row | undefined {
  const axis = clause.kind === "lateral" ? "BL" : "FS";
  if (clause.axis !== undefined && clause.axis !== axis) {
    setting.report("syntax", clause, `${clause.kind} limits are of ${axis}`);
    return undefined;
  }
  const ofMac = (it: Bound): number | undefined => {
    if (mac === "unknown") return undefined;
    if (mac === undefined) {
      setting.report(
        "unknown-name",
        it,
        "the aircraft has no mac: write mac at FS … length … in its block",
      );
      return undefined;
    }
    const percent = share(it.value, "a share of the chord", setting);
    return percent === undefined ? undefined : mac.fs + (percent / 100) * mac.length;
  };
  let key: number | undefined;
  if (clause.key) {
    key =
      clause.key.axis === undefined
        ? massOf(clause.key.value, "the weight of a row", setting)?.value
        : coordinate(clause.key.value, units.length, clause.key.axis, setting);
    if (key === undefined) return undefined;
  }
  const { low: from, high: to } = clause;
  // 15 .. 38 %MAC: nobody knows what the 15 is
  const bare = [from, to].find((it, i) => [to, from][i]?.ofMac && it && isBare(it, setting));
  if (bare) {
    reportBare(bare.value, ["%MAC", units.length.name], setting);
    return undefined;
  }
  const written = [from, to].map(it => (it?.ofMac ? undefined : it?.value));
  const [fore, aft] = coordinates(written[0], written[1], units.length, axis, setting);
  const [low, high] = [from?.ofMac ? ofMac(from) : fore, to?.ofMac ? ofMac(to) : aft];
  const lost = (bound: Bound | undefined, x: number | undefined) => bound && x === undefined;
  if (lost(from, low) || lost(to, high) || (from ?? to) === undefined) return undefined;
  if (low !== undefined && high !== undefined && low > high)
    setting.report(
      "rows-out-of-order",
      clause,
      clause.kind === "lateral"
        ? "the left limit lies to the right of the right limit"
        : "the forward limit lies behind the aft limit",
    );
  return { clause, key, low, high };
}

/** A number without a unit; 0 is bare too, for 0 %MAC lies elsewhere than the datum. */
function isBare({ value, ofMac }: Bound, setting: Setting): boolean {
  if (ofMac) return false;
  const it = evaluate(value, { ...setting, report: () => {} });
  return it?.dimension === PLAIN && it.unit === undefined;
}

function checkRows(rows: readonly Row[], setting: Setting): void {
  const keyed = rows.filter(row => row.key !== undefined);
  keyed.forEach((row, i) => {
    if (i > 0 && row.key! < keyed[i - 1]!.key!)
      setting.report(
        "rows-out-of-order",
        row.clause,
        "rows stand in the order of weight, lightest first",
      );
  });
  if (keyed.length === 1)
    setting.report(
      "rows-out-of-order",
      keyed[0]!.clause,
      "one row alone allows one weight only: write the first and the last",
    );
  for (const row of [keyed[0], keyed.at(-1)])
    if (keyed.length > 1 && row && (row.low === undefined || row.high === undefined))
      setting.report(
        "rows-out-of-order",
        row.clause,
        "the first and the last row give both limits",
      );
}
