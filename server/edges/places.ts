import { relative } from "node:path";
import { positionsOf } from "../../grammar/source";
import type { Span } from "../../grammar/tree";
import { type Project, sourceOf } from "../project";

/** Where a span stands, as people count: lines and columns from 1, columns in UTF-16 units. */
export interface Where {
  /** Relative to the current folder, with `/`. */
  readonly file: string;
  readonly start: { readonly line: number; readonly column: number };
  readonly end: { readonly line: number; readonly column: number };
}

export function whereIs(project: Project, span: Span): Where {
  const source = sourceOf(project, span.line.file);
  const zero = { line: 0, character: 0 };
  const { start, end } = source ? positionsOf(source, span) : { start: zero, end: zero };
  const counted = (at: typeof start) => ({ line: at.line + 1, column: at.character + 1 });
  return { file: shownPath(span.line.file), start: counted(start), end: counted(end) };
}

export function shownPath(path: string): string {
  return (relative(process.cwd(), path) || path).replaceAll("\\", "/");
}
