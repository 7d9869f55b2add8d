import { requirementsOf } from "../checks/requirement";
import { allLoadingsOf } from "../compute/all-loadings";
import { cgInsideOf, flightsOf, insideOf, type Verdict } from "../compute/flights";
import { type MassMoments, momentsOf, oneSideMoments, predictedMoments } from "../compute/inertia";
import { principalOf } from "../compute/principal";
import { type Configuration, configurationsOf } from "../compute/shapes";
import { sharesOf } from "../compute/shares";
import { chanceOver, type Deviation, deviationOf } from "../compute/spread";
import { emptyOf, type Stage } from "../compute/stages";
import {
  type Balance,
  balanceOf,
  basicBalance,
  oneSide,
  predictedBalance,
  type Weight,
  weightOf,
} from "../compute/weight";
import { emptyDeviation, emptyIn, emptyMoments, inertiaOf, momentChange } from "../compute/whole";
import type { JudgedRoot } from "../judge";
import type { Assembly } from "../model/assembly";
import { joinPath } from "../model/env";
import type { Root } from "../model/root";

/** One aircraft's numbers as they leave the program: every key says its unit. Plain JSON. */
export function reportOf({ name, file, root }: JudgedRoot): Record<string, unknown> {
  const { basic, predicted } = emptyOf(root);
  const whole = weightOf(root.aircraft);
  const moments = emptyMoments(root);
  return {
    name,
    airframe: root.airframe?.name ?? null,
    file,
    empty: {
      basic: { ...massOf(basic, moments.basic), ...principalIn(basic, moments.basic) },
      predicted: massOf(predicted, moments.predicted),
      spread: deviationIn(emptyDeviation(root)),
    },
    parts: {
      basic: massOf(basicBalance(whole), momentsOf(root.aircraft).basic),
      predicted: massOf(predictedBalance(whole), predictedMoments(momentsOf(root.aircraft))),
    },
    assemblies: [...assembliesIn(root.aircraft, "", 1)],
    loadings: flightsOf(root).flatMap(({ loading, verdicts, stages }) =>
      (verdicts.length > 0 ? verdicts : [undefined]).map(verdict => ({
        name: loading.name,
        envelope: verdict?.envelope.name ?? null,
        configuration: verdict?.configuration ?? null,
        stages: (verdict?.states.map(it => it.stage) ?? stages).map((stage, i) => {
          const state = verdict?.states[i];
          return {
            stage: stage.stage,
            ...stateOf(stage, "basic", state && { ...state, verdict }),
            predicted: stateOf(stage, "predicted", state && { ...state, verdict }),
          };
        }),
        leaves: verdict ? [...leavesOf(verdict, "basic"), ...leavesOf(verdict, "predicted")] : [],
      })),
    ),
    configurations: configurationsOf(root).map(it => configurationIn(root, it)),
    envelopes: allLoadingsOf(root).flatMap(({ envelope, verdict }) =>
      verdict === undefined ? [] : { name: envelope.name, all_loadings: verdict },
    ),
    requirements: requirementsOf(root).map(({ basic: { text, holds, left, right } }) => ({
      text,
      holds,
      left,
      right,
    })),
  };
}

function massOf(balance: Balance, moments: MassMoments, side: 1 | -1 = 1) {
  const { mass, fs, bl, wl, complete, blComplete, wlComplete } = balance;
  const inertia = inertiaOf(moments, balance);
  return {
    mass_kg: mass,
    cg_m: [fs, turned(bl, side), wl],
    inertia_kg_m2: inertia && {
      ...inertia,
      Ixy: turned(inertia.Ixy, side),
      Iyz: turned(inertia.Iyz, side),
    },
    complete,
    cg_complete: [complete, blComplete, wlComplete],
    inertia_complete: blComplete && wlComplete && complete && moments.lacks.length === 0,
  };
}

