import { listOf } from "../../grammar/lines";
import type { Position, Source } from "../../grammar/source";
import { type Project, sourceOf } from "../project";
import { printed } from "./printed";

/** How wide the code of a row may be. */
const COLUMNS = 100;

/** The rows from one up to another, that one not counted, and what stands there instead. */
export interface RowEdit {
  readonly from: number;
  readonly to: number;
  readonly was: readonly string[];
  readonly rows: readonly string[];
}

export interface TextEdit {
  readonly start: Position;
  readonly end: Position;
  readonly text: string;
}

/**
 * What brings a file, or those of its lines that some rows touch, into the one layout. Only what
 * differs is replaced, so cursors and folds stay. Nothing for a file with a fault in its text.
 */
export function formatting(
  project: Project,
  path: string,
  rows?: { readonly start: Position; readonly end: Position },
): readonly TextEdit[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  const edits = rowEdits(source);
  if (rows === undefined) return edits.flatMap(textEdits);
  const { start, end } = rows;
  // what ends before the first column of a row does not touch it
  const last = end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
  return edits.filter(it => it.from <= last && start.line < it.to).flatMap(textEdits);
}

/** By logical lines, in order, none of which touches the rows of another. */
export function rowEdits(source: Source, columns = COLUMNS): readonly RowEdit[] {
  if (source.faulty.length > 0 || source.braceFaults.length > 0) return [];
  const lines = listOf(source.lines);
  const lastSaid = lines.findLastIndex(it => it.text.trim() !== "");
  const edits: RowEdit[] = [];
  let depth = 0;
  let row = 0;
  let blank = true;
  lines.forEach((line, i) => {
    const was = line.text.split("\n");
    let rows: readonly string[];
    if (line.text.trim() === "") {
      // the last row is empty where the text ends with its line
      rows = i === lines.length - 1 || (!blank && i < lastSaid) ? [""] : [];
      blank = true;
    } else {
      ({ rows, depth } = printed(line, depth, columns));
      blank &&= rows.length === 0;
      // only a semicolon, and nothing below it
      if (rows.length === 0 && i === lines.length - 1) rows = [""];
    }
    if (was.length !== rows.length || was.some((it, at) => it !== rows[at]))
      edits.push({ from: row, to: row + line.rows, was, rows });
    row += line.rows;
  });
  return edits;
}

/** The least that turns the rows that stood there into the new ones. */
export function textEdits({ from, to, was, rows }: RowEdit): readonly TextEdit[] {
  if (rows.length === 0)
    return [{ start: { line: from, character: 0 }, end: { line: to, character: 0 }, text: "" }];
  if (was.length !== rows.length) return [trimmed(from, was.join("\n"), rows.join("\n"))];
  return rows.flatMap((it, i) => (it === was[i] ? [] : [trimmed(from + i, was[i]!, it)]));
}

/** Without what both begin and end with. */
function trimmed(row: number, was: string, now: string): TextEdit {
  const most = Math.min(was.length, now.length);
  let before = 0;
  while (before < most && was[before] === now[before]) before++;
  if (isHigh(was.charCodeAt(before - 1))) before--;
  let behind = 0;
  while (behind < most - before && was.at(-1 - behind) === now.at(-1 - behind)) behind++;
  if (behind > 0 && isLow(was.charCodeAt(was.length - behind))) behind--;
  const place = (offset: number): Position => {
    const rows = was.slice(0, offset).split("\n");
    return { line: row + rows.length - 1, character: rows.at(-1)!.length };
  };
  return {
    start: place(before),
    end: place(was.length - behind),
    text: now.slice(before, now.length - behind),
  };
}

/** The two halves of a character beyond the first 65,536 stay together. */
const isHigh = (unit: number) => unit >= 0xd800 && unit < 0xdc00;
const isLow = (unit: number) => unit >= 0xdc00 && unit < 0xe000;
