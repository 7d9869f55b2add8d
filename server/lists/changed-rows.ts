import { applied, rowEnd, rowStart, type Splice } from "./splice";

/** Rows that are replaced, with what comes in their place. */
export interface ChangedRows {
  /** Of the first of them, from 1. */
  readonly line: number;
  readonly gone: readonly string[];
  readonly fresh: readonly string[];
}

/** What a person sees of a change before it is written; rows that stay as they are do not show. */
export function changedRows(text: string, splices: readonly Splice[]): readonly ChangedRows[] {
  const groups: { from: number; to: number; splices: Splice[] }[] = [];
  for (const splice of [...splices].sort((a, b) => a.from - b.from)) {
    const from = rowStart(text, splice.from);
    const to = rowEnd(text, splice.to);
    const last = groups.at(-1);
    if (last && from <= last.to) {
      last.to = Math.max(last.to, to);
      last.splices.push(splice);
    } else groups.push({ from, to, splices: [splice] });
  }
  let row = 1;
  let counted = 0;
  return groups.map(group => {
    const { from, to } = group;
    row += rowsOf(text.slice(counted, from)).length - 1;
    counted = from;
    const before = text.slice(from, to);
    const moved = group.splices.map(it => ({ ...it, from: it.from - from, to: it.to - from }));
    const [gone, fresh] = [before, applied(before, moved)].map(rowsOf) as [string[], string[]];
    let same = 0;
    while (same < gone.length && same < fresh.length && gone[same] === fresh[same]) same++;
    let sameEnd = 0;
    while (
      sameEnd < Math.min(gone.length, fresh.length) - same &&
      gone.at(-1 - sameEnd) === fresh.at(-1 - sameEnd)
    )
      sameEnd++;
    return {
      line: row + same,
      gone: gone.slice(same, gone.length - sameEnd),
      fresh: fresh.slice(same, fresh.length - sameEnd),
    };
  });
}

const rowsOf = (text: string) => text.split(/\r\n|\n|\r/);
