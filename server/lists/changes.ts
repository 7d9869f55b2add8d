import type { Clause, Coord, RecordClause, Span } from "../../grammar/tree";
import { bases } from "../../grammar/words";
import { clauseOf, clausesOf } from "../model/clauses";
import { same } from "../quantity/compare";
import { LENGTH, MASS } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { isBare, plainValue, siOf } from "./figures";
import type { ListItem } from "./items";
import type { Place } from "./match";
import { governing, isEarlier, liveRecords, recordsOf, revisionOf } from "./revision";
import { quoted } from "./words";
import { numeral, type Origin, placeOf, recordOf, written } from "./write";

export interface Insert {
  readonly after: Span;
  readonly fresh: string;
  /** Behind the end of the row `after` ends in. */
  readonly ownRow: boolean;
}

/** How a part's text follows the list. */
export interface Changes {
  readonly edits: readonly { readonly at: Span; readonly fresh: string }[];
  readonly inserts: readonly Insert[];
  readonly changed: readonly string[];
  readonly kept: readonly string[];
}

/** What a part comes to, in SI: what is an expression in its text has a value in the aircraft. */
export interface Value {
  /** Of one piece; undefined: unknown. */
  readonly mass: number | undefined;
  /** On one side. */
  readonly qty: number;
  readonly fs: number | undefined;
  readonly bl: number | undefined;
  readonly wl: number | undefined;
}

/** @param item in the pieces and at the place of one side, where there are two */
export function changesOf(
  place: Place,
  item: ListItem,
  list: Origin,
  length: Unit | undefined,
  value: Value | undefined,
): Changes {
  const { rev, mass, basis = list.basis } = item;
  const origin = { ...list, basis };
  const before = revisionOf(place);
  const isNew = rev !== undefined && before !== undefined && rev !== before;
  const older =
    isNew && isEarlier(rev, before)
      ? `rev ${rev} of the list is older than its rev ${before}`
      : olderThan(place, origin);
  if (isNew && mass === undefined && !older)
    return nothing([`the list has rev ${rev} without a mass; it stays at rev ${before}`]);

  const changes: Writable = { edits: [], inserts: [], changed: [], kept: [] };
  // the new revision first: where two texts go to one place, its mark belongs to the record before
  const isTaken = isNew && !older;
  if (isTaken || (rev !== undefined && before === undefined))
    changeRevision(place, rev, before, changes);
  changeQty(place, item, value, changes);
  changeMass(place, item, isTaken ? [] : liveRecords(place), origin, value, changes);
  if (!isAt(item, value)) changePlace(place, item, length, changes);
  if (!older || (changes.changed.length === 0 && !isNew)) return changes;
  const said = changes.changed.length === 0 ? "" : `: ${changes.changed.join("; ")}`;
  return nothing([`${older}, so nothing is taken of it${said}`]);
}

const nothing = (kept: readonly string[]): Changes => ({
  edits: [],
  inserts: [],
  changed: [],
  kept,
});

/** What in a part is newer than the list: then the list changes none of it. */
function olderThan(place: Place, origin: Origin): string | undefined {
  const live = liveRecords(place);
  const dates = [live, live.filter(it => it.basis === origin.basis)].map(
    it => governing(it)?.on?.text ?? "",
  );
  const newest = [...dates].sort().at(-1)!;
  return newest > origin.on
    ? `the list of ${origin.on} is older than its record of ${newest}`
    : undefined;
}

/** A list wrote one of its records, or it has none: a list left its mass open. */
export function comesFromList({ item }: Place): boolean {
  const records = clausesOf(item).filter(it => it.kind === "record");
  return records.length === 0 || records.some(it => listFile.test(it.by?.text ?? ""));
}

const listFile = /\.(csv|tsv|txt|xlsx)$/i;

/** How many pieces of one side a part has; "open" where an expression says it. */
export function piecesOf({ item }: Place): number | "open" {
  const clause = clauseOf(clausesOf(item), "qty");
  return clause ? (plainValue(clause.value) ?? "open") : 1;
}

