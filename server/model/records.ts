import type { Basis, RecordClause, Serials } from "../../grammar/tree";
import type { Unit } from "../quantity/units";
import type { Setting } from "./evaluate";
import { isPlainDate, massOf } from "./figures";
import type { Let, Scope } from "./scope";
import { type Lean, leansOf, spreadOf } from "./spreads";

/** One figure of a mass, with what it rests on. */
export interface MassRecord {
  readonly clause: RecordClause;
  readonly basis: Basis;
  /** kg of one piece of one side; undefined where the figure is missing or does not fit. */
  readonly mass: number | undefined;
  readonly unit: Unit | undefined;
  /** How many pieces the figure written is of. */
  readonly pieces: number;
  /** kg of one piece, one standard deviation, where the record says it; else its basis' share counts. */
  readonly spread: number | undefined;
  /** What its figure owes to the lets with a spread in it; kg of one piece. */
  readonly leans: readonly Lean[];
  /** Kept as history only: `was`, another revision, not effective, or not known yet. */
  readonly history: boolean;
}

/** For whom the records are read, and when. */
export interface Seen {
  /** Of the airframe that is read; the design has none. */
  readonly serial: number | undefined;
  /** ISO: what was recorded later is not known yet. */
  readonly until: string | undefined;
}

const isLater = ({ on }: RecordClause, { until }: Seen) =>
  until !== undefined && on !== undefined && on.text > until;

const maturity: Readonly<Record<Basis, number>> = {
  estimated: 0,
  calculated: 1,
  quoted: 2,
  weighed: 3,
};

/**
 * Every record of a declaration, in the order written.
 * @param pieces how many pieces the declaration makes in all, for figures that say `total`
 */
export function recordsOf(
  clauses: readonly RecordClause[],
  rev: string | undefined,
  pieces: number,
  setting: Setting,
  seen: Seen,
): readonly MassRecord[] {
  const newest = rev ?? clauses.findLast(clause => clause.rev !== undefined)?.rev?.text;
  return clauses.map(clause => {
    // a plain literal rests on no let
    const plain = clause.figure === undefined || clause.figure.kind === "quantity";
    const lets = plain ? undefined : new Map<Let, Scope>();
    const mass = massOf(clause.figure, "this mass", lets ? watching(lets, setting) : setting);
    const per = clause.total ? pieces : 1;
    const spread = clause.spread && spreadOf(clause.spread, mass, setting);
    if (clause.on && !isPlainDate(clause.on.text))
      setting.report("syntax", clause.on, `${clause.on.text} is no day of the calendar`);
    const otherRevision = clause.rev !== undefined && clause.rev.text !== newest;
    return {
      clause,
      basis: clause.basis,
      mass: mass && mass.value / per,
      spread: spread && spread / per,
      leans:
        mass === undefined || lets === undefined || lets.size === 0
          ? noLeans
          : leansOf(clause.figure!, lets, setting).map(it => ({ ...it, by: it.by / per })),
      unit: mass?.unit,
      pieces: per,
      history:
        clause.was ||
        otherRevision ||
        isLater(clause, seen) ||
        !isEffective(clause.effective, seen.serial),
    };
  });
}

const noLeans: readonly Lean[] = [];

/** Notes the lets with a spread that a figure rests on. */
function watching(lets: Map<Let, Scope>, setting: Setting): Setting {
  return {
    ...setting,
    uses: (found, scope) => {
      setting.uses?.(found, scope);
      if (found?.spread && scope) lets.set(found, scope);
    },
  };
}

/** For an airframe's serial number; the aircraft as designed has none and is the newest. */
export function isEffective(serials: Serials | undefined, serial: number | undefined): boolean {
  if (serials === undefined) return true;
  const { first = Number.NEGATIVE_INFINITY, last = Number.POSITIVE_INFINITY } = serials;
  return serial === undefined ? serials.last === undefined : first <= serial && serial <= last;
}

/** The most mature record; among equals the latest, one without a date being older; then the last written. */
export function governing(records: readonly MassRecord[]): MassRecord | undefined {
  let best: MassRecord | undefined;
  for (const record of records)
    if (
      !record.history &&
      record.mass !== undefined &&
      (best === undefined || !before(record, best))
    )
      best = record;
  return best;
}

function before(a: MassRecord, b: MassRecord): boolean {
  const mature = maturity[a.basis] - maturity[b.basis];
  if (mature !== 0) return mature < 0;
  return dateOf(a) < dateOf(b);
}

/** An airframe's own record comes before the design's, if it is at least as mature. */
export function governingOf(
  design: readonly MassRecord[],
  own: readonly MassRecord[],
): MassRecord | undefined {
  const [a, b] = [governing(own), governing(design)];
  return a && !(b && isLessMature(a, b)) ? a : (b ?? a);
}

export const dateOf = (record: MassRecord) => record.clause.on?.text ?? "";
export const isLessMature = (a: MassRecord, b: MassRecord) => maturity[a.basis] < maturity[b.basis];
