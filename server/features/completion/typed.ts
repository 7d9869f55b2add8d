import { indentOf } from "../../../grammar/layout";
import { isUnread, readLine } from "../../../grammar/read-line";
import { groupRows } from "../../../grammar/rows";
import { type Position, placeAt, type Source } from "../../../grammar/source";
import * as t from "../../../grammar/tokens";
import type { Context, Item, Line, Span, Statement } from "../../../grammar/tree";
import { memo } from "../../memo";
import { around } from "../place";

/** A word that is being typed, and what stands around it. */
export interface Typed {
  /** What is there of it already; it may be nothing. */
  readonly word: string;
  /** How many of its letters stand behind the cursor. */
  readonly rest: number;
  /** The text of its logical line in front of it. */
  readonly before: string;
  readonly line: Line;
  /** Where on the line it begins. */
  readonly from: number;
  /** The blocks it stands in, the outermost first. */
  readonly blocks: readonly Item[];
}

/** A line that ends with some word, as the grammar reads it. */
export interface Reading {
  readonly statement: Statement | undefined;
  /** The nodes around the word, the statement first; none where the grammar does not take it. */
  readonly nodes: readonly Span[];
  readonly word: Span;
  /** Nothing of its statement stands in front of it. */
  readonly begins: boolean;
  /** What is said at the end of what stands in front of it. */
  readonly wants: ReadonlySet<string>;
  /** What is said anywhere. */
  readonly says: ReadonlySet<string>;
}

/** Undefined in a comment, a text in quotes or a number. */
export function typedAt(source: Source, position: Position): Typed | undefined {
  const { line, offset } = placeAt(source, position);
  const word = /[\p{L}_][\p{L}\p{N}_]*$/u.exec(line.text.slice(0, offset))?.[0] ?? "";
  const from = offset - word.length;
  const before = line.text.slice(0, from);
  const behind = line.text.slice(offset);
  const rest = /^[\p{L}\p{N}_]*/u.exec(behind)![0].length;
  const typed = { word, rest, before, line, from, blocks: blocksAt(source.items, line, from) };
  const token = lastGroup(before + PROBE).scanned.tokens.at(-1);
  const inNumber = /[\d.]$/.test(before) && /^[\d.]/.test(behind);
  return token?.tokenType === t.Ident && token.image === PROBE && !inNumber ? typed : undefined;
}

/** The block around; one that lost its head is seen through. */
export const blockOf = ({ blocks }: Typed): Item | undefined =>
  blocks.findLast(it => it.head.kind !== "nameless");

/** A name that nobody gives. */
export const PROBE = "zzz_";

/** The line as it would be read with a word in place of the one being typed, and nothing behind it. */
export function readingWith(typed: Typed, word: string): Reading {
  const known = readings(typed);
  const reading = known.get(word) ?? read(typed, word);
  known.set(word, reading);
  return reading;
}

const readings = memo((_typed: Typed) => new Map<string, Reading>());

function read({ before, line }: Typed, word: string): Reading {
  const group = lastGroup(before + word);
  const whole = readLine(line.file, group, line.rank, depth => contextAt(line, depth));
  const { tokens } = group.scanned;
  // more than one token: `total 1`
  const first = tokens.findLastIndex(it => it.startOffset <= group.text.length - word.length);
  const from = Math.max(0, group.text.length - word.length);
  const at = { line: whole, from, to: from + (tokens[first]?.image.length ?? 0) };
  const last = whole.pieces.findLast(it => it.kind !== "statement" || !isUnread(it.item.head));
  const statement = last?.kind === "statement" ? last.item.head : undefined;
  const clauses = statement && "clauses" in statement ? statement.clauses : [];
  const unread = clauses.some(it => it.kind === "unread" && it.to >= at.to);
  const taken = statement !== undefined && word !== "" && statement.to >= at.to && !unread;
  const previous = tokens[first - 1];
  const end = word === "" ? tokens.at(-1)?.endOffset : previous?.endOffset;
  const says = whole.faults.map(it => it.message);
  const wants = whole.faults.flatMap(it => (it.at.to > (end ?? 0) ? it.message : []));
  return {
    statement,
    nodes: taken ? around(statement, from) : [],
    word: at,
    begins: previous === undefined || parts.has(previous.tokenType),
    wants: new Set(wants),
    says: new Set(says),
  };
}

/** The token in front of the word. */
export function previousToken({ before }: Typed) {
  const { tokens } = lastGroup(before + PROBE).scanned;
  return tokens.at(-2);
}

const parts = new Set<object>([t.Open, t.Close, t.Semicolon]);

const lastGroup = (text: string) => [...groupRows(text.split("\n"))].at(-1)!;

const contextAt = ({ contexts }: Line, depth: number): Context => contexts[depth] ?? "body";

/** Those around a place: of a block that nothing closes the indentation tells where it ends. */
function blocksAt(items: readonly Item[], line: Line, offset: number): readonly Item[] {
  const isBefore = (at: Span) =>
    at.line.rank < line.rank || (at.line.rank === line.rank && at.from < offset);
  const item = items.findLast(it => isBefore(it.head));
  if (item === undefined) return [];
  const { head, open, close } = item;
  if (open === undefined && item.items.length === 0) return [];
  if (open && !isBefore(open)) return [];
  // of an empty line, where the cursor stands on it
  const column = line.text.trim() === "" ? offset : 0;
  const inside = close
    ? !isBefore(close) || (close.line.rank === line.rank && close.from >= offset)
    : head.line.rank === line.rank || Math.max(indentOf(line), column) > indentOf(head.line);
  return inside ? [item, ...blocksAt(item.items, line, offset)] : [];
}