interface Writable {
  edits: { at: Span; fresh: string }[];
  inserts: Insert[];
  changed: string[];
  kept: string[];
}

function changeQty(
  place: Place,
  { qty }: ListItem,
  value: Value | undefined,
  changes: Writable,
): void {
  const { item, head } = place;
  const clause = clauseOf(clausesOf(item), "qty");
  const before = piecesOf(place);
  if (before === qty) return;
  if (before === "open") {
    if (value?.qty === qty) return;
    changes.kept.push(`its number of pieces is an expression; the list has ${qty}`);
    return;
  }
  changes.changed.push(`qty ${before} becomes ${qty}`);
  if (clause?.value) changes.edits.push({ at: clause.value, fresh: `${qty}` });
  else
    changes.inserts.push({ after: head.title ?? head.path!, fresh: ` qty ${qty}`, ownRow: false });
}

/**
 * A mass that differs becomes a record behind the others; the one before stays as history.
 * @param records those that count
 */
function changeMass(
  place: Place,
  item: ListItem,
  records: readonly RecordClause[],
  origin: Origin,
  value: Value | undefined,
  changes: Writable,
): void {
  const { mass } = item;
  if (mass === undefined) return;
  const pieces = item.qty * place.sides;
  const ofOne = (value: number, total: boolean) => (total && pieces > 0 ? value / pieces : value);
  const fresh = ofOne(mass.value * mass.unit.factor, mass.total);

  const before = governing(records.filter(it => it.basis === origin.basis));
  if (before === undefined) {
    const firmer = governing(
      records.filter(it => bases.indexOf(it.basis) > bases.indexOf(origin.basis)),
    );
    if (firmer) {
      changes.kept.push(
        `${firmer.basis} is the firmer word; the list's ${written(mass)} is not taken`,
      );
      return;
    }
  } else {
    const kilograms = siOf(before.figure, MASS);
    if (kilograms === undefined) {
      if (value?.mass !== undefined && same(value.mass, fresh)) return;
      changes.kept.push(`its mass is an expression; the list has ${written(mass)}`);
      return;
    }
    if (same(ofOne(kilograms, before.total), fresh)) return;
  }
  const was = before?.figure ? `${textOf(before.figure)} becomes ` : "now ";
  changes.changed.push(`${was}${written(mass)}`);
  insertBehind(place, recordsOf(place).at(-1), recordOf(mass, origin), changes);
}

/**
 * The revision of the list. What counted before is of the one before, and says so: else its weighed figure
 * would govern a part it was never of.
 */
function changeRevision(
  place: Place,
  rev: string,
  before: string | undefined,
  changes: Writable,
): void {
  const clauses = clausesOf(place.item);
  const own = clauseOf(clauses, "rev");
  const fresh = `rev ${quoted(rev)}`;
  if (own) changes.edits.push({ at: own, fresh });
  else insertBehind(place, clauseOf(clauses, "pn"), fresh, changes);
  const record = governing(liveRecords(place));
  const figure = record?.figure && `${record.basis} ${textOf(record.figure)}`;
  if (before === undefined) {
    const still =
      record?.basis === "weighed" ? `; ${figure} names no revision and still governs` : "";
    changes.changed.push(`now rev ${rev}${still}`);
    return;
  }
  for (const it of liveRecords(place))
    if (!it.rev)
      changes.inserts.push({ after: it, fresh: ` rev ${quoted(before)}`, ownRow: false });
  const gone = figure ? `; ${figure} is of rev ${before} and counts no longer` : "";
  changes.changed.push(`rev ${before} becomes ${rev}${gone}`);
}

/** A clause behind another one, on a row of its own where that has one; behind the name where there is none. */
function insertBehind(
  { head }: Place,
  last: Clause | undefined,
  clause: string,
  changes: Writable,
): void {
  if (last === undefined) {
    changes.inserts.push({ after: head.title ?? head.path!, fresh: ` ${clause}`, ownRow: false });
    return;
  }
  const { line, from, to } = last;
  const before = line.text.slice(line.text.lastIndexOf("\n", from - 1) + 1, from);
  const rest = line.text.slice(to);
  const alone = before.trim() === "" && /^\s*(\/\/.*)?$/.test(rest);
  if (alone) changes.inserts.push({ after: last, fresh: `\n${before}${clause}`, ownRow: true });
  else {
    // in the head of its declaration clauses follow one another, in a block statements do
    const inHead = head.line === line && head.clauses.includes(last);
    changes.inserts.push({ after: last, fresh: `${inHead ? "" : ";"} ${clause}`, ownRow: false });
  }
}

