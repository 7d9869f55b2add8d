import { emptyOf } from "../../compute/stages";
import type { RootDifference, Turned } from "./difference";
import { outer } from "./pairs";
import type { PartChange, Parts } from "./parts";

/**
 * A new finding about a sum, moved to the changed line that tipped it: the figure that brought most of
 * what is too much. Where it was found becomes its first related place. What no changed figure explains,
 * such as a budget that was cut, stays where it is; so does what is waived.
 */
export function tipped(turned: Turned, roots: readonly RootDifference[]): Turned {
  const { finding, state, root } = turned;
  const weighs = finding.waived === undefined && state === "new" ? loads[finding.code] : undefined;
  const difference = weighs && roots.find(it => it.head !== undefined && it.head === root);
  if (!weighs || !difference?.base) return turned;
  const inside = about(finding.code)
    ? difference.parts.changes
    : changesIn(difference.parts, turned.path);
  const centre = emptyOf(difference.head!.root).basic.fs ?? 0;
  let worst: PartChange | undefined;
  let most = 0;
  for (const change of inside) {
    const brought = weighs(change, centre);
    if (change.head === undefined || brought <= most) continue;
    worst = change;
    most = brought;
  }
  const at = worst?.head?.figureAt;
  if (at === undefined) return turned;
  const was = { message: reason(finding.code, turned.path || difference.name), at: finding.at };
  return { ...turned, finding: { ...finding, at, related: [was, ...finding.related] } };
}

/** kg, or kg m about the head's empty CG: how much a change brings of what a code complains of. */
type Weighs = (change: PartChange, centre: number) => number;

const mass: Weighs = it => it.difference;
const aft: Weighs = ({ base, head }, centre) => {
  const moment = (it: typeof base) => (it?.mass ?? 0) * ((it?.place.fs ?? centre) - centre);
  return moment(head) - moment(base);
};
const forward: Weighs = (it, centre) => -aft(it, centre);

const loads: Readonly<Record<string, Weighs>> = {
  "over-budget": mass,
  "budget-at-risk": mass,
  "margin-low": mass,
  "over-allocated": mass,
  creep: mass,
  "above-weight-limit": mass,
  "cg-aft": aft,
  "cg-forward": forward,
};

/** A loading is made of the whole aircraft; a budget of what is inside. */
const about = (code: string) => code.startsWith("cg-") || code === "above-weight-limit";

function reason(code: string, path: string): string {
  if (about(code)) return `${path} leaves its limits`;
  return code === "creep" ? `what a change may add to ${path}` : `the budget of ${path}`;
}

/** What changed in an assembly, as it changed that: what came from another one is new there. */
function changesIn({ changes, now }: Parts, assembly: string): readonly PartChange[] {
  return changes.flatMap(it => {
    if (!isIn(it.head?.path, assembly)) return [];
    if (it.base === undefined) return it;
    const was = now(it.base.path) === assembly ? assembly : now(outer(it.base.path));
    if (isIn(was, assembly)) return it;
    return { ...it, base: undefined, difference: it.head?.mass ?? 0 };
  });
}

const isIn = (path: string | undefined, assembly: string) =>
  path !== undefined && (assembly === "" || path === assembly || path.startsWith(`${assembly}.`));
