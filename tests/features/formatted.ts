import { expect } from "vitest";
import { listOf } from "../../grammar/lines";
import { type Position, read, type Source } from "../../grammar/source";
import type { Clause, Item } from "../../grammar/tree";
import { rowEdits, type TextEdit, textEdits } from "../../server/features/format";
import { joined, marksOf } from "../../server/features/marks";
import { print } from "../grammar/print";

/** A text after the edits that format it, applied as an editor does: from the last to the first. */
export function formatted(text: string, columns?: number): string {
  return applied(text, rowEdits(read("x.poise", text), columns).flatMap(textEdits));
}

export function applied(text: string, edits: readonly TextEdit[]): string {
  const starts = [0];
  for (const { index } of text.matchAll(/\n/g)) starts.push(index + 1);
  const offset = ({ line, character }: Position) => starts[line]! + character;
  let [result, next] = [text, text.length];
  for (const { start, end, text: now } of edits.toReversed()) {
    expect(offset(end), "edits stand in order and apart").toBeLessThanOrEqual(next);
    result = result.slice(0, offset(start)) + now + result.slice(offset(end));
    next = offset(start);
  }
  return result;
}

/** What a text says, wherever it stands: the tree, a declaration's clauses at the head of its block. */
export function meaningOf(text: string): string {
  return print(read("x.poise", text).items.map(inBlock));
}

function inBlock(item: Item): Item {
  const { head } = item;
  const items = item.items.map(inBlock);
  // an empty block and none are one
  if (!("clauses" in head) || head.clauses.length === 0)
    return { ...item, items, close: items.length > 0 ? item.close : undefined };
  const clauses = head.clauses.map(clauseItem);
  return { head: { ...head, clauses: [] }, items: [...clauses, ...items], open: head, close: head };
}

function clauseItem(clause: Clause): Item {
  const { line, from, to } = clause;
  const head = { kind: "clause" as const, line, from, to, clause };
  return { head, items: [], open: undefined, close: undefined };
}

/** The comments in order, and apart from them every token but what parts statements. */
export function wordsOf(text: string): { comments: readonly string[]; words: readonly string[] } {
  const marks = marksIn(read("x.poise", text));
  const comments = marks.filter(it => it.type === undefined).map(it => it.text);
  const words = marks.filter(it => it.type !== undefined && !/^[;{}]$/.test(it.text));
  return { comments, words: words.map(it => it.text) };
}

const marksIn = (source: Source) => listOf(source.lines).flatMap(marksOf);

/**
 * A formatted text with other blanks between its words, other indents and lines that share a row.
 * @param dice from 0 to 9
 */
export function scattered(text: string, dice: () => number): string {
  const blanks = [" ", " ", "  ", "\t", " \t "];
  const blank = (least: 0 | 1) => (dice() < 4 && least === 0 ? "" : blanks[dice() % 5]!);
  let result = "";
  let shared = false;
  const lines = listOf(read("x.poise", text).lines);
  lines.forEach((line, i) => {
    const marks = marksOf(line);
    const last = marks.at(-1);
    // where a statement goes on says where it may break
    if (line.rows > 1) result += line.text;
    else
      marks.forEach((mark, at) => {
        const before = marks[at - 1];
        const touches = before === undefined || joined([before, mark]) === before.text + mark.text;
        const mustTouch = mark.text === "(" || mark.type === undefined;
        if (at > 0 || !shared) result += touches && mustTouch ? "" : blank(touches ? 0 : 1);
        result += mark.text;
      });
    if (i === lines.length - 1) return;
    const next = lines[i + 1]!;
    const says = (of: typeof line) => of.text.trim() !== "" && !of.text.trim().startsWith("//");
    const shares = line.rows === 1 && says(line) && says(next) && last?.type !== undefined;
    const { text: end } = last ?? { text: "" };
    shared = shares && next.rows === 1 && dice() < 4;
    if (!shared) result += dice() < 2 && line.text.trim() === "" ? "\n \n" : "\n";
    else if (end === "{" || end === "}" || next.text.trim() === "}") result += " ";
    else result += ";";
  });
  return result;
}
