import type { Finding } from "../../findings";
import { inOrder, type JudgedRoot, type Judgement } from "../../judge";
import type { Project } from "../../project";
import { type Identified, identified } from "./identity";
import { findingsOfTheChange } from "./of-the-change";
import { type Parts, partsOf } from "./parts";
import { type Room, roomsOf } from "./rooms";
import { type AssemblyChange, changedAssemblies, emptySum, type Sum } from "./sums";
import { tipped } from "./tipped";
import { type Yardstick, yardstickOf } from "./yardstick";

/** A picture of the workspace, judged. */
export interface Side extends Judgement {
  readonly project: Project;
}

/** What a change does: to each aircraft, and to what is found. */
export interface Difference {
  readonly roots: readonly RootDifference[];
  readonly findings: readonly Turned[];
}

export interface RootDifference {
  readonly name: string;
  readonly airframe: string | undefined;
  readonly base: JudgedRoot | undefined;
  readonly head: JudgedRoot | undefined;
  readonly yardstick: readonly Yardstick[];
  readonly empty: { readonly base: Sum | undefined; readonly head: Sum | undefined };
  readonly parts: Parts;
  readonly assemblies: readonly AssemblyChange[];
  readonly loadings: readonly LoadingChange[];
}

export interface LoadingChange {
  readonly base: Room | undefined;
  readonly head: Room | undefined;
}

/** A finding of the head with what it was in the base, a new one at the line that tipped it; a gone one is the base's. */
export interface Turned {
  readonly state: "new" | "gone" | "unchanged" | "updated";
  readonly finding: Finding;
  /** The base's, of one that is unchanged or updated. */
  readonly before: Finding | undefined;
  /** Code, aircraft and path, with a number where there are several: stays the same as lines move. */
  readonly id: string;
  readonly path: string;
  readonly root: JudgedRoot | undefined;
  /** It stands at what tipped it, and its first related place is where it was found. */
  readonly moved?: true;
}

export function differenceOf(base: Side, head: Side): Difference {
  const pairs = pairedRoots(base.roots, head.roots);
  const roots = pairs.map(it => rootDifference(it.base, it.head));
  const now = new Map(roots.flatMap(it => (it.base ? [[it.base, it] as const] : [])));
  const before = identified(base.project, base.roots, base.findings).map(it => {
    const root = it.root && now.get(it.root);
    return { ...it, path: root?.parts.now(it.path) ?? it.path, root: root?.head ?? it.root };
  });
  const ofTheChange = findingsOfTheChange(roots, head.findings);
  const found = inOrder(head.project, [...head.findings, ...ofTheChange]);
  const after = identified(head.project, head.roots, found);
  const findings = turned(numbered(before), numbered(after)).map(it => tipped(it, roots));
  return { roots, findings };
}

/** The findings of one state alone, each with its id. */
export function identifiedFindings(side: Side): readonly Turned[] {
  const all = numbered(identified(side.project, side.roots, side.findings));
  return all.map(({ finding, id, path, root }) => ({
    ...{ state: "new", finding, before: undefined, id, path, root },
  }));
}

function rootDifference(
  base: JudgedRoot | undefined,
  head: JudgedRoot | undefined,
): RootDifference {
  const [a, b] = [base?.root, head?.root];
  const parts = partsOf(a, b);
  const after = b ? roomsOf(b) : [];
  const before = a ? roomsOf(a) : [];
  const key = ({ loading, envelope }: Room) => `${loading} ${envelope}`;
  const was = new Map(before.map(it => [key(it), it]));
  const is = new Set(after.map(key));
  return {
    name: (head ?? base)!.name,
    airframe: airframeOf((head ?? base)!),
    ...{ base, head, parts },
    yardstick: yardstickOf(a, b, parts.now),
    empty: { base: emptySum(a), head: emptySum(b) },
    assemblies: changedAssemblies(a, b, parts),
    loadings: [
      ...after.map(it => ({ base: was.get(key(it)), head: it })),
      ...before.filter(it => !is.has(key(it))).map(it => ({ base: it, head: undefined })),
    ],
  };
}

/** An airframe's root is a root of its own beside the design's. */
export const airframeOf = (
  root: JudgedRoot & { readonly airframe?: string | undefined },
): string | undefined => root.airframe;

/** By name and airframe, in order where several share them; one that is left on either side was renamed. */
function pairedRoots(base: readonly JudgedRoot[], head: readonly JudgedRoot[]) {
  const key = (it: JudgedRoot) => `${it.name} ${airframeOf(it) ?? ""}`;
  const left = [...base];
  const pairs = head.map(it => {
    const at = left.findIndex(other => key(other) === key(it));
    return { base: at < 0 ? undefined : left.splice(at, 1)[0], head: it };
  });
  const lone = pairs.filter(it => it.base === undefined);
  if (lone.length === 1 && left.length === 1) lone[0]!.base = left.pop();
  return [...pairs, ...left.map(it => ({ base: it, head: undefined }))];
}

type Numbered = Identified & { readonly id: string };

/** Several of a code in one place are told apart by their order. */
function numbered(all: readonly Identified[]): readonly Numbered[] {
  const counts = new Map<string, number>();
  return all.map(it => {
    const airframe = it.root && airframeOf(it.root);
    const owner = it.root ? [it.root.name, ...(airframe ? [airframe] : [])].join("/") : "";
    const id = `${it.finding.code} ${owner}:${it.path}`;
    const count = (counts.get(id) ?? 0) + 1;
    counts.set(id, count);
    return { ...it, id: count === 1 ? id : `${id} ${count}` };
  });
}

function turned(before: readonly Numbered[], after: readonly Numbered[]): readonly Turned[] {
  const left = new Map(before.map(it => [it.id, it]));
  const found = after.map(({ finding, id, path, root }): Turned => {
    const was = left.get(id)?.finding;
    left.delete(id);
    const unchanged = was?.message === finding.message && was.waived === finding.waived;
    const state = was === undefined ? "new" : unchanged ? "unchanged" : "updated";
    return { state, finding, before: was, id, path, root };
  });
  const gone = [...left.values()].map(
    ({ finding, id, path, root }): Turned => ({
      ...{ state: "gone", finding, before: undefined, id, path, root },
    }),
  );
  return [...found, ...gone];
}
