import type { Basis } from "../../../grammar/tree";
import type { Root } from "../../model/root";
import { same } from "../../quantity/compare";
import { lastWord, outer, type Pair, pairsOf, pathNow, samePlace } from "./pairs";
import { assembliesOf, type Thing, thingsOf } from "./things";

/** Why a sum changed. */
export type Cause = "new" | "gone" | "weighed" | "matured" | "revised" | "moved" | "renamed";

export interface PartChange extends Pair {
  /** The one that explains its mass first. */
  readonly causes: readonly [Cause, ...Cause[]];
  /** kg, of all its pieces: head less base; what is unknown counts nothing. */
  readonly difference: number;
}

export interface Parts {
  /** The largest difference first, then by path. */
  readonly changes: readonly PartChange[];
  /** Assemblies by their path in the base: the one they have now, where that is another. */
  readonly assemblies: ReadonlyMap<string, string>;
  /** Where something of the base is now: the path it had, unless it or an assembly around it was renamed or moved. */
  readonly now: (path: string) => string;
}

/** What became of each part, whatever the text around it. */
export function partsOf(base: Root | undefined, head: Root | undefined): Parts {
  const { pairs, assemblies } = pairsOf(sideOf(base), sideOf(head));
  const changes = pairs.flatMap(pair => changeOf(pair, assemblies) ?? []);
  changes.sort(
    (a, b) => Math.abs(b.difference) - Math.abs(a.difference) || (pathOf(a) < pathOf(b) ? -1 : 1),
  );
  const renamed = new Map(assemblies);
  for (const { base: from, head: to } of pairs)
    if (from && to && from.path !== to.path) renamed.set(from.path, to.path);
  return { changes, assemblies, now: path => pathNow(renamed, path) };
}

export const pathOf = ({ base, head }: Pair) => (head ?? base)!.path;

function sideOf(root: Root | undefined) {
  if (root === undefined) return { things: [], assemblies: [] };
  return {
    things: thingsOf(root),
    assemblies: assembliesOf(root).flatMap(({ assembly }) => assembly.path || []),
  };
}

function changeOf(
  { base, head }: Pair,
  assemblies: ReadonlyMap<string, string>,
): PartChange | undefined {
  const [before, after] = [base?.mass ?? 0, head?.mass ?? 0];
  const difference = same(before, after) ? 0 : after - before;
  const found = { base, head, difference };
  if (base === undefined) return { ...found, causes: ["new"] };
  if (head === undefined) return { ...found, causes: ["gone"] };
  const figures = figureCause(base, head);
  // what an assembly took along under its new name did not move
  const stays = pathNow(assemblies, outer(base.path)) === outer(head.path);
  const [first, ...others]: Cause[] = [
    ...(figures ? [figures] : []),
    ...(samePlace(base.place, head.place) && stays ? [] : (["moved"] as const)),
    ...(lastWord(base.path) === lastWord(head.path) ? [] : (["renamed"] as const)),
  ];
  return first && { ...found, causes: [first, ...others] };
}

function figureCause(base: Thing, head: Thing): Cause | undefined {
  if (base.basis !== head.basis) {
    if (head.basis === "weighed") return "weighed";
    if (rank(head.basis) > rank(base.basis)) return "matured";
    return "revised";
  }
  const [a, b] = [base.mass, head.mass];
  const equal = a === b || (a !== undefined && b !== undefined && same(a, b));
  return equal && base.pieces === head.pieces ? undefined : "revised";
}

const bases: readonly Basis[] = ["estimated", "calculated", "quoted", "weighed"];
const rank = (basis: Basis | undefined) => (basis === undefined ? -1 : bases.indexOf(basis));
