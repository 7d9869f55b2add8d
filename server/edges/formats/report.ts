import { posix } from "node:path";
import { positionsOf } from "../../../grammar/source";
import type { Span } from "../../../grammar/tree";
import type { Severity } from "../../findings";
import type { JudgedRoot } from "../../judge";
import { type Project, sourceOf } from "../../project";
import type { Difference, Turned } from "../../views/diff/difference";

/** Everything a format may tell of: what is judged, and with a base what changed. */
export interface Report {
  readonly project: Project;
  readonly roots: readonly JudgedRoot[];
  /** The head's, in order; with a base the gone ones come last. */
  readonly turned: readonly Turned[];
  /** How many files were looked at. */
  readonly files: number;
  /** What paths that leave for other tools are relative to: the workspace folder, with `/`. */
  readonly folder: string;
  readonly change: Change | undefined;
}

export interface Change {
  readonly difference: Difference;
  readonly base: { readonly name: string; readonly project: Project; readonly folder: string };
  readonly head: { readonly name: string };
  /** What it does to each aircraft is told too: `check` with a base tells only of the yardstick and the findings. */
  readonly told: boolean;
}

export type Paint = (severity: Severity | "dim", text: string) => string;
export type Writer = (report: Report, paint: Paint) => string;

/** Those of the head. */
export const foundIn = ({ turned }: Report) => turned.filter(it => it.state !== "gone");

/** Those that a change brought; without a base, all. A waived one is accepted. */
export const broughtIn = (report: Report) =>
  foundIn(report).filter(
    ({ state, finding, before }) =>
      finding.waived === undefined &&
      (report.change === undefined || state === "new" || before?.waived !== undefined),
  );

export const projectOf = ({ project, change }: Report, { state }: Pick<Turned, "state">) =>
  state === "gone" && change ? change.base.project : project;

/** Relative to the workspace folder. */
export function pathIn({ folder, change }: Report, path: string, gone = false): string {
  const from = gone && change ? change.base.folder : folder;
  return posix.relative(from, path);
}

/** Where a span stands: rows and columns from 0, columns in UTF-16 units, and the rows it runs over. */
export function rangeOf(project: Project, span: Span) {
  const source = sourceOf(project, span.line.file);
  const zero = { line: 0, character: 0 };
  return source ? positionsOf(source, span) : { start: zero, end: zero };
}

/** The first and the last row of a span, as texts. */
export function rowsOf(span: Span): { readonly first: string; readonly last: string } {
  const { text } = span.line;
  const row = (at: number) => {
    const from = text.lastIndexOf("\n", at - 1) + 1;
    const to = text.indexOf("\n", at);
    return text.slice(from, to < 0 ? text.length : to);
  };
  return { first: row(span.from), last: row(span.to) };
}

export function countOf(turned: readonly Turned[], severity: Severity): number {
  return turned.filter(
    ({ finding }) => finding.severity === severity && finding.waived === undefined,
  ).length;
}

export const many = (n: number, one: string, more = `${one}s`) => `${n} ${n === 1 ? one : more}`;

/** "1 error, 2 warnings, 0 notes, 1 waived" */
export function counted(turned: readonly Turned[]): string {
  const waived = turned.filter(it => it.finding.waived !== undefined).length;
  return [
    many(countOf(turned, "error"), "error"),
    many(countOf(turned, "warning"), "warning"),
    many(countOf(turned, "info"), "note"),
    ...(waived > 0 ? [`${waived} waived`] : []),
  ].join(", ");
}

export const CAUTION =
  "A calculated weight and balance does not replace a weighing or the approved documents.";
