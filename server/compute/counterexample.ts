import type { Envelope } from "../model/envelope";
import type { Load } from "../model/loading";
import { exceeds, same } from "../quantity/compare";
import { type Carrier, carriersOf } from "./carriers";
import { loaded } from "./contents";
import { flightsOf } from "./flights";
import { type Item, itemsOf, loadOf, loadsOf } from "./items";
import { type Breach, breachesOf } from "./limits";
import { heldIn } from "./load-limits";
import { limitsUnder, type Permitted } from "./permitted";
import { type Carried, shrunk } from "./shrink";
import { fuelsOf, type Shape, stagesOf } from "./stages";
import type { Vertex } from "./support";
import type { Balance } from "./weight";

/** A place of a hull that is outside. */
export interface Suspect {
  readonly code: Breach["code"];
  readonly by: number;
  readonly shape: Shape;
  readonly permitted: Permitted;
  readonly axis: "fs" | "bl";
  /** The limits it was held against; undefined where only the whole envelope says. */
  readonly view: Envelope | undefined;
  readonly at: Vertex;
}

/** A loading at takeoff and the limit it breaks. */
export interface State {
  readonly balance: Balance;
  readonly breach: Breach;
}

/** A permitted loading that is really outside, judged as any loading is. */
export interface Counterexample {
  readonly shape: Shape;
  /** The worst of its code. */
  readonly worst: State;
  readonly worstItems: readonly Item[];
  /** Outside by half of that or more, with the fewest items and plain figures. */
  readonly items: readonly Item[];
  readonly state: State;
}

/** What the ordinary loading code says of a suspect as it stands: undefined where it is not outside. */
export function stateOf(suspect: Omit<Suspect, "by">, envelope: Envelope): State | undefined {
  const loads = loadsOf(suspect.at, suspect);
  return judgedAs(suspect, envelope, loads);
}

/** Undefined where neither the suspect nor anything plainer is a permitted loading that is outside. */
export function counterexampleOf(
  suspect: Suspect,
  envelope: Envelope,
  exact: boolean,
): Counterexample | undefined {
  const worst = stateOf(suspect, envelope);
  if (worst === undefined) return undefined;
  const { shape, permitted, at, view } = suspect;
  const list = carriersOf(shape.root).list;
  const enough = worst.breach.by / 2;
  const isOutside = (state: State | undefined) =>
    state !== undefined && !exceeds(enough, state.breach.by);
  const outside = (carried: Carried) =>
    view !== undefined && exact
      ? quickly(carried, suspect, view, enough)
      : isOutside(judgedAs(suspect, envelope, loadsOf(carried, suspect)));
  const steps = list.map((it, i) => (same(at.amounts[i]!, it.levels.at(-1)!) ? [] : stepsOf(it)));
  const plain = shrunk(at, permitted.loadings, steps, outside);
  for (const carried of plain ? [plain, at] : [at])
    for (const digits of [0, 1, undefined]) {
      const items = itemsOf(carried, suspect, digits);
      const state = judgedAs(
        suspect,
        envelope,
        items.map(it => loadOf(it, shape.root)),
      );
      if (state === undefined || !(isOutside(state) || carried === at)) continue;
      // beside a step rounding may lead to where less is allowed
      if (state.breach.by > worst.breach.by)
        return { shape, worst: state, worstItems: items, items, state };
      return { shape, worst, worstItems: itemsOf(at, suspect, 1), items, state };
    }
  return undefined;
}

/** The ordinary way: a loading put in, taken to takeoff, and every limit kept. */
function judgedAs(
  { shape, code }: Pick<Suspect, "shape" | "code">,
  envelope: Envelope,
  loads: readonly Omit<Load, "at">[],
): State | undefined {
  const { root } = shape;
  const state = loaded(loads, root);
  if (limitsUnder(root, envelope).some(it => exceeds(heldIn(state, it), it.most))) return undefined;
  const fuels = fuelsOf(flightsOf(root).map(it => it.loading));
  const takeoff = stagesOf({ loads, uses: [] }, shape, fuels).find(it => it.kind === "takeoff")!;
  const breaches = breachesOf(takeoff.basic, "takeoff", envelope);
  const breach = worstOf(breaches.filter(it => it.code === code));
  return breach && { balance: takeoff.basic, breach };
}

const worstOf = (breaches: readonly Breach[]) =>
  breaches.reduce<Breach | undefined>((a, b) => (a && a.by >= b.by ? a : b), undefined);

/** The same by plain sums, for the many trials of a shrinking. */
function quickly(
  { amounts, moments }: Carried,
  { permitted, axis, code }: Suspect,
  view: Envelope,
  enough: number,
): boolean {
  const { base } = permitted.loadings;
  const mass = amounts.reduce((sum, it) => sum + it, base.mass);
  const cg = moments.reduce((sum, it) => sum + it, base.moment) / mass;
  const [fs, bl] = axis === "fs" ? [cg, null] : [null, cg];
  return breachesOf({ mass, fs, bl }, "takeoff", view).some(
    it => it.code === code && it.by >= enough,
  );
}

const stepsOf = ({ sides, kg }: Carrier): readonly number[] =>
  [10, 5, 1, 0.5, 0.1, 0.01].map(it => it * kg * sides);
