import type { Axis, Span } from "../../../grammar/tree";
import { outside, worstOf } from "../../checks/envelope-breach";
import { requirementsOf } from "../../checks/requirement";
import { flightsOf } from "../../compute/flights";
import { loadLimitsOf } from "../../compute/load-limits";
import type { Related } from "../../findings";
import { show } from "../../quantity/show";
import type { RootDifference, Turned } from "./difference";
import { isIn, loadsOf, type Mover, moversIn, type Pull, promisesIn } from "./movers";
import { assembliesOf, thingsOf } from "./things";

/**
 * A new finding about a sum, moved to the changed line that tipped it: what brought most of what is too
 * much. Where it was found becomes its first related place. Where no changed figure explains it, it goes
 * to the limit it breaks if that was changed, else it stays, as does what is waived. What is wrong with
 * a text, a record or a weighing stands on its own line already.
 */
export function tipped(turned: Turned, roots: readonly RootDifference[]): Turned {
  const { finding, state, root } = turned;
  if (finding.waived !== undefined || state !== "new") return turned;
  const causes = causesOf[finding.code];
  const difference = causes && roots.find(it => it.head !== undefined && it.head === root);
  if (!causes || !difference?.base) return turned;
  const tip = causes(difference, turned);
  const [first, ...others] = tip === undefined ? [] : heaviest(tip);
  const at = first?.mover.at ?? changedLimit(turned, difference);
  if (at === undefined) return turned;
  const was = { message: tip?.why ?? whereFound(turned, difference), at: finding.at };
  const also =
    finding.code === "creep" ? others.slice(0, 2).map(it => alsoBrought(it, difference)) : [];
  return {
    ...turned,
    moved: true,
    finding: { ...finding, at, related: [was, ...also, ...finding.related] },
  };
}

/** What may have tipped a finding, how much of that each brings, and what the place it was found at is. */
interface Tip {
  readonly movers: readonly Mover[];
  readonly brings: (it: Mover) => number;
  readonly why: string;
}
type Causes = (difference: RootDifference, turned: Turned) => Tip | undefined;

/** Rounding of a sum is no cause. */
const NOTHING = 1e-9;

const heaviest = ({ movers, brings }: Tip) =>
  movers
    .map(mover => ({ mover, brought: brings(mover) }))
    .filter(it => it.brought > NOTHING)
    .sort((a, b) => b.brought - a.brought);

const alsoBrought = (
  { mover, brought }: { mover: Mover; brought: number },
  { head }: RootDifference,
): Related => ({
  at: mover.at,
  message: `${mover.name} brought ${show(brought, head!.root.units.mass)} of it`,
});

const gain = (which: "basic" | "predicted") => (it: Mover) => it.head[which] - it.base[which];

const inBasic: Causes = (difference, { path, finding: { code } }) => ({
  movers: moversIn(difference, path),
  brings: gain("basic"),
  why:
    code === "creep"
      ? `what a change may add to ${path || difference.name}`
      : `the budget of ${path || difference.name}`,
});

const inPredicted: Causes = (difference, turned) => {
  const { path } = turned;
  const parts = moversIn(difference, path);
  const sum = difference.assemblies.find(it => it.path === path);
  const grown = (sum?.head?.predicted.mass ?? 0) - (sum?.base?.predicted.mass ?? 0);
  const explained = parts.reduce((all, it) => all + gain("predicted")(it), 0);
  return {
    movers: [...parts, ...promisesIn(difference, path, grown - explained)],
    brings: gain("predicted"),
    why: `the budget of ${path || difference.name}`,
  };
};

/** Budgets inside are what is allocated; a part counts where it has none. */
const allocated: Causes = (difference, turned) => {
  const all = inPredicted(difference, turned)!;
  const raised = difference.yardstick.flatMap(({ base, head }): readonly Mover[] => {
    const inside = head?.kind === "budget" && head.what === "budget" && head.path !== turned.path;
    if (!inside || !isIn(head.path!, turned.path)) return [];
    const pull = (mass = 0): Pull => ({ ...none, basic: mass, predicted: mass });
    return [
      { at: head.at, name: head.path!, base: pull(base?.values[0]), head: pull(head.values[0]) },
    ];
  });
  return { ...all, movers: raised.length > 0 ? raised : all.movers };
};
const none = { mirrored: false, place: { fs: undefined, bl: undefined, wl: undefined } };

/** kg m about a place along an axis, of what a mover brings that way. */
function turning(axis: Axis, about: number, way: 1 | -1, which: "basic" | "predicted") {
  const key = axis.toLowerCase() as "fs" | "bl" | "wl";
  const moment = (it: Pull) =>
    axis === "BL" && it.mirrored ? 0 : it[which] * ((it.place[key] ?? about) - about);
  return ({ base, head }: Mover) => (moment(head) - moment(base)) * way;
}

