import { requirementsOf } from "../checks/requirement";
import { flightsOf, insideOf, type Verdict } from "../compute/flights";
import { emptyOf } from "../compute/stages";
import {
  type Balance,
  balanceOf,
  basicBalance,
  oneSide,
  predictedBalance,
  type Weight,
  weightOf,
} from "../compute/weight";
import type { JudgedRoot } from "../judge";
import type { Assembly } from "../model/assembly";

/** One aircraft's numbers as they leave the program: every key says its unit. Plain JSON. */
export function reportOf({ name, file, root }: JudgedRoot): Record<string, unknown> {
  const { basic, predicted } = emptyOf(root);
  const whole = weightOf(root.aircraft);
  return {
    name,
    file,
    empty: { basic: massOf(basic), predicted: massOf(predicted) },
    parts: { basic: massOf(basicBalance(whole)), predicted: massOf(predictedBalance(whole)) },
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
            ...stateOf(stage.basic, state && insideOf(stage.basic, state.basic.breaches)),
            predicted: stateOf(
              stage.predicted,
              state && insideOf(stage.predicted, state.predicted.breaches),
            ),
          };
        }),
        leaves: verdict ? [...leavesOf(verdict, "basic"), ...leavesOf(verdict, "predicted")] : [],
      })),
    ),
    requirements: requirementsOf(root).map(({ basic: { text, holds, left, right } }) => ({
      text,
      holds,
      left,
      right,
    })),
  };
}

function massOf({ mass, fs, bl, wl, complete }: Balance) {
  return { mass_kg: mass, cg_m: [fs, bl, wl], complete };
}

function stateOf({ mass, fs, bl, wl }: Balance, inside: boolean | null | undefined) {
  return { mass_kg: mass, cg_m: [fs, bl, wl], inside: inside ?? null };
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
        yield* assembliesIn(member, at === "" ? member.name : `${at}.${member.name}`, turned);
  }
}

function entry(assembly: Assembly, path: string, weight: Weight, side: 1 | -1): object {
  const turned = (it: Balance) => (side === 1 || it.bl === null ? it : { ...it, bl: -it.bl });
  const basic = turned(basicBalance(weight));
  const predicted = turned(predictedBalance(weight));
  const budget = assembly.budget?.mass;
  return {
    path,
    basic: massOf(basic),
    growth_kg: balanceOf(weight.growth, 0).mass,
    reserve_kg: balanceOf(weight.reserve, 0).mass,
    predicted: massOf(predicted),
    ...(budget === undefined ? {} : { budget_kg: budget, margin_kg: budget - predicted.mass }),
  };
}
