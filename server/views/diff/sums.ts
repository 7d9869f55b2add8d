import { emptyOf } from "../../compute/stages";
import { type Balance, basicBalance, oneSide, predictedBalance } from "../../compute/weight";
import type { Assembly } from "../../model/assembly";
import type { Root } from "../../model/root";
import { same } from "../../quantity/compare";
import { outer, samePlace } from "./pairs";
import type { Cause, PartChange, Parts } from "./parts";
import { assembliesOf } from "./things";

/** What an assembly weighs; of something mirrored one side. kg and m. */
export interface Sum {
  readonly basic: Balance;
  readonly predicted: Balance;
  /** kg; undefined: there is none, and of the empty aircraft, whose budget is of its parts. */
  readonly budget: number | undefined;
}

export interface AssemblyChange {
  /** Where it is now, or was; "" is the aircraft's parts. */
  readonly path: string;
  readonly basePath: string | undefined;
  readonly mirrored: boolean;
  readonly base: Sum | undefined;
  readonly head: Sum | undefined;
  /** kg of the difference in basic mass, by what brought it; what no part explains is `other`. */
  readonly causes: Readonly<Partial<Record<Cause | "other", number>>>;
}

/** The basic empty weight, with unusable fluid and full operating tanks. */
export function emptySum(root: Root | undefined): Sum | undefined {
  if (root === undefined) return undefined;
  const { basic, predicted } = emptyOf(root);
  return { basic, predicted, budget: undefined };
}

/** Every assembly whose mass, CG, growth, reserves or budget is another now; the aircraft first. */
export function changedAssemblies(
  base: Root | undefined,
  head: Root | undefined,
  parts: Parts,
): readonly AssemblyChange[] {
  const inside = byAssembly(parts.changes);
  return pairedAssemblies(base, head, parts).flatMap(({ path, base: a, head: b }) => {
    const [was, is] = [a && sumOf(a.assembly), b && sumOf(b.assembly)];
    if (was && is && a!.assembly.path === b!.assembly.path && alike(was, is)) return [];
    const { sides } = (b ?? a)!;
    return {
      path,
      basePath: a?.assembly.path,
      mirrored: (b ?? a)!.assembly.mirrored,
      base: was,
      head: is,
      causes: causesIn(a?.assembly.path, b?.assembly.path, was, is, inside, sides),
    };
  });
}

/** Each assembly and what it was, wherever it stands now; those that are gone come last. */
export function pairedAssemblies(
  base: Root | undefined,
  head: Root | undefined,
  { assemblies, now }: Parts,
) {
  const before = new Map(
    (base ? assembliesOf(base) : []).map(it => {
      const { path } = it.assembly;
      return [assemblies.get(path) ?? now(path), it] as const;
    }),
  );
  const after = new Map(
    (head ? assembliesOf(head) : []).map(it => [it.assembly.path, it] as const),
  );
  const paths = [...after.keys(), ...[...before.keys()].filter(it => !after.has(it))];
  return paths.map(path => ({ path, base: before.get(path), head: after.get(path) }));
}

function sumOf(assembly: Assembly): Sum {
  const weight = oneSide(assembly);
  return {
    basic: basicBalance(weight),
    predicted: predictedBalance(weight),
    budget: assembly.budget?.mass,
  };
}

function alike(a: Sum, b: Sum): boolean {
  const equal = (x: Balance, y: Balance) => same(x.mass, y.mass) && samePlace(plain(x), plain(y));
  const budgets =
    a.budget === b.budget ||
    (a.budget !== undefined && b.budget !== undefined && same(a.budget, b.budget));
  return budgets && equal(a.basic, b.basic) && equal(a.predicted, b.predicted);
}

export const plain = ({ fs, bl, wl }: Balance) => ({
  fs: fs ?? undefined,
  bl: bl ?? undefined,
  wl: wl ?? undefined,
});

/** What changed inside each assembly, by its path in the base and in the head. */
interface Inside {
  readonly base: ReadonlyMap<string, readonly PartChange[]>;
  readonly head: ReadonlyMap<string, readonly PartChange[]>;
}

function byAssembly(changes: readonly PartChange[]): Inside {
  const index = (side: "base" | "head") => {
    const all = new Map<string, PartChange[]>();
    for (const change of changes)
      for (let at = change[side]?.path; at !== undefined; at = at === "" ? undefined : outer(at)) {
        const known = all.get(at);
        if (known) known.push(change);
        else all.set(at, [change]);
      }
    return all;
  };
  return { base: index("base"), head: index("head") };
}

function causesIn(
  basePath: string | undefined,
  headPath: string | undefined,
  base: Sum | undefined,
  head: Sum | undefined,
  inside: Inside,
  sides: number,
): AssemblyChange["causes"] {
  const causes: Partial<Record<Cause | "other", number>> = {};
  const was = new Set(basePath === undefined ? [] : inside.base.get(basePath));
  const is = new Set(headPath === undefined ? [] : inside.head.get(headPath));
  let left = (head?.basic.mass ?? 0) - (base?.basic.mass ?? 0);
  for (const change of new Set([...is, ...was])) {
    const before = was.has(change) ? (change.base?.mass ?? 0) / sides : 0;
    const after = is.has(change) ? (change.head?.mass ?? 0) / sides : 0;
    if (same(before, after)) continue;
    // what came from another assembly is no new figure
    const [cause] = before === 0 || after === 0 ? [whenOneSided(change)] : change.causes;
    causes[cause] = (causes[cause] ?? 0) + after - before;
    left -= after - before;
  }
  const size = Math.max(base?.basic.mass ?? 0, head?.basic.mass ?? 0);
  if (Math.abs(left) > size * 1e-9) causes.other = left;
  return causes;
}

const whenOneSided = ({ causes }: PartChange): Cause =>
  causes.includes("moved") ? "moved" : causes[0];