const offTarget: Causes = (difference, { path }) => {
  const { root } = difference.head!;
  const target = assembliesOf(root).find(it => it.assembly.path === path)?.assembly.target;
  if (target === undefined) return undefined;
  const key = target.axis.toLowerCase() as "fs" | "bl" | "wl";
  let [mass, moment] = [0, 0];
  for (const it of thingsOf(root)) {
    if (!isIn(it.path, path) || it.mass === undefined || it.place[key] === undefined) continue;
    mass += it.mass;
    moment += it.mass * it.place[key];
  }
  const centre = mass > 0 ? moment / mass : 0;
  // its right-hand side is meant where there are two
  const movers = moversIn(difference, path).map(it => ({
    ...it,
    base: { ...it.base, mirrored: false },
    head: { ...it.head, mirrored: false },
  }));
  const high = target.high !== undefined && centre > target.high;
  return {
    movers,
    brings: turning(target.axis, centre, high ? 1 : -1, "basic"),
    why: `the target for the CG of ${path || difference.name}`,
  };
};

/** A loading is made of the whole aircraft and of what is put into it. */
const ofLoading: Causes = (difference, { path, finding: { code } }) => {
  const [base, head] = [difference.base!.root, difference.head!.root];
  const flight = flightsOf(head).find(it => it.loading.name === path);
  const which = code === "loading-at-risk" ? "predicted" : "basic";
  const places = flight ? outside(flight, which) : [];
  const own = code === "loading-at-risk" ? places[0]?.breach.code : code;
  const worst = worstOf(places.filter(it => it.breach.code === own));
  if (worst === undefined) return undefined;
  const { breach, stage } = worst;
  const promised = which === "predicted" ? promisesIn(difference, "", 0) : [];
  const movers = [...moversIn(difference, ""), ...loadsOf(base, head, path), ...promised];
  const why = `${path} leaves its limits`;
  if (own === "above-weight-limit") return { movers, brings: gain(which), why };
  if (own === "below-weight-limit") return { movers, brings: it => -gain(which)(it), why };
  const axis = own === "cg-lateral" ? "BL" : "FS";
  const about = (axis === "BL" ? stage[which].bl : stage[which].fs) ?? 0;
  return { movers, brings: turning(axis, about, breach.value > breach.limit ? 1 : -1, which), why };
};

/** Only what is put where the limit is, counts. */
const intoLimit: Causes = (difference, { path, finding }) => {
  const [base, head] = [difference.base!.root, difference.head!.root];
  const limit = loadLimitsOf(head).limits.find(it =>
    finding.related.some(({ at }) => at === it.statement),
  );
  const there = new Set(limit?.spots.map(it => it.station.path));
  const movers = loadsOf(base, head, path).filter(it => there.has(it.name));
  return { movers, brings: gain("basic"), why: `${path} breaks the limit` };
};

/** What a requirement names, and the whole aircraft where it asks for a loading, an envelope or the empty weight. */
const ofRequirement: Causes = (difference, { path: text }) => {
  const [base, head] = [difference.base!.root, difference.head!.root];
  // a new requirement is its own cause
  if (!requirementsOf(base).some(it => it.basic.text === text)) return undefined;
  const words = new Set(text.match(/\p{L}[\p{L}\p{N}_]*(?:\.\p{L}[\p{L}\p{N}_]*)*/gu));
  const loadings = flightsOf(head).filter(({ loading: { name } }) =>
    [...words].some(word => isIn(word, name) || isIn(word, "loading")),
  );
  const whole = loadings.length > 0 || asksOfAll.some(it => words.has(it)) || words.has(head.name);
  const all = moversIn(difference, "");
  const named = whole ? all : all.filter(it => [...words].some(word => isIn(it.name, word)));
  const loads = loadings.flatMap(({ loading: { name } }) => loadsOf(base, head, name));
  const arms = asksOfArms.find(it => words.has(it));
  const axis = (arms === "bl" ? "BL" : arms === "wl" ? "WL" : "FS") satisfies Axis;
  const about = difference.empty.head?.basic.fs ?? 0;
  const shift = arms ? turning(axis, axis === "FS" ? about : 0, 1, "predicted") : gain("predicted");
  return {
    movers: [...named, ...loads],
    // which way breaks it depends on the expression
    brings: it => Math.abs(shift(it)),
    why: `the requirement ${text}`,
  };
};
const asksOfAll = ["empty", "ramp", "takeoff", "landing", "zero_fuel", "forward", "aft"];
const asksOfArms = ["fs", "bl", "wl", "mac", "forward", "aft"];

/** By code; what is not here stands where it is found. */
export const causesOf: Readonly<Record<string, Causes>> = {
  ...{ "over-budget": inBasic, creep: inBasic },
  ...{ "budget-at-risk": inPredicted, "margin-low": inPredicted, "over-allocated": allocated },
  "cg-off-target": offTarget,
  ...{ "cg-forward": ofLoading, "cg-aft": ofLoading, "cg-lateral": ofLoading },
  ...{ "above-weight-limit": ofLoading, "below-weight-limit": ofLoading },
  ...{ "loading-at-risk": ofLoading, "limit-exceeded": intoLimit },
  ...{ "requirement-failed": ofRequirement, "requirement-at-risk": ofRequirement },
};

/** The limit that is broken, if the change is to that. */
function changedLimit({ finding }: Turned, { yardstick }: RootDifference): Span | undefined {
  const limits = yardstick.flatMap(({ head }) => (head?.kind === "limit" ? head.at.line : []));
  return causesOf[finding.code] === ofLoading || causesOf[finding.code] === intoLimit
    ? finding.related.find(({ at }) => limits.includes(at.line))?.at
    : undefined;
}

const whereFound = ({ path }: Turned, { name }: RootDifference) =>
  `${path || name} leaves its limits`;
