import {
  indexAtRow,
  indexOf,
  type Lines,
  lineAt,
  linesOf,
  listOf,
  rowAt,
  slice,
  spliced,
} from "./lines";
import { nest } from "./nest";
import { type Around, readLine } from "./read-line";
import { groupRows, type RowGroup } from "./rows";
import type { Fault, Item, Line, Span } from "./tree";

/** One picture of a file: its lines, and how they nest. Immutable; an edit makes the next one. */
export interface Source {
  readonly path: string;
  readonly lines: Lines;
  readonly items: readonly Item[];
  /** Braces without a partner; what is wrong within a line is the line's. */
  readonly braceFaults: readonly Fault[];
  /** The lines with something wrong in them. */
  readonly faulty: readonly Line[];
}

/** Counted from 0; columns in UTF-16 units. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/** Reads a whole text. Never fails. */
export function read(path: string, text: string): Source {
  const lines: Line[] = [];
  // most lines stand in a body; those that do not are read again when the nesting shows it
  for (const group of groupRows(splitRows(text.startsWith("\ufeff") ? text.slice(1) : text)))
    lines.push(readLine(path, group, lines.length * STEP, inBody));
  return nested(path, lines);
}

/**
 * Replaces what stands between two positions. Reads only the lines that were touched, and shares
 * everything else with the picture before: the result is the same, to the last node, as reading anew.
 */
export function edit(source: Source, from: Position, to: Position, text: string): Source {
  const { lines } = source;
  const [first, end] = widen(lines, indexAtRow(lines, from.line), indexAtRow(lines, to.line) + 1);
  const rows = slice(lines, first, end).flatMap(line => line.text.split("\n"));
  const start = rowAt(lines, first);
  const [fromRow, toRow] = [from.line - start, to.line - start];
  const head = (rows[fromRow] ?? "").slice(0, from.character);
  const tail = (rows[toRow] ?? "").slice(to.character);
  const replaced = splitRows(head + text + tail);
  rows.splice(fromRow, toRow - fromRow + 1, ...replaced);
  return withRows(source, first, end, rows);
}

/** The text as it stands, with line feeds. */
export function textOf(source: Source): string {
  return listOf(source.lines)
    .map(line => line.text)
    .join("\n");
}

/** Where a span of a picture's line stands in its file. */
export function positionsOf(source: Source, span: Span): { start: Position; end: Position } {
  const row = rowAt(source.lines, indexOf(source.lines, span.line));
  return { start: within(span.line, row, span.from), end: within(span.line, row, span.to) };
}

/** The logical line a row belongs to, and where on it the position is. */
export function placeAt(source: Source, at: Position): { line: Line; offset: number } {
  const index = indexAtRow(source.lines, at.line);
  const line = lineAt(source.lines, index)!;
  const rows = line.text.split("\n");
  let offset = 0;
  const row = Math.min(at.line - rowAt(source.lines, index), rows.length - 1);
  for (let i = 0; i < row; i++) offset += rows[i]!.length + 1;
  return { line, offset: offset + Math.min(at.character, rows[row]!.length) };
}

/** Ranks are this far apart at first, so that many lines fit between two. */
const STEP = 2 ** 20;
const inBody: Around = () => "body";

const splitRows = (text: string) => text.split(/\r\n|\n|\r/);

function again(line: Line, around: Around): Line {
  const [group] = groupRows(line.text.split("\n"));
  return readLine(line.file, { ...group!, text: line.text, rows: line.rows }, line.rank, around);
}

function nested(path: string, lines: readonly Line[]): Source {
  const { lines: read, items, faults } = nest(lines, again);
  const faulty = read.filter(isFaulty);
  return { path, lines: linesOf(read), items, braceFaults: faults, faulty };
}

const isFaulty = (line: Line) => line.faults.length > 0;

/**
 * One line that says something on either side: an edit may join a line to the one before it, or part
 * them, and the one after shows whether the grouping is back in step.
 */
function widen(lines: Lines, first: number, end: number): [number, number] {
  const silent = (line: Line) => line.text.trim() === "" || isComment(line);
  let from = first - 1;
  while (from > 0 && silent(lineAt(lines, from)!)) from--;
  let to = end;
  while (to < lines.length && silent(lineAt(lines, to)!)) to++;
  return [Math.max(0, from), Math.min(lines.length, to + 1)];
}

const isComment = (line: Line) => line.text.trimStart().startsWith("//");

