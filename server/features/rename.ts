import type { Position } from "../../grammar/source";
import type { Word } from "../../grammar/tree";
import { joinPath } from "../model/env";
import type { Project } from "../project";
import { isMember, type Named, namedAt, occurrences } from "./names";
import { figuresChanged } from "./refactor/proof";
import {
  type FileEdit,
  fileEdits,
  type Refusal,
  type Rewrite,
  rewritten,
} from "./refactor/rewrite";

/** The word that a rename would change; undefined where none stands. */
export function renamable(project: Project, path: string, position: Position): Word | undefined {
  return namedAt(project, path, position)?.word;
}

/**
 * A name changed wherever it means the same, over all files. Tried before it is answered: every aircraft has
 * the figures it had, and the new name means in each place what the old one did.
 */
export function rename(
  project: Project,
  path: string,
  position: Position,
  name: string,
): Rewrite | Refusal {
  const named = namedAt(project, path, position);
  if (named === undefined) return { refused: "no name stands here" };
  if (!/^\p{L}[\p{L}\p{N}_]*$/u.test(name))
    return {
      refused: `${name === "" ? "nothing" : name} is no name: a letter, then letters, digits or _`,
    };
  if (name === named.word.text) return { edits: [] };
  const clash = clashOf(named, name);
  if (clash) return { refused: clash };
  const all = occurrences(project, named);
  const edits = fileEdits(
    project,
    all.map(({ at }) => ({ at, text: name })),
  );
  const next = rewritten(project, { edits });
  const changed = figuresChanged(project, next);
  if (changed) return { refused: changed };
  const now = namedAfter(next, edits);
  const meant = now ? occurrences(next, now).length : 0;
  if (meant !== all.length) return { refused: `${name} means something else in its place` };
  return { edits };
}

/** Something in the same block is called so. */
function clashOf({ meaning, root }: Named, name: string): string | undefined {
  if (typeof meaning !== "string") return undefined;
  const beside = joinPath(meaning.slice(0, Math.max(0, meaning.lastIndexOf("."))), name);
  return isMember(root, beside) ? `${beside} is there already` : undefined;
}

/** The first renamed place, where it stands after those before it on its row have changed. */
function namedAfter(next: Project, edits: readonly FileEdit[]): Named | undefined {
  const [first] = edits;
  if (first === undefined) return undefined;
  const before = edits.filter(
    it =>
      it.path === first.path &&
      it.start.line === first.start.line &&
      it.start.character < first.start.character,
  );
  const shift = before.reduce(
    (sum, it) => sum + it.text.length - (it.end.character - it.start.character),
    0,
  );
  const { line, character } = first.start;
  return namedAt(next, first.path, { line, character: character + shift });
}
