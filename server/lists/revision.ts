import type { RecordClause } from "../../grammar/tree";
import { bases } from "../../grammar/words";
import { clauseOf, clausesOf } from "../model/clauses";
import { isEffective } from "../model/records";
import type { Place } from "./match";

/** Every record of a part, in the order written. */
export const recordsOf = ({ item }: Place): readonly RecordClause[] =>
  clausesOf(item).filter(it => it.kind === "record");

/** The newest revision of a part, as the language has it: its own, else that of its last record with one. */
export function revisionOf(place: Place): string | undefined {
  const own = clauseOf(clausesOf(place.item), "rev")?.text?.text;
  return own ?? recordsOf(place).findLast(it => it.rev)?.rev?.text;
}

/** The records that count: no history, and of no older revision. */
export function liveRecords(place: Place): readonly RecordClause[] {
  const newest = revisionOf(place);
  return recordsOf(place).filter(
    it => !it.was && isEffective(it.effective, undefined) && (!it.rev || it.rev.text === newest),
  );
}

/** As the language has it: the most mature, among equals the latest, among those the last written. */
export function governing(records: readonly RecordClause[]): RecordClause | undefined {
  let best: RecordClause | undefined;
  for (const record of records) {
    const rank = bases.indexOf(record.basis) - (best ? bases.indexOf(best.basis) : -1);
    if (rank > 0 || (rank === 0 && (record.on?.text ?? "") >= (best?.on?.text ?? "")))
      best = record;
  }
  return best;
}

/** Only letters and numbers have an order that nobody doubts. */
export function isEarlier(rev: string, than: string): boolean {
  if (/^\d{1,9}$/.test(rev) && /^\d{1,9}$/.test(than)) return Number(rev) < Number(than);
  const letters = /^[A-Z]{1,2}$/;
  return (
    letters.test(rev) &&
    letters.test(than) &&
    (rev.length < than.length || (rev.length === than.length && rev < than))
  );
}