function changePlace(
  place: Place,
  item: ListItem,
  length: Unit | undefined,
  changes: Writable,
): void {
  const said = (["FS", "BL", "WL"] as const).filter(axis => item.at[axis]);
  if (said.length === 0) return;
  const clauses = clausesOf(place.item);
  const listed = said.map(axis => `${axis} ${written(item.at[axis]!)}`).join(", ");
  for (const kind of ["moment", "span"] as const)
    if (clauseOf(clauses, kind)) {
      changes.kept.push(`a ${kind} says where it is; the list has ${listed}`);
      return;
    }
  for (let around = place.parent; around; around = around.parent)
    if (clauseOf(clausesOf(around.item), "at")) {
      changes.kept.push(`${around.path} has a frame of its own; the list has ${listed}`);
      return;
    }
  const clause = clauseOf(clauses, "at");
  if (clause === undefined) {
    changes.changed.push(`now at ${listed}`);
    insertPlace(place, item, changes);
    return;
  }
  const { coords } = clause.point;
  const moves: string[] = [];
  for (const axis of said) {
    const amount = item.at[axis]!;
    const coord = coords.findLast(it => it.axis === axis);
    const target = amount.value * amount.unit.factor;
    if (coord?.value === undefined) {
      if (axis === "BL" && same(target, 0)) continue;
      moves.push(`${axis} ${written(amount)}`);
      const after = coord ?? coords.at(-1) ?? clause;
      changes.inserts.push({
        after,
        fresh: coord ? ` ${written(amount)}` : `, ${axis} ${written(amount)}`,
        ownRow: false,
      });
      continue;
    }
    const was = metres(coord, length);
    if (was === undefined)
      changes.kept.push(`its ${axis} is an expression; the list has ${written(amount)}`);
    else if (!same(was, target)) {
      const bare = length && amount.unit === length && isBare(coord.value);
      const fresh = bare ? numeral(amount.value) : written(amount);
      moves.push(`${axis} ${textOf(coord.value)} becomes ${fresh}`);
      changes.edits.push({ at: coord.value, fresh });
    }
  }
  if (moves.length > 0) changes.changed.push(moves.join(", "));
}

/** Where the list has it, however its text says so. */
function isAt({ at }: ListItem, value: Value | undefined): boolean {
  return (["FS", "BL", "WL"] as const).every(axis => {
    const amount = at[axis];
    const is = value?.[axis === "FS" ? "fs" : axis === "BL" ? "bl" : "wl"];
    if (amount === undefined) return true;
    return is !== undefined && isNear(is, amount.value * amount.unit.factor);
  });
}

/** What is zero but for the rounding of sums is zero. */
export const isNear = (a: number, b: number) => same(a, b) || Math.abs(a - b) < 1e-9;

/** Behind its records, as the language's examples have it; behind its name where it has none. */
function insertPlace({ item, head }: Place, listed: ListItem, changes: Writable): void {
  const fresh = placeOf(listed).join(" ");
  const last = clausesOf(item).findLast(it => it.kind === "record" && head.clauses.includes(it));
  changes.inserts.push({
    after: last ?? head.clauses.at(-1) ?? head.title ?? head.path!,
    fresh: ` ${fresh}`,
    ownRow: false,
  });
}

const textOf = ({ line, from, to }: Span) => line.text.slice(from, to);

function metres({ value }: Coord, length: Unit | undefined): number | undefined {
  if (value === undefined) return undefined;
  if (!isBare(value)) return siOf(value, LENGTH);
  const figure = plainValue(value);
  return figure === undefined || length === undefined ? undefined : figure * length.factor;
}
