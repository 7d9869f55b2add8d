import { memo } from "../memo";
import type { Root } from "../model/root";
import { empty, fluidAt } from "./contents";
import { type Exact, rounded } from "./exact";
import {
  type Inertia,
  inertiaAbout,
  type MassMoments,
  mergeMoments,
  momentsOf,
  nothing,
  predictedMoments,
  putMoments,
} from "./inertia";
import { movedMomentsChange } from "./moved-moments";
import { type Configuration, shapeIn } from "./shapes";
import { type Deviation, deviation, errorsOf } from "./spread";
import { asDrawn, emptyBalance, emptyOf, emptyTotals, type Shape } from "./stages";
import { type Balance, subtract } from "./weight";

/** How the basic empty weight lies: the parts, unusable fluid and full operating tanks, which count as points. */
export const emptyMoments = memo((root: Root) => {
  const { basic } = momentsOf(root.aircraft);
  const predicted = predictedMoments(momentsOf(root.aircraft));
  return {
    basic: withFluids(basic, asDrawn(root)),
    predicted: withFluids(predicted, asDrawn(root)),
  };
});

/** The basic empty weight with something swung: where its CG goes, and how it then lies. */
export function emptyIn(
  root: Root,
  configuration: Configuration,
): { balance: Balance; moments: MassMoments } {
  const shape = shapeIn(root, configuration);
  const sum = nothing();
  mergeMoments(sum, momentsOf(root.aircraft).basic);
  mergeMoments(sum, movedMomentsChange(root.aircraft, configuration.swung));
  return { balance: emptyBalance(shape).basic, moments: withFluids(sum, shape) };
}

/**
 * The change of the moment about the datum, the centreline and WL 0 that swinging brings, kg m; null where
 * something that moves has no place there. What stays where it is need not have one.
 */
export function momentChange(root: Root, configuration: Configuration): MomentChange {
  const change = emptyTotals(shapeIn(root, configuration));
  subtract(change, emptyTotals(asDrawn(root)));
  const of = (moment: Exact, lacks: Exact) =>
    configuration.sound && lacks.length === 0 ? rounded(moment) : null;
  return {
    fs: of(change.fs, change.lacksFs),
    bl: of(change.bl, change.lacksBl),
    wl: of(change.wl, change.lacksWl),
  };
}

export type MomentChange = Readonly<Record<"fs" | "bl" | "wl", number | null>>;

/** Spread of the basic empty weight and CG: the parts', for fluids are taken as they are written. */
export const emptyDeviation = memo(
  (root: Root): Deviation => deviation(errorsOf(root.aircraft), emptyOf(root).basic),
);

/** About its own CG; null where nothing has a place. */
export function inertiaOf(moments: MassMoments, balance: Balance): Inertia | null {
  const { fs, bl, wl } = balance;
  if (fs === null || bl === null || wl === null) return null;
  return inertiaAbout(moments, { fs, bl, wl });
}

function withFluids(parts: MassMoments, { root, moved }: Shape): MassMoments {
  const sum = nothing();
  mergeMoments(sum, parts);
  for (const [station, { right, left }] of empty(root))
    for (const [mass, side] of [
      [right, 1],
      [left, -1],
    ] as const) {
      if (mass === 0) continue;
      for (const [part, from] of fluidAt(station, mass, root))
        putMoments(sum, part, moved(station, from, side), undefined, false);
    }
  return sum;
}
