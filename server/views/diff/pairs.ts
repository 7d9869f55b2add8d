import type { Place } from "../../model/env";
import { same } from "../../quantity/compare";
import type { Thing } from "./things";

/** The same thing before and after; one side is missing where it came or went. */
export interface Pair {
  readonly base: Thing | undefined;
  readonly head: Thing | undefined;
}

export interface Side {
  readonly things: readonly Thing[];
  /** Paths of its assemblies, outer ones first. */
  readonly assemblies: readonly string[];
}

export interface Pairs {
  /** What is there now in its order, then what is gone. */
  readonly pairs: readonly Pair[];
  /** Assemblies that have another path now, the outermost one that changed alone. */
  readonly assemblies: ReadonlyMap<string, string>;
}

/**
 * Finds again what a change renamed or moved: by part number where it is the only one of it on either
 * side, by path, then a path that is gone and a new one of equal kind, figure and place. An assembly is
 * the new one that holds most of the same names, and takes along what is in it. What several could be is none of them: it
 * went and came.
 */
export function pairsOf(base: Side, head: Side): Pairs {
  const of = new Map<Thing, Thing>();
  const taken = new Set<Thing>();
  const match = (key: Key, keyInBase: Key = key) => {
    const before = byKey(base.things, it => (taken.has(it) ? undefined : keyInBase(it)));
    const after = byKey(head.things, it => (of.has(it) ? undefined : key(it)));
    for (const [name, [one, ...others]] of after) {
      const [other, ...more] = before.get(name) ?? [];
      if (one === undefined || other === undefined || others.length + more.length > 0) continue;
      of.set(one, other);
      taken.add(other);
    }
  };
  match(({ kind, pn }) => pn && `${kind} ${pn}`);
  match(({ kind, path }) => `${kind} ${path}`);
  const assemblies = renamedAssemblies(base, head);
  match(
    ({ kind, path }) => `${kind} ${path}`,
    ({ kind, path }) => `${kind} ${pathNow(assemblies, path)}`,
  );
  // a last word that stayed tells two of like figures apart
  match(it => figureKey(it, lastWord(it.path)));
  match(it => figureKey(it, ""));
  const pairs = [
    ...head.things.map(it => ({ base: of.get(it), head: it })),
    ...base.things.filter(it => !taken.has(it)).map(it => ({ base: it, head: undefined })),
  ];
  return { pairs, assemblies };
}

type Key = (it: Thing) => string | undefined;

/** Where a path of the base is now, if an assembly around it was renamed. */
export function pathNow(renamed: ReadonlyMap<string, string>, path: string): string {
  for (let at = path; at !== ""; at = outer(at)) {
    const now = renamed.get(at);
    if (now !== undefined) return now + path.slice(at.length);
  }
  return path;
}

/** What has most names inside in common with one that is gone, and more than half of its own, is it renamed. */
function renamedAssemblies(base: Side, head: Side): ReadonlyMap<string, string> {
  const [before, after] = [new Set(base.assemblies), new Set(head.assemblies)];
  const [then, now] = [namesIn(base), namesIn(head)];
  const fresh = head.assemblies.filter(path => !before.has(path));
  const renamed = new Map<string, string>();
  for (const path of base.assemblies) {
    if (after.has(path) || after.has(pathNow(renamed, path))) continue;
    const names = [...(then.get(path) ?? [])];
    const shared = fresh.map(it => names.filter(name => now.get(it)?.has(name)).length);
    const most = shared.reduce((a, b) => Math.max(a, b), 0);
    const best = fresh.filter((_, i) => shared[i] === most);
    if (most > names.length / 2 && best.length === 1) renamed.set(path, best[0]!);
  }
  return renamed;
}

/** By assembly, the names of all that is in it, as seen from there. */
function namesIn({ things }: Side): ReadonlyMap<string, ReadonlySet<string>> {
  const all = new Map<string, Set<string>>();
  for (const { path } of things)
    for (let at = outer(path); at !== ""; at = outer(at)) {
      const known = all.get(at) ?? new Set();
      all.set(at, known.add(path.slice(at.length)));
    }
  return all;
}

function byKey(things: readonly Thing[], key: Key): Map<string, Thing[]> {
  const all = new Map<string, Thing[]>();
  for (const it of things) {
    const name = key(it);
    if (name === undefined || name === "") continue;
    const known = all.get(name);
    if (known) known.push(it);
    else all.set(name, [it]);
  }
  return all;
}

/** Rounded far below any figure that is written, so that a change of units hides nothing. */
function figureKey({ kind, mass, basis, pieces, place }: Thing, name: string): string | undefined {
  const weighs = kind === "part" || kind === "ballast" || kind === "assembly";
  if (weighs && (mass === undefined || mass === 0)) return undefined;
  const { fs, bl, wl } = place;
  const figures = [mass, fs, bl, wl].map(it => (it === undefined ? "?" : it.toPrecision(8)));
  return [kind, basis, pieces, ...figures, name].join(" ");
}

export const lastWord = (path: string) => path.slice(path.lastIndexOf(".") + 1);

export const outer = (path: string) => path.slice(0, Math.max(0, path.lastIndexOf(".")));

/** Within a hundredth of a micron, and where both are unknown. */
export function samePlace(a: Place, b: Place): boolean {
  return (["fs", "bl", "wl"] as const).every(axis => {
    const [x, y] = [a[axis], b[axis]];
    return (
      x === y || (x !== undefined && y !== undefined && (same(x, y) || Math.abs(x - y) < 1e-8))
    );
  });
}
