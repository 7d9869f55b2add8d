import type { Source } from "../../grammar/source";
import type { Item, Span } from "../../grammar/tree";
import { judge } from "../judge";
import { memo } from "../memo";
import { clausesOf } from "../model/clauses";
import { optionsOf } from "../model/options";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import type { Base } from "./change-hints";
import { changeLens } from "./change-lenses";
import {
  aircraftLens,
  assemblyLens,
  envelopeLens,
  loadingLens,
  optionLens,
  weighingLens,
} from "./lens-texts";
import { rootWith } from "./place";
import { memberIn } from "./standing";

/** Where a line of figures stands above a declaration. */
export interface Lens {
  readonly at: Span;
  /** What it is of, in words that an edit elsewhere leaves alone: "assembly wing.outer". */
  readonly key: string;
  readonly item: Item;
  /** The blocks it stands in, the outermost first: of an option its choice is the last. */
  readonly around: readonly Item[];
}

export interface LensText {
  readonly text: string;
  /** What tells how that comes about, where something does. */
  readonly why: string | undefined;
}

/**
 * Where a file's lenses stand, the same ones in the same order for the same text: what they say costs more
 * and is asked for when one comes into view.
 */
export function lenses(project: Project, path: string): readonly Lens[] {
  const source = sourceOf(project, path);
  if (source === undefined || rootWith(project, path) === undefined) return [];
  return lensesOf(source);
}

const lensesOf = memo((source: Source): readonly Lens[] => {
  const found: Lens[] = [];
  gather(source.items, [], found);
  return found;
});

function gather(items: readonly Item[], around: readonly Item[], into: Lens[]): void {
  for (const item of items) {
    const { head } = item;
    // most are parts, and nothing is to be made for each of them
    if (!kinds.has(head.kind)) continue;
    const name = "clauses" in head ? head.path : "name" in head ? head.name : undefined;
    const blocks = [...around, item];
    const put = (it: Item, inside: readonly Item[]) =>
      into.push({ at: name ?? head, key: keyOf([...inside, it]), item: it, around: inside });
    if (head.kind === "choice") for (const it of optionsOf(item)) put(it, blocks);
    else if (name && stands(item)) put(item, around);
    if (head.kind === "aircraft" || head.kind === "assembly") gather(item.items, blocks, into);
  }
}

const kinds = new Set<Item["head"]["kind"]>([
  ...(["aircraft", "airframe", "assembly", "choice"] as const),
  ...(["envelope", "loading", "weighing"] as const),
]);

function keyOf(blocks: readonly Item[]): string {
  const names = blocks.map(({ head }) =>
    "clauses" in head ? head.path?.text : "name" in head ? head.name?.text : "",
  );
  return `${blocks.at(-1)!.head.kind} ${names.join(".")}`;
}

/** Of an assembly only where a budget or a CG is asked of it: the sum stands behind its line anyway. */
function stands(item: Item): boolean {
  if (item.head.kind !== "assembly") return true;
  return clausesOf(item).some(({ kind }) => kind === "budget" || kind === "cg");
}

/**
 * Undefined: nothing is known of it, for it counts nowhere.
 * @param base what has become of it since is told too
 */
export function lensText(
  project: Project,
  path: string,
  lens: Lens,
  base?: Base,
): LensText | undefined {
  const root = rootOf(project, path, lens);
  const airframes = judge(project).roots.flatMap(({ root: it, airframe }) =>
    airframe !== undefined && it !== root && it.reach === root?.reach ? it : [],
  );
  const said = root && textOf(lens, root, airframes);
  if (said === undefined) return undefined;
  const since = base ? changeLens(project, base, path, lens, said) : "";
  // the derivation is told of the aircraft that the file's hovers are of
  const why = root === rootWith(project, path) ? said.why : undefined;
  return { text: since === "" ? said.text : `${said.text} · ${since}`, why };
}

/** An airframe and its weighings are told of that one. */
function rootOf(project: Project, path: string, { item: { head } }: Lens): Root | undefined {
  const airframe =
    head.kind === "airframe" ? head.name : head.kind === "weighing" ? head.of : undefined;
  if (airframe === undefined) return rootWith(project, path);
  return judge(project).roots.find(it => it.airframe === airframe.text && it.files.includes(path))
    ?.root;
}

function textOf(
  { item, around }: Lens,
  root: Root,
  airframes: readonly Root[],
): LensText | undefined {
  const { head } = item;
  switch (head.kind) {
    case "aircraft":
    case "airframe":
      return aircraftLens(root);
    case "assembly": {
      const found = memberIn(root, { head, around: around.map(it => it.head) });
      return found?.member.kind === "assembly" ? assemblyLens(root, found.member) : undefined;
    }
    case "loading":
      return loadingLens(root, item, airframes);
    case "envelope":
      return envelopeLens(root, item);
    case "option":
      return optionLens(root, around.at(-1)!, item);
    case "weighing":
      return weighingLens(root, item);
    default:
      return undefined;
  }
}
