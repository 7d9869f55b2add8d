import type { Position } from "../../grammar/source";
import type { Declaration, Item, Path, Span, Word } from "../../grammar/tree";
import { memo } from "../memo";
import { isSide } from "../model/edits";
import { joinPath } from "../model/env";
import type { Reach } from "../model/reach";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import { declarationOf } from "./definition";
import { type At, around, isWord, itemsIn, nodesAt, nodesIn, rootWith } from "./place";

/** What a name means: a thing of the aircraft by its path, else the place that declares it. */
export type Meaning = string | Span;

/** One place where a name stands. */
export interface Occurrence {
  readonly at: Word;
  readonly declares: boolean;
}

/** A name under the cursor, what it means, and the aircraft it is a name of. */
export interface Named {
  readonly word: Word;
  readonly meaning: Meaning;
  readonly root: Root;
}

export function namedAt(project: Project, path: string, position: Position): Named | undefined {
  const at = nodesAt(project, path, position);
  const root = rootWith(project, path);
  const word = at?.nodes.findLast(isWord);
  if (at === undefined || root === undefined || word === undefined) return undefined;
  const meaning = meaningOf(root, at, word);
  return meaning === undefined ? undefined : { word, meaning, root };
}

/**
 * Everywhere a name means the same, in all files of its aircraft and its airframes, in their order. Where
 * several options declare one path, all of them are meant.
 */
export function occurrences(project: Project, { word, meaning, root }: Named): Occurrence[] {
  const { reach } = root;
  return [...reach.files, ...reach.fitting].flatMap(({ path }) => {
    const source = sourceOf(project, path);
    // an airframe's file speaks of what is in that airframe
    const own = rootWith(project, path) ?? root;
    if (source === undefined) return [];
    return [...itemsIn(source.items)].flatMap(({ item: { head }, blocks }) => {
      if (!head.line.text.includes(word.text)) return [];
      return [...new Set(nodesIn(head))].flatMap((it): readonly Occurrence[] => {
        if (!isWord(it) || it.text !== word.text) return [];
        const at: At = {
          ...{ statement: head, blocks, offset: it.from },
          nodes: around(head, it.from),
        };
        if (!same(meaningOf(own, at, it) ?? meaningOf(root, at, it), meaning)) return [];
        return [{ at: it, declares: declares(at, it) }];
      });
    });
  });
}

/** Those of one file, as an editor marks them while the cursor rests on one. */
export function highlights(project: Project, path: string, position: Position): Occurrence[] {
  const named = namedAt(project, path, position);
  if (named === undefined) return [];
  return occurrences(project, named).filter(({ at }) => at.line.file === path);
}

export function references(project: Project, path: string, position: Position): Occurrence[] {
  const named = namedAt(project, path, position);
  return named === undefined ? [] : occurrences(project, named);
}

const same = (a: Meaning | undefined, b: Meaning) =>
  a === b ||
  (typeof a === "object" &&
    typeof b === "object" &&
    a.line === b.line &&
    a.from === b.from &&
    a.to === b.to);

function meaningOf(root: Root, at: At, word: Word): Meaning | undefined {
  const { statement, nodes } = at;
  const path = nodes.findLast((node): node is Path => "words" in node);
  if (path !== undefined) {
    const index = path.words.indexOf(word);
    if (index > 0 && isSide(word.text)) return undefined;
    const upTo = path.words.slice(0, index + 1).map(it => it.text);
    const plain = upTo.filter((it, i) => i === 0 || !isSide(it)).join(".");
    if (declaresMember(statement) && statement.path === path) {
      // a path is absolute; a single word stands in its block
      return path.words.length > 1 ? plain : joinPath(blockPath(at.blocks.slice(0, -1)), plain);
    }
    const target = declarationOf(root, at);
    const { paths, names } = membersIn(root.reach);
    // an envelope, a let or a loading may be called like a part
    if (target === undefined || names.has(target)) return paths.has(plain) ? plain : target;
    // a stage of a loading has no name of its own
    return index === 0 ? target : undefined;
  }
  return declarationOf(root, at);
}

/** All that is declared anywhere, in options that are not chosen too: the paths, and where they stand. */
const membersIn = memo((reach: Reach) => {
  const paths = new Set<string>();
  const names = new Set<Span>();
  for (const { item, blocks } of headsIn(reach)) {
    const { head } = item;
    if (!declaresMember(head) || head.path === undefined) continue;
    const own = head.path.words.length > 1 ? "" : blockPath(blocks.slice(0, -1));
    paths.add(joinPath(own, head.path.text));
    names.add(head.path);
  }
  return { paths, names };
});

/** What a path may not be called anew, for something is called so. */
export const isMember = (root: Root, path: string): boolean =>
  membersIn(root.reach).paths.has(path);

const headsIn = memo((reach: Reach) =>
  [...reach.files, ...reach.fitting].flatMap(it => [...itemsIn(it.items)]),
);

const members = new Set(["assembly", "part", "tank", "seat", "bay", "reserve", "ballast"]);
const declaresMember = (head: object): head is Declaration =>
  "clauses" in head && "kind" in head && members.has(head.kind as string);

const blockPath = (blocks: readonly Item[]) =>
  blocks
    .flatMap(({ head }) => (head.kind === "assembly" && head.path ? [head.path.text] : []))
    .join(".");

function declares({ statement }: At, word: Word): boolean {
  if ("clauses" in statement) return statement.path?.words.at(-1) === word;
  return "name" in statement && statement.name === word && statement.kind !== "scale";
}

/** The path that a word stands in, if it stands in one. */
export function pathAround(word: Span): Path | undefined {
  for (const piece of word.line.pieces) {
    if (piece.kind !== "statement") continue;
    const { head } = piece.item;
    if (head.from > word.from || word.to > head.to) continue;
    const found = around(head, word.from).findLast((it): it is Path => "words" in it);
    if (found?.words.some(it => isWord(it) && it.from === word.from)) return found;
  }
  return undefined;
}
