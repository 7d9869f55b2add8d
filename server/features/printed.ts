import * as t from "../../grammar/tokens";
import type { Declaration, Line, Statement } from "../../grammar/tree";
import { joined, type Mark, marksOf } from "./marks";

/** The rows a logical line is printed as, and how deep the next one stands. */
export interface Printed {
  readonly rows: readonly string[];
  readonly depth: number;
}

/** One statement a row, its comments where they stood. The line has no faults. */
export function printed(line: Line, depth: number, columns: number): Printed {
  const rows: string[] = [];
  let deep = depth;
  /** The row that a comment behind its code may still be put on. */
  let open: number | undefined;
  const runs = runsOf(line);
  for (let i = 0; i < runs.length; i++) {
    const run = runs[i]!;
    if (run.kind === "comment") {
      const { text, breaks } = run.mark;
      if (open === undefined || breaks) rows.push(indent(deep) + text);
      else rows[open] += ` ${text}`;
      open = undefined;
    } else if (run.kind === "statement") {
      const opens = runs[i + 1]?.kind === "open";
      const empty = opens && runs[i + 2]?.kind === "close";
      const { said, broken } = statement(run, deep, columns, empty ? " {}" : opens ? " {" : "");
      open = broken && !run.marks.some(isComment) ? rows.length : rows.length + said.length - 1;
      rows.push(...said);
      if (empty) i += 2;
    } else if (run.kind === "open") deep++;
    else {
      deep--;
      open = rows.push(`${indent(deep)}}`) - 1;
    }
  }
  return { rows, depth: deep };
}

interface StatementRun {
  readonly kind: "statement";
  readonly head: Statement;
  readonly marks: readonly Mark[];
}
type Run =
  | StatementRun
  | { readonly kind: "open" | "close" }
  | { readonly kind: "comment"; readonly mark: Mark };

/**
 * Statements with their tokens and the comments among them, braces, and the comments between all of
 * these; one between a head and its brace stands behind the brace.
 */
function runsOf(line: Line): readonly Run[] {
  const heads = line.pieces.flatMap(it => (it.kind === "statement" ? [it.item.head] : []));
  const runs: Run[] = [];
  let next = 0;
  let marks: Mark[] | undefined;
  let held: Mark[] = [];
  const release = () => {
    for (const mark of held) runs.push({ kind: "comment", mark });
    held = [];
  };
  const all = marksOf(line);
  /** `install` stands ahead of what its declaration is said to be. */
  const begins = (at: number) => {
    const head = heads[next];
    if (head === undefined) return false;
    let first = at;
    if ("installed" in head && head.installed)
      do first++;
      while (first < all.length && isComment(all[first]!));
    return head.from <= (all[first]?.from ?? -1);
  };
  for (const [at, mark] of all.entries()) {
    if (isComment(mark)) held.push(mark);
    else if (mark.type === t.Semicolon) marks = undefined;
    else if (mark.type === t.Open || mark.type === t.Close) {
      marks = undefined;
      if (mark.type === t.Close) release();
      runs.push({ kind: mark.type === t.Open ? "open" : "close" });
      release();
    } else {
      if (begins(at)) {
        release();
        marks = [];
        runs.push({ kind: "statement", head: heads[next++]!, marks });
      }
      marks?.push(...held, mark);
      held = [];
    }
  }
  release();
  return runs;
}

const isComment = ({ type }: Mark) => type === undefined;
const indent = (depth: number) => "  ".repeat(depth);

interface Said {
  readonly said: readonly string[];
  /** Its clauses stand in braces that were not there, or at the head of its block. */
  readonly broken: boolean;
}

/** @param block what stands behind the statement: `" {"`, `" {}"` or nothing */
function statement(
  { head, marks }: StatementRun,
  depth: number,
  columns: number,
  block: string,
): Said {
  const rows = laidOut(marks, depth, columns, block);
  const fits = rows.every(it => it.width <= columns);
  if (fits || !("clauses" in head) || head.clauses.length === 0)
    return { said: rows.map(it => it.text), broken: false };
  const [first, ...clauses] = partsOf(head, marks);
  const said = [
    ...laidOut(first!, depth, columns, " {"),
    ...clauses.flatMap(it => laidOut(it, depth + 1, columns, "")),
  ].map(it => it.text);
  return { said: block === " {" ? said : [...said, `${indent(depth)}}`], broken: true };
}

/** A declaration's own words, then those of each clause; a comment goes with what it stands behind. */
function partsOf({ clauses }: Declaration, marks: readonly Mark[]): readonly Mark[][] {
  const parts: Mark[][] = [[]];
  for (const mark of marks) {
    if (!isComment(mark) && clauses[parts.length - 1]?.from === mark.from) parts.push([]);
    parts.at(-1)!.push(mark);
  }
  return parts;
}

/**
 * On one row if it fits; else as the author broke it, for a break elsewhere may end the statement.
 * The width is that of the code: a comment may stand out.
 */
function laidOut(
  marks: readonly Mark[],
  depth: number,
  columns: number,
  behind: string,
): readonly { readonly text: string; readonly width: number }[] {
  const single = indent(depth) + joined(marks) + behind;
  const within = marks.slice(0, -1).some(isComment);
  if (!within && single.length <= columns) return [{ text: single, width: single.length }];
  const groups: Mark[][] = [];
  for (const mark of marks)
    if (mark.breaks || groups.length === 0) groups.push([mark]);
    else groups.at(-1)!.push(mark);
  return groups.map((group, i) => {
    const last = i === groups.length - 1 ? behind : "";
    const before = indent(i === 0 ? depth : depth + 1);
    const code = group.filter(it => !isComment(it));
    return {
      text: before + joined(group) + last,
      width: code.length === 0 ? 0 : before.length + joined(code).length + last.length,
    };
  });
}
