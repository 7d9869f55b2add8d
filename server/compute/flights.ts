import { memo } from "../memo";
import type { Envelope } from "../model/envelope";
import { type Loading, loadingOf } from "../model/loading";
import type { Root } from "../model/root";
import { type Breach, breachesOf } from "./limits";
import { fuelsOf, type Stage, stagesOf } from "./stages";
import type { Balance } from "./weight";

/** A loading at every stage, under every envelope it is judged by. */
export interface Flight {
  readonly loading: Loading;
  readonly stages: readonly Stage[];
  readonly verdicts: readonly Verdict[];
}

export interface Verdict {
  readonly envelope: Envelope;
  readonly states: readonly {
    readonly stage: Stage;
    readonly basic: readonly Breach[];
    readonly predicted: readonly Breach[];
  }[];
}

export const flightsOf = memo((root: Root): readonly Flight[] => {
  const loadings = root.statements.loadings.map(item => loadingOf(item, root));
  const fuels = fuelsOf(loadings);
  return loadings.map(loading => {
    const stages = stagesOf(loading, root, fuels);
    const verdicts = loading.envelopes.map(envelope => ({
      envelope,
      states: stages.map(stage => ({
        stage,
        basic: breachesOf(stage.basic, stage.kind, envelope),
        predicted: breachesOf(stage.predicted, stage.kind, envelope),
      })),
    }));
    return { loading, stages, verdicts };
  });
});

/** Null where something unknown could still bring it outside. */
export function insideOf(balance: Balance, breaches: readonly Breach[]): boolean | null {
  if (breaches.length > 0) return false;
  return balance.complete ? true : null;
}
