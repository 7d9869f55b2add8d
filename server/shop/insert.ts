import type { Clause, Declaration, Item, Span } from "../../grammar/tree";
import type { Edit } from "../features/amend";
import { clausesOf } from "../model/clauses";

/** As the formatter has it: what is wider goes into braces. */
const WIDEST = 100;

/** A record behind the last of a declaration, in the manner it is written in; every other byte stays. */
export function recordIn(item: Item, record: string): Edit {
  const head = item.head as Declaration;
  const last = clausesOf(item).findLast(it => it.kind === "record");
  if (last && !isInHead(head, last)) return inBlock(last, record);
  const after = last ?? head.figure ?? head.title ?? head.path ?? head;
  const blockRow = item.open && rowBehind(item.open);
  // what stands in a block on rows of its own is joined by a row of its own
  if (blockRow && (last === undefined || !fits(after, record)))
    return { at: blockRow, text: `\n${indentInside(item)}${record}` };
  if (!fits(after, record) && !item.open && standsAlone(head)) return inBraces(head, after, record);
  return { at: endOf(after), text: ` ${record}` };
}

/** A line at the end of the records of a block, else at its end; a block of its own where there is none. */
export function linesIn(item: Item, lines: readonly string[]): Edit {
  const last = item.items.findLast(it => it.head.kind === "record-of")?.head;
  if (last) {
    const row = rowOf(last);
    if (isAlone(last))
      return { at: endOf(row), text: lines.map(it => `\n${indentOf(last)}${it}`).join("") };
    return { at: endOf(last), text: lines.map(it => `; ${it}`).join("") };
  }
  const { open, close, head } = item;
  const own = indentOf(head);
  if (open === undefined || close === undefined)
    return { at: endOf(head), text: ` {\n${lines.map(it => `${own}  ${it}\n`).join("")}${own}}` };
  const before = close.line.text.slice(rowOf(close).from, close.from);
  if (before.trim() === "") {
    const start = close.line.text.slice(0, close.from).lastIndexOf("\n") + 1;
    const at = { line: close.line, from: start, to: start };
    return { at, text: lines.map(it => `${indentInside(item)}${it}\n`).join("") };
  }
  const spaced = before.endsWith(" ");
  const at = { line: close.line, from: close.from, to: close.from };
  const joined = lines.join("; ");
  if (item.items.length === 0) return { at, text: `${spaced ? "" : " "}${joined} ` };
  const end = close.from - (before.length - before.trimEnd().length);
  return { at: { line: close.line, from: end, to: end }, text: `; ${joined}` };
}

/** A line before a statement, on a row of its own where that one has one. */
export function lineBefore({ head }: Item, text: string): Edit {
  const { line, from } = head;
  const at = { line, from, to: from };
  return { at, text: isAlone(head) ? `${text}\n${indentOf(head)}` : `${text}; ` };
}

/** A clause behind another one, on a row of its own where that stands on one. */
export const clauseBehind = (last: Clause, text: string): Edit => inBlock(last, text);

/** A clause in a block that has none yet, before all that stands in it. */
export function clauseIn(item: Item, text: string): Edit {
  if (item.open === undefined) return { at: endOf(item.head), text: ` ${text}` };
  const row = rowBehind(item.open);
  if (row) return { at: row, text: `\n${indentInside(item)}${text}` };
  return { at: endOf(item.open), text: ` ${text};` };
}

function inBlock(last: Clause, record: string): Edit {
  if (isAlone(last)) return { at: endOf(rowOf(last)), text: `\n${indentOf(last)}${record}` };
  // clauses that follow one another without a sign go on so
  const goesOn = /^\s*[^\s;}/]/.test(last.line.text.slice(last.to, rowOf(last).to));
  return { at: endOf(last), text: `${goesOn ? "" : ";"} ${record}` };
}

/** The clauses of a declaration in braces, one a row. */
function inBraces(head: Declaration, after: Span, record: string): Edit {
  const { line } = head;
  const own = indentOf(head);
  const name = head.figure ?? head.title ?? head.path ?? head;
  const clauses = head.clauses.map(({ from, to }) => line.text.slice(from, to));
  const at = (head.clauses as readonly Span[]).indexOf(after) + 1;
  clauses.splice(at, 0, record);
  const rows = clauses.map(it => `${own}  ${it}\n`).join("");
  return { at: { line, from: name.to, to: head.to }, text: ` {\n${rows}${own}}` };
}

const isInHead = (head: Declaration, clause: Clause) =>
  head.line === clause.line && head.clauses.includes(clause);

const endOf = ({ line, to }: Span): Span => ({ line, from: to, to });

/** The row a span ends in. */
function rowOf({ line, to }: Span): Span {
  const from = line.text.slice(0, to).lastIndexOf("\n") + 1;
  const end = line.text.indexOf("\n", to);
  return { line, from, to: end < 0 ? line.text.length : end };
}

function indentOf({ line, from }: Span): string {
  const start = line.text.slice(0, from).lastIndexOf("\n") + 1;
  return line.text.slice(start).match(/^[ \t]*/)![0];
}

/** Of the first thing in a block that begins its row. */
function indentInside({ items, head }: Item): string {
  const first = items.find(it => startsRow(it.head));
  return first ? indentOf(first.head) : `${indentOf(head)}  `;
}

const startsRow = ({ line, from }: Span) => {
  const start = line.text.slice(0, from).lastIndexOf("\n") + 1;
  return line.text.slice(start, from).trim() === "";
};

/** The end of the row behind a span, if nothing but a comment follows on it. */
function rowBehind(span: Span): Span | undefined {
  const { line, to } = rowOf(span);
  const rest = line.text.slice(span.to, to);
  return /^\s*(\/\/.*)?$/.test(rest) ? { line, from: to, to } : undefined;
}

const isAlone = (span: Span) => startsRow(span) && rowBehind(span) !== undefined;

/** Alone on its rows, and with nothing but space between its clauses. */
function standsAlone(head: Declaration): boolean {
  const { line, clauses } = head;
  const gaps = clauses.slice(1).map((it, i) => line.text.slice(clauses[i]!.to, it.from));
  return isAlone(head) && gaps.every(it => it.trim() === "");
}

function fits(after: Span, record: string): boolean {
  const row = rowOf(after);
  const code = row.line.text.slice(row.from, row.to).replace(/\s*\/\/.*$/, "");
  return code.length + 1 + record.length <= WIDEST;
}
