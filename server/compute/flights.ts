import { memo } from "../memo";
import { type Envelope, openIn } from "../model/envelope";
import { type Loading, loadingOf } from "../model/loading";
import type { Root } from "../model/root";
import { type Breach, breachesOf, hasRowsAt } from "./limits";
import { type Excursion, excursionsOf } from "./paths";
import { shapesOf } from "./shapes";
import { asDrawn, fuelsOf, type Shape, type Stage, stagesOf } from "./stages";
import type { Balance } from "./weight";

/** A loading at every stage, under every envelope it is judged by and in every flight configuration. */
export interface Flight {
  readonly loading: Loading;
  /** As drawn. */
  readonly stages: readonly Stage[];
  readonly verdicts: readonly Verdict[];
}

export interface Verdict {
  readonly envelope: Envelope;
  /** Null: as drawn. */
  readonly configuration: string | null;
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
  return loadings.map(loading => flightOf(loading, root, fuels));
});

/** A loading flown, be it written down or not. */
export function flightOf(loading: Loading, root: Root, fuels: ReadonlySet<string>): Flight {
  const drawn = asDrawn(root);
  const stages = stagesOf(loading, drawn, fuels);
  const verdicts = shapesOf(root).flatMap(shape =>
    verdictsOf(loading, shape, shape === drawn ? stages : stagesOf(loading, shape, fuels)),
  );
  return { loading, stages, verdicts };
}

function verdictsOf(loading: Loading, shape: Shape, stages: readonly Stage[]): readonly Verdict[] {
  const { configuration } = shape;
  // what is swung weighs what it weighs: said once, of the aircraft as drawn
  // and of what is not understood in full a floor alone: heavier is all that can be said
  const floor = shape.broken > 0;
  const counts = ({ code }: { readonly code: string }) =>
    !loading.broken &&
    (floor
      ? configuration === null && code === "above-weight-limit"
      : configuration === null || code.startsWith("cg-"));
  return loading.envelopes.map(envelope => {
    const judged = (stage: Stage, which: "basic" | "predicted"): Judged => ({
      breaches: breachesOf(stage[which], stage.kind, envelope).filter(counts),
      excursions: stage.path
        ? excursionsOf(stage.path, which, envelope, stage.kind).filter(counts)
        : [],
    });
    const states = stages.map(stage => ({
      stage,
      basic: judged(stage, "basic"),
      predicted: judged(stage, "predicted"),
    }));
    return { envelope, configuration, states };
  });
}

/** Inside what an envelope says. Null where something unknown could still bring it outside, be it a mass or a limit. */
export function insideOf(
  balance: Balance,
  breaches: readonly Breach[],
  envelope: Envelope,
): boolean | null {
  if (breaches.length > 0) return false;
  return balance.complete && saysSomething(envelope) ? true : null;
}

const saysSomething = ({ broken, ...it }: Envelope) =>
  !broken &&
  (it.rows.length + it.lateral.length + it.lateralByStation.length > 0 ||
    (it.ramp ?? it.takeoff ?? it.landing ?? it.zero_fuel) !== undefined);

/** The same of its CG alone: null too where the envelope has no limits of it. The ramp is checked for weight only. */
export function cgInsideOf(
  { kind }: Stage,
  balance: Balance,
  breaches: readonly Breach[],
  envelope: Envelope,
): boolean | null {
  if (breaches.some(it => it.code.startsWith("cg-"))) return false;
  // beyond the lightest and the heaviest row no CG is spoken of
  const spoken = kind !== "ramp" && hasRowsAt(balance.mass, kind, envelope);
  return spoken && balance.complete && openIn(envelope) === undefined ? true : null;
}
