import { memo } from "../memo";
import type { Envelope } from "../model/envelope";
import { type Loading, loadingOf } from "../model/loading";
import type { Root } from "../model/root";
import { type Breach, breachesOf } from "./limits";
import { type Excursion, excursionsOf } from "./paths";
import { asDrawn, fuelsOf, type Shape, type Stage, stagesOf } from "./stages";
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
    readonly basic: Judged;
    readonly predicted: Judged;
  }[];
}

/** What an envelope forbids about a stage, and about the burn or release that leads to it. */
export interface Judged {
  readonly breaches: readonly Breach[];
  readonly excursions: readonly Excursion[];
}

export const flightsOf = memo((root: Root): readonly Flight[] => {
  const loadings = root.statements.loadings.map(item => loadingOf(item, root));
  const fuels = fuelsOf(loadings);
  return loadings.map(loading => flightOf(loading, asDrawn(root), fuels));
});

function flightOf(loading: Loading, shape: Shape, fuels: ReadonlySet<string>): Flight {
  const stages = stagesOf(loading, shape, fuels);
  const verdicts = loading.envelopes.map(envelope => {
    const judged = (stage: Stage, which: "basic" | "predicted"): Judged => ({
      breaches: breachesOf(stage[which], stage.kind, envelope),
      excursions: stage.path ? excursionsOf(stage.path, which, envelope, stage.kind) : [],
    });
    const states = stages.map(stage => ({
      stage,
      basic: judged(stage, "basic"),
      predicted: judged(stage, "predicted"),
    }));
    return { envelope, states };
  });
  return { loading, stages, verdicts };
}

/** Null where something unknown could still bring it outside. */
export function insideOf(balance: Balance, breaches: readonly Breach[]): boolean | null {
  if (breaches.length > 0) return false;
  return balance.complete ? true : null;
}
