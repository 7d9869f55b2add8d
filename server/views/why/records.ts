import type { Part } from "../../model/part";
import { dateOf, isLessMature, type MassRecord } from "../../model/records";
import type { Root } from "../../model/root";
import { showNumber } from "../../quantity/show";
import { asShown, massText, written } from "./figures";
import { type Found, piecesOf } from "./found";
import { longest, type Step } from "./lines";

/** Every record in the order written, in the aircraft's units, and why it governs or does not. */
export function recordSteps(root: Root, found: Found<Part>): readonly Step[] {
  const { member: part } = found;
  const { records, governing, head } = part;
  if (records.length === 0 && head.figure) return [[head.kind, ownFigure(root, part), head.figure]];
  const texts = records.map(it => recordText(root, it, piecesOf(found)));
  const width = longest(texts);
  return records.map((record, i) => [
    `${record.clause.was ? "was " : ""}${record.basis}`,
    `${texts[i]!.padEnd(width)}  ${standing(record, governing, records)}`.trimEnd(),
    record.clause,
  ]);
}

/** Of a ballast without a record: it counts as calculated, without growth. */
function ownFigure(root: Root, { head, mass, qty }: Part): string {
  const text =
    mass === undefined
      ? `${written(head.figure!)}: not known`
      : asShown(head.figure!, mass / (qty || 1), root.units.mass);
  return `${text}  without a record: calculated, no growth`;
}

function recordText(root: Root, { clause, mass }: MassRecord, pieces: number): string {
  const { figure, total, spread, on, by, rev } = clause;
  const unit = root.units.mass;
  let text = "no figure";
  if (figure && mass === undefined) text = `${written(figure)}: not known`;
  else if (figure && mass !== undefined)
    text = total
      ? `total ${asShown(figure, mass * pieces, unit)}, ÷ ${showNumber(pieces)} = ${massText(root, mass)}`
      : asShown(figure, mass, unit);
  return [
    text,
    spread && `± ${written(spread)}`,
    rev && `rev ${rev.text}`,
    on && `on ${on.text}`,
    by && `by ${by.text}`,
  ]
    .filter(Boolean)
    .join(" ");
}

/** Why a record governs, or does not. */
function standing(
  record: MassRecord,
  governing: MassRecord | undefined,
  records: readonly MassRecord[],
): string {
  const { clause } = record;
  if (clause.was) return "history";
  if (clause.effective && record.history) {
    const { first, last } = clause.effective;
    if (first === undefined) return `only up to serial ${last}`;
    return last === undefined
      ? `only from serial ${first}`
      : `only for serials ${first} to ${last}`;
  }
  if (record.history) return "of another revision";
  if (record.mass === undefined || governing === undefined) return "no mass in it";
  const others = records.filter(it => it !== governing && !it.history && it.mass !== undefined);
  const equals = others.filter(it => it.basis === governing.basis);
  if (record !== governing) {
    if (isLessMature(record, governing)) return `less mature than ${governing.basis}`;
    return dateOf(record) < dateOf(governing) ? "older" : "written before it";
  }
  if (equals.some(it => dateOf(it) === dateOf(record))) return "governs: the last written";
  if (equals.length > 0) return `governs: the latest ${record.basis}`;
  return others.length > 0 ? "governs: the most mature" : "governs";
}