function withRows(source: Source, first: number, end: number, rows: readonly string[]): Source {
  const { path, lines } = source;
  let groups = [...groupRows(rows)];
  // the last line of the region must stand as it stood, or the next one may belong to it
  let until = end;
  let all = rows;
  while (until < lines.length && groups.at(-1)!.text !== lineAt(lines, until - 1)!.text) {
    all = [...all, ...lineAt(lines, until)!.text.split("\n")];
    until++;
    groups = [...groupRows(all)];
  }
  const old = slice(lines, first, until);
  const [same, sameAfter] = sharedEnds(old, groups);
  const changed = groups.slice(same, groups.length - sameAfter);
  const gone = old.slice(same, old.length - sameAfter);
  if (changed.length === 0 && gone.length === 0) return source;

  const at = first + same;
  const [before, there] = [lineAt(lines, at - 1), lineAt(lines, at)];
  const after = lineAt(lines, at + gone.length);
  const ranks = ranksBetween(before?.rank, after?.rank, changed.length);
  if (ranks === undefined) {
    const texts = listOf(lines).map(line => line.text);
    texts.splice(at, gone.length, ...changed.map(group => group.text));
    return read(path, texts.join("\n"));
  }
  const context = (there ?? before)?.contexts ?? ["body" as const];
  const fresh = changed.map((group, i) =>
    readLine(path, group, ranks[i]!, d => context[d] ?? "body"),
  );
  const next = spliced(lines, at, gone.length, fresh);
  const items = source.braceFaults.length === 0 && replaceItems(source.items, gone, fresh, there);
  if (!items) return nested(path, listOf(next));
  const { braceFaults } = source;
  const faulty = withFaulty(source.faulty, gone, fresh);
  return { path, lines: next, items, braceFaults, faulty };
}

function withFaulty(
  faulty: readonly Line[],
  gone: readonly Line[],
  fresh: readonly Line[],
): readonly Line[] {
  if (!gone.some(isFaulty) && !fresh.some(isFaulty)) return faulty;
  const without = new Set(gone);
  const others = faulty.filter(line => !without.has(line));
  return [...others, ...fresh.filter(isFaulty)].sort((a, b) => a.rank - b.rank);
}

/** How many lines at the start and at the end of a region stand as they stood. */
function sharedEnds(old: readonly Line[], groups: readonly RowGroup[]): [number, number] {
  const most = Math.min(old.length, groups.length);
  const alike = (line: Line, group: RowGroup) =>
    line.text === group.text && line.rows === group.rows;
  let before = 0;
  while (before < most && alike(old[before]!, groups[before]!)) before++;
  let after = 0;
  while (
    after < most - before &&
    alike(old[old.length - 1 - after]!, groups[groups.length - 1 - after]!)
  )
    after++;
  return [before, after];
}

/** Ranks in order between two others; undefined when there is no room left. */
function ranksBetween(
  low: number | undefined,
  high: number | undefined,
  count: number,
): number[] | undefined {
  const from = low ?? (high ?? 0) - STEP * (count + 1);
  const gap = (high ?? from + STEP * (count + 1)) - from;
  // close behind the line before: most lines are added one after the other
  const step =
    high === undefined || low === undefined ? STEP : count + 1 < gap ? 1 : gap / (count + 1);
  const ranks = Array.from({ length: count }, (_, i) => from + step * (i + 1));
  const sound = ranks.every(
    (rank, i) => rank > (ranks[i - 1] ?? from) && (high === undefined || rank < high),
  );
  return sound ? ranks : undefined;
}

/**
 * The tree with the statements of some lines replaced, copying only the blocks around them; undefined
 * where braces came or went, for then the nesting must be found anew.
 */
function replaceItems(
  items: readonly Item[],
  gone: readonly Line[],
  fresh: readonly Line[],
  after: Line | undefined,
): readonly Item[] | undefined {
  const plain = (line: Line) => line.pieces.every(piece => piece.kind === "statement");
  if (!gone.every(plain) || !fresh.every(plain)) return undefined;
  const context = fresh[0]?.contexts[0];
  if (gone.length === 0 && after === undefined) return undefined;
  if (context !== (gone[0] ?? after!).contexts[0] && fresh.length > 0) return undefined;
  const itemsOf = (lines: readonly Line[]) =>
    lines.flatMap(line =>
      line.pieces.flatMap(piece => (piece.kind === "statement" ? [piece.item] : [])),
    );
  const rank = (fresh[0] ?? gone[0]!).rank;
  return splice(items, Math.min(rank, gone[0]?.rank ?? rank), itemsOf(gone), itemsOf(fresh));
}

function splice(
  items: readonly Item[],
  rank: number,
  gone: readonly Item[],
  fresh: readonly Item[],
): readonly Item[] | undefined {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (items[middle]!.head.line.rank < rank) low = middle + 1;
    else high = middle;
  }
  const block = items[low - 1];
  if (block?.close && block.close.line.rank > rank) {
    const inner = splice(block.items, rank, gone, fresh);
    return inner && items.with(low - 1, { ...block, items: inner });
  }
  if (gone.some((item, i) => items[low + i] !== item)) return undefined;
  return [...items.slice(0, low), ...fresh, ...items.slice(low + gone.length)];
}

function within(line: Line, row: number, offset: number): Position {
  if (line.rows === 1) return { line: row, character: offset };
  const before = line.text.slice(0, offset).split("\n");
  return { line: row + before.length - 1, character: before.at(-1)!.length };
}