/** Smallest first; axes of length one, aft, right, up. */
function principalIn(balance: Balance, moments: MassMoments): object {
  const inertia = inertiaOf(moments, balance);
  if (inertia === null) return {};
  const principal = principalOf(inertia);
  return {
    principal_kg_m2: principal.map(it => it.moment),
    principal_axes: principal.map(it => it.axis),
    gyration_m: principal.map(it => Math.sqrt(Math.max(0, it.moment) / balance.mass)),
  };
}

/** On the other side what goes with BL changes its sign. */
const turned = (x: number | null, side: 1 | -1) => (x === null || side === 1 || x === 0 ? x : -x);

function deviationIn({ mass, fs, bl, wl }: Deviation) {
  return { mass_kg: mass, cg_m: [fs, bl, wl] };
}

/** What swinging does to the basic empty weight: its moment changes about the datum, centreline and WL 0. */
function configurationIn(root: Root, configuration: Configuration): object {
  const { name, ground } = configuration;
  const swung = emptyIn(root, configuration);
  const { fs, bl, wl } = momentChange(root, configuration);
  return {
    ...{ name, ground },
    empty: massOf(swung.balance, swung.moments),
    moment_change_kg_m: [fs, bl, wl],
  };
}

function stateOf(
  stage: Stage,
  which: "basic" | "predicted",
  state: (Verdict["states"][number] & { readonly verdict: Verdict }) | undefined,
) {
  const { mass, fs, bl, wl } = stage[which];
  const judged = (inside: typeof insideOf) =>
    state ? inside(stage[which], state[which].breaches, state.verdict.envelope) : null;
  return {
    ...{ mass_kg: mass, cg_m: [fs, bl, wl], inside: judged(insideOf) },
    cg_inside: judged((...of) => cgInsideOf(stage, ...of)),
  };
}

/** Where a burn or release leaves the envelope: kg used of both sides together by then, and at worst. */
function leavesOf({ states }: Verdict, which: "basic" | "predicted"): readonly object[] {
  return states.flatMap(state =>
    state[which].excursions.map(({ code, first, worst, breach }) => ({
      ...{ code, masses: which, stage: state.stage.stage },
      used_kg: first.used,
      worst_used_kg: worst.used,
      ...(code.startsWith("cg-") ? { by_m: breach.by } : { by_kg: breach.by }),
    })),
  );
}

/** The aircraft first; of something mirrored the right-hand one and then the left-hand one. */
function* assembliesIn(assembly: Assembly, path: string, side: 1 | -1): Iterable<object> {
  const one = oneSide(assembly);
  const sides: readonly (readonly [string, 1 | -1])[] = assembly.mirrored
    ? [
        [`${path}.RH`, 1],
        [`${path}.LH`, -1],
      ]
    : [[path, side]];
  for (const [at, turned] of sides) {
    yield entry(assembly, at, one, turned);
    for (const member of assembly.members)
      if (member.kind === "assembly")
        yield* assembliesIn(member, joinPath(at, labelOf(member)), turned);
  }
}

const labelOf = ({ name, side }: Assembly) => (side === undefined ? name : `${name}.${side}`);

function entry(assembly: Assembly, path: string, weight: Weight, side: 1 | -1): object {
  const basic = basicBalance(weight);
  const predicted = predictedBalance(weight);
  const moments = oneSideMoments(assembly);
  const budget = assembly.budget?.mass;
  const chance = chanceOver(assembly);
  const deviation = deviationIn(deviationOf(assembly));
  return {
    path,
    basic: massOf(basic, moments.basic, side),
    growth_kg: balanceOf(weight.growth, 0).mass,
    reserve_kg: balanceOf(weight.reserve, 0).mass,
    predicted: massOf(predicted, predictedMoments(moments), side),
    ...(budget === undefined ? {} : { budget_kg: budget, margin_kg: budget - predicted.mass }),
    ...(chance === undefined ? {} : { chance_over: chance }),
    spread_kg: deviation.mass_kg,
    cg_spread_m: deviation.cg_m,
    by_basis_kg: sharesOf(assembly),
  };
}
