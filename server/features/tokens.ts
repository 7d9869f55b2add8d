import { indexAtRow, lineAt, rowAt } from "../../grammar/lines";
import type { Position } from "../../grammar/source";
import type { Line, RecordClause } from "../../grammar/tree";
import { memo } from "../memo";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import { type Token, type TokenModifier, tokensOf } from "./line-tokens";
import { membersByHead, rootWith } from "./place";

/**
 * What each word of a file is, in order; of some rows where they are named. A record that another one
 * has taken the place of is `deprecated` up to its figure: its date and its notes stay readable.
 */
export function tokens(
  project: Project,
  path: string,
  rows?: { readonly start: Position; readonly end: Position },
): readonly Token[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  const { lines } = source;
  const root = rootWith(project, path);
  const first = rows ? indexAtRow(lines, rows.start.line) : 0;
  const last = rows ? indexAtRow(lines, rows.end.line) : lines.length - 1;
  const found: Token[] = [];
  let row = rowAt(lines, first);
  for (let i = first; i <= last; i++) {
    const line = lineAt(lines, i)!;
    const old = supersededIn(line, root);
    for (const token of tokensOf(line)) {
      const struck = old.some(it => it.from <= token.from && token.from < it.to);
      const modifiers: readonly TokenModifier[] = struck
        ? [...token.modifiers, "deprecated"]
        : token.modifiers;
      const { column, length, type } = token;
      found.push({ row: row + token.row, column, length, type, modifiers });
    }
    row += line.rows;
  }
  return found;
}

/** The stretches of a line that were figures once. */
function supersededIn(line: Line, root: Root | undefined): readonly { from: number; to: number }[] {
  if (!line.pieces.some(it => it.kind === "statement")) return none;
  const superseded = root && supersededOf(root);
  const found: { from: number; to: number }[] = [];
  for (const record of recordsOf(line))
    if (record.was || superseded?.has(record)) {
      const { from, spread, figure, to } = record;
      found.push({ from, to: (spread ?? figure)?.to ?? to });
    }
  return found;
}

const none: readonly { from: number; to: number }[] = [];

const recordsOf = memo((line: Line): readonly RecordClause[] =>
  line.pieces.flatMap(piece => {
    if (piece.kind !== "statement") return [];
    const { head } = piece.item;
    if ("clauses" in head) return head.clauses.filter(it => it.kind === "record");
    if (head.kind === "clause") return head.clause.kind === "record" ? [head.clause] : [];
    return head.kind === "record-of" ? [head.record] : [];
  }),
);

/** Records of parts for which another one governs. */
const supersededOf = memo((root: Root): ReadonlySet<RecordClause> => {
  const found = new Set<RecordClause>();
  for (const member of membersByHead(root.aircraft).values()) {
    if (member.kind !== "part" && member.kind !== "ballast") continue;
    for (const record of member.records)
      if (member.governing !== undefined && record !== member.governing) found.add(record.clause);
  }
  return found;
});
