import type { Source } from "../../grammar/source";
import type { Item, Span } from "../../grammar/tree";
import { memo } from "../memo";
import { joinPath } from "../model/env";
import type { Project } from "../project";
import { kinds, type Outline } from "./symbols";

/** Something declared anywhere in the workspace. */
export interface Found {
  /** Its path, as it is written elsewhere: "wing.outer.tip". */
  readonly path: string;
  /** What it is, with its title and part number: what else it may be looked for by. */
  readonly about: string;
  readonly kind: Outline["kind"];
  readonly at: Span;
}

/**
 * What a query may mean, the likeliest first: its letters stand in the path in their order, with others
 * between. Letters in capitals are no others. Every word of a query behind the first is looked for in the
 * title and the part number.
 * @param most so many at most: a longer list is not read
 */
export function search(project: Project, query: string, most = MOST): readonly Found[] {
  const [name = "", ...about] = query.toLowerCase().split(/\s+/).filter(Boolean);
  const found: { readonly it: Entry; readonly rank: number }[] = [];
  for (const file of project.files.values()) {
    if ("unreadable" in file) continue;
    for (const it of entriesOf(file)) {
      const rank = rankOf(it, name, about);
      if (rank !== undefined) found.push({ it, rank });
    }
  }
  if (name !== "") found.sort((a, b) => a.rank - b.rank || a.it.path.length - b.it.path.length);
  return found.slice(0, most).map(({ it }) => it);
}

const MOST = 200;

interface Entry extends Found {
  readonly lower: string;
  readonly lowerAbout: string;
}

const entriesOf = memo((source: Source): readonly Entry[] => {
  const found: Entry[] = [];
  gather(source.items, "", found);
  return found;
});

function gather(items: readonly Item[], outer: string, into: Entry[]): void {
  for (const item of items) {
    const { head } = item;
    const name = "clauses" in head ? head.path : "name" in head ? head.name : undefined;
    const kind = kinds.get(head.kind);
    let inside = outer;
    if (name && kind) {
      // a path of several words is one from the aircraft, wherever it stands
      const own = name.text.includes(".") ? name.text : joinPath(outer, name.text);
      const about = aboutOf(item);
      into.push({
        path: own,
        about,
        kind,
        at: name,
        lower: own.toLowerCase(),
        lowerAbout: about.toLowerCase(),
      });
      if (head.kind === "assembly" || head.kind === "choice") inside = own;
      else if (head.kind === "option") inside = "";
    }
    if (item.items.length > 0) gather(item.items, inside, into);
  }
}

function aboutOf({ head, items }: Item): string {
  const words: string[] = [head.kind];
  if ("title" in head && head.title) words.push(`"${head.title.text}"`);
  const clauses = "clauses" in head ? head.clauses : [];
  for (const clause of [
    ...clauses,
    ...items.flatMap(it => (it.head.kind === "clause" ? it.head.clause : [])),
  ])
    if (clause.kind === "pn" && clause.text) words.push(clause.text.text);
  return words.join(" ");
}

/** Undefined: it is not meant. The name itself, its beginning, that of a word, any piece, letters apart. */
function rankOf({ lower, lowerAbout }: Entry, name: string, about: readonly string[]) {
  if (!about.every(it => lowerAbout.includes(it))) return undefined;
  if (name === "") return 0;
  const last = lower.slice(lower.lastIndexOf(".") + 1);
  if (last === name || lower === name) return 0;
  if (last.startsWith(name)) return 1;
  const at = lower.indexOf(name);
  if (at >= 0) return at === 0 || /[._]/.test(lower[at - 1]!) ? 2 : 3;
  const spread = spreadOf(lower, name);
  if (spread !== undefined) return 4 + spread;
  return lowerAbout.includes(name) ? 1000 : undefined;
}

/** How many other letters stand between those of a query, taken as they come; undefined: one is missing. */
function spreadOf(text: string, query: string): number | undefined {
  const first = text.indexOf(query[0]!);
  let at = first;
  for (let i = 1; at >= 0 && i < query.length; i++) at = text.indexOf(query[i]!, at + 1);
  return at < 0 ? undefined : at - first + 1 - query.length;
}
