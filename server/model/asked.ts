import type { Clause, Span } from "../../grammar/tree";
import type { Unit } from "../quantity/units";
import { clauseOf } from "./clauses";
import type { Core, Edit } from "./env";
import type { Setting } from "./evaluate";
import { coordinates, massOf, percentage } from "./figures";

/** What may be spent: kg, in the author's unit. */
export interface Budget {
  readonly mass: number;
  readonly unit: Unit;
  /** Where the figure stands. */
  readonly at: Span;
  /** A share of the budget that must be left. */
  readonly margin: number | undefined;
}

/** How much a change may add: kg, in the author's unit. */
export type Creep = Omit<Budget, "margin">;

/** Where the CG should lie: m, in the frame the assembly stands in; an end may be left open. */
export interface Target {
  readonly axis: "FS" | "BL" | "WL";
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly at: Span;
}

/**
 * The budget of an assembly or a part; that of an option or an airframe replaces the one written, and
 * sees the lets that the option sees.
 * @param edits those of the thing itself
 */
export function budgetOf(
  clauses: readonly Clause[],
  edits: readonly Edit[],
  core: Core,
  setting: Setting,
): Budget | undefined {
  const replaced = edits.findLast(it => it.does === "budget" && it.words.length === 0);
  const written = clauses.findLast(it => it.kind === "budget" && it.of === undefined);
  const clause = replaced?.clause ?? written;
  if (clause?.kind !== "budget" || clause.value === undefined) return undefined;
  const scope = replaced?.scope ?? setting.scope;
  const mass = massOf(clause.value, "a budget", { ...setting, scope });
  const margin = clause.margin ?? clauseOf(clauses, "margin")?.value;
  if (mass === undefined) return undefined;
  return {
    mass: mass.value,
    unit: mass.unit ?? core.units.mass,
    at: clause.value,
    margin: percentage(margin, "a margin", setting),
  };
}

/** How much a change may add to an assembly; undefined where none is written, or it is no mass. */
export function creepOf(
  clauses: readonly Clause[],
  { units }: Core,
  setting: Setting,
): Creep | undefined {
  const at = clauseOf(clauses, "creep")?.value;
  const mass = massOf(at, "a creep", setting);
  return at && mass && { mass: mass.value, unit: mass.unit ?? units.mass, at };
}

export function targetOf(
  clauses: readonly Clause[],
  core: Core,
  setting: Setting,
): Target | undefined {
  const clause = clauseOf(clauses, "cg");
  if (clause?.kind !== "cg" || (clause.low === undefined && clause.high === undefined))
    return undefined;
  const axis = clause.axis ?? "FS";
  const { length } = core.units;
  const { low: from, high: to, key } = clause;
  const stray = key?.value ?? [from, to].find(it => it?.ofMac);
  if (stray) {
    const what = key ? "a row by weight stands" : "limits in %MAC stand";
    setting.report("syntax", stray, `${what} in an envelope: a target is FS, BL or WL a .. b`);
    return undefined;
  }
  const [low, high] = coordinates(from?.value, to?.value, length, axis, setting);
  if (axis !== "BL" || core.side !== "LH") return { axis, low, high, at: clause };
  const over = (x: number | undefined) => (x === undefined ? undefined : -x);
  return { axis, low: over(high), high: over(low), at: clause };
}
