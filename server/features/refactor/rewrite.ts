import { type Position, positionsOf, textOf } from "../../../grammar/source";
import { applied } from "../../lists/splice";
import { type Project, sourceOf, withoutFile, withText } from "../../project";
import type { Edit } from "../amend";
import type { TextEdit } from "../format";

/** What a refactoring does to the files: pieces of text replaced, files new and files gone. */
export interface Rewrite {
  /** None of them overlaps another. */
  readonly edits: readonly FileEdit[];
  readonly created?: readonly { readonly path: string; readonly text: string }[];
  readonly deleted?: readonly string[];
}

export interface FileEdit extends TextEdit {
  readonly path: string;
}

/** Why something cannot be done, in words: "the file wing.poise is there already". */
export interface Refusal {
  readonly refused: string;
}

/** What an editor may offer at a place; the work is done when it is chosen. */
export interface Offer {
  readonly title: string;
  /** As the Language Server Protocol sorts refactorings; "units" and "fixAll" are of a whole file. */
  readonly kind: "extract" | "inline" | "rewrite" | "move" | "units" | "fixAll";
  readonly rewrite: () => Rewrite | Refusal;
  readonly keeps: Keeps;
}

/** What has to be the same afterwards; everything, where nothing is said. */
export interface Keeps {
  /** The datum moves aft by so much, m. */
  readonly datumBy?: number;
  /** Figures were written anew, to the digits they had: verdicts are the same, sums nearly. */
  readonly digits?: boolean;
  /** Things have other names: figures stand in their order. */
  readonly names?: boolean;
  /** Pieces that shared one error no longer do. */
  readonly spreads?: boolean;
  /** Paths of assemblies that may weigh something else. */
  readonly assemblies?: readonly string[];
  /** What a path is called afterwards. */
  readonly renamed?: (path: string) => string;
  /** Codes of findings that may come and go. */
  readonly codes?: readonly string[];
}

/** Edits of stretches of single lines, as positions in their files. */
export function fileEdits(project: Project, edits: readonly Edit[]): readonly FileEdit[] {
  return edits.flatMap(({ at, text }) => {
    const source = sourceOf(project, at.line.file);
    return source ? [{ path: source.path, ...positionsOf(source, at), text }] : [];
  });
}

/** The workspace with it done. */
export function rewritten(project: Project, { edits, created, deleted }: Rewrite): Project {
  let next = project;
  for (const path of new Set(edits.map(it => it.path))) {
    const source = sourceOf(project, path);
    const own = edits.filter(it => it.path === path);
    if (source) next = withText(next, path, edited(textOf(source), own));
  }
  for (const { path, text } of created ?? []) next = withText(next, path, text);
  for (const path of deleted ?? []) next = withoutFile(next, path);
  return next;
}

/** A stretch of a text with edits made in it. */
export function edited(
  text: string,
  edits: readonly TextEdit[],
  within?: { readonly start: Position; readonly end: Position },
): string {
  const starts = [0];
  for (const row of text.split("\n")) starts.push(starts.at(-1)! + row.length + 1);
  const offset = (it: Position) => starts[it.line]! + it.character;
  const [from, to] = within ? [offset(within.start), offset(within.end)] : [0, text.length];
  return applied(
    text.slice(from, to),
    edits.map(it => ({ from: offset(it.start) - from, to: offset(it.end) - from, text: it.text })),
  );
}
