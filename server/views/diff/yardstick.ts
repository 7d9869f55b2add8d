import { basicMass } from "../../checks/over-budget";
import { flightsOf } from "../../compute/flights";
import type { Root } from "../../model/root";
import { exceeds, same } from "../../quantity/compare";
import { show } from "../../quantity/show";
import type { Mark } from "./mark";
import { marksOf } from "./marks";
import { assembliesOf } from "./things";

/** What was done to something the aircraft is measured by. */
export interface Yardstick {
  readonly base: Mark | undefined;
  readonly head: Mark | undefined;
  /** Whether the change allows more than before; "changed" where that depends. */
  readonly effect: "looser" | "tighter" | "changed";
  /** What would be wrong had it stayed: "wing weighs 171 lb, more than the 168 lb it had". */
  readonly hides: string | undefined;
}

/** Looser ones first: a budget raised to pass must be seen. */
export function yardstickOf(
  base: Root | undefined,
  head: Root | undefined,
  now: (path: string) => string,
): readonly Yardstick[] {
  if (base === undefined || head === undefined) return [];
  const before = keyed(marksOf(base), path => now(path));
  const after = keyed(marksOf(head), path => path);
  const there = { base: pathsIn(base, now), head: pathsIn(head, it => it) };
  const found: Yardstick[] = [];
  for (const key of new Set([...after.keys(), ...before.keys()])) {
    const [a, b] = [before.get(key), after.get(key)];
    if (a === undefined && isOfNothing(b!, b!.path, there.base)) continue;
    if (b === undefined && isOfNothing(a!, a!.path && now(a!.path), there.head)) continue;
    const effect = effectOf(a, b);
    if (effect) found.push({ base: a, head: b, effect, hides: hidden(base, head, now, key, a, b) });
  }
  const order = ["looser", "changed", "tighter"];
  return found.sort((a, b) => order.indexOf(a.effect) - order.indexOf(b.effect));
}

/** The budget of a new assembly, the load in a loading that is gone: they come and go with what they are of. */
function isOfNothing({ kind, what }: Mark, path: string | undefined, there: Set<string>): boolean {
  // one that came or went is told by its parts
  if (kind === "choice") return true;
  if (path === undefined || kind === "reserve" || kind === "waiver") return false;
  return !there.has(kind === "loading" ? what.split(":", 1)[0]! : path);
}

/** Of all that stands in an aircraft, and its loadings' names: these share one name space. */
function pathsIn(root: Root, now: (path: string) => string): Set<string> {
  const members = assembliesOf(root).flatMap(({ assembly }) => [assembly, ...assembly.members]);
  const loadings = flightsOf(root).map(it => it.loading.name);
  return new Set([...members.map(it => now(it.path)), ...loadings]);
}

function keyed(marks: readonly Mark[], now: (path: string) => string): Map<string, Mark> {
  const all = new Map<string, Mark>();
  for (const it of marks) {
    const path = it.path === undefined ? undefined : now(it.path);
    all.set(`${it.what}${path === undefined ? "" : ` of ${path}`}`, it);
  }
  return all;
}

function effectOf(base: Mark | undefined, head: Mark | undefined): Yardstick["effect"] | undefined {
  const allows = (sign: number) => (sign > 0 ? "looser" : sign < 0 ? "tighter" : "changed");
  if (base === undefined || head === undefined)
    return allows(base === undefined ? head!.presence : -base.presence);
  const effects = new Set<Yardstick["effect"]>();
  head.values.forEach((b, i) => {
    const a = base.values[i];
    if (a === b || (a !== undefined && b !== undefined && (same(a, b) || near(a, b)))) return;
    const sense = head.senses[i] ?? 0;
    effects.add(a === undefined || b === undefined ? "changed" : allows(sense * Math.sign(b - a)));
  });
  // what has no figures is told by its words
  if (head.kind === "choice" && head.shown !== base.shown) effects.add("changed");
  const [first, ...others] = effects;
  return others.length > 0 ? "changed" : first;
}

/** An arm about zero: a hundredth of a micron, as where limits are judged. */
const near = (a: number, b: number) => Math.abs(a - b) < 1e-8;

/** What would have been found had a budget or a creep stayed as it was. */
function hidden(
  before: Root,
  after: Root,
  now: (path: string) => string,
  key: string,
  base: Mark | undefined,
  head: Mark | undefined,
): string | undefined {
  const { kind, what, values, shown } = base ?? {};
  const most = values?.[0];
  if ((kind !== "budget" && kind !== "creep") || what !== kind || most === undefined)
    return undefined;
  if (head?.values[0] !== undefined && head.values[0] <= most) return undefined;
  const path = head?.path ?? key.slice(`${kind} of `.length);
  const is = massAt(after, path);
  const was = kind === "budget" ? 0 : massAt(before, path, now);
  if (is === undefined || was === undefined || !exceeds(is, was + most)) return undefined;
  const does = kind === "budget" ? "weighs" : "gained";
  return `${path || after.name} ${does} ${show(is - was, after.units.mass)}, more than the ${shown} it had`;
}

/** kg of one side. */
function massAt(root: Root, path: string, now = (it: string) => it): number | undefined {
  const all = assembliesOf(root).flatMap(({ assembly }) => [assembly, ...assembly.members]);
  const member = all.find(it => now(it.path) === path);
  return member && basicMass(member);
}
