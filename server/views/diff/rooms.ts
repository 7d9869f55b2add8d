import { flightsOf, type Judged, type Verdict } from "../../compute/flights";
import { limitsAt } from "../../compute/limit-lines";
import { hasRowsAt, weightLimitAt } from "../../compute/limits";
import type { Stage } from "../../compute/stages";
import type { Envelope } from "../../model/envelope";
import type { Root } from "../../model/root";

/** How far a loading is from what stops it first, under one envelope, over all its stages and configurations. */
export interface Room {
  readonly loading: string;
  readonly envelope: string;
  /** m to the nearest CG limit, negative outside; undefined where there is none or no CG. */
  readonly cg: Nearest | undefined;
  /** kg to the nearest weight limit above, negative beyond. */
  readonly weight: Nearest | undefined;
  /** With growth and reserves in: the same. */
  readonly predicted: { readonly cg: Nearest | undefined; readonly weight: Nearest | undefined };
}

export interface Nearest {
  readonly by: number;
  /** "the aft limit" */
  readonly what: string;
  readonly stage: string;
}

export function roomsOf(root: Root): readonly Room[] {
  return flightsOf(root).flatMap(({ loading, verdicts }) =>
    loading.envelopes.map(envelope => {
      const own = verdicts.filter(it => it.envelope === envelope);
      return {
        loading: loading.name,
        envelope: envelope.name,
        ...nearest(own, "basic"),
        predicted: nearest(own, "predicted"),
      };
    }),
  );
}

function nearest(verdicts: readonly Verdict[], which: "basic" | "predicted") {
  const cg: Nearest[] = [];
  const weight: Nearest[] = [];
  for (const { envelope, states } of verdicts)
    for (const state of states) {
      cg.push(...cgRooms(state.stage, which, envelope));
      const limit = weightLimitAt(state.stage.kind, envelope);
      if (limit)
        weight.push({
          by: limit.limit.mass - state.stage[which].mass,
          what: limit.what,
          stage: state.stage.stage,
        });
      cg.push(...onTheWay(state.stage, state[which]));
    }
  return { cg: least(cg), weight: least(weight) };
}

function cgRooms(
  { stage, kind, ...balances }: Stage,
  which: "basic" | "predicted",
  envelope: Envelope,
): readonly Nearest[] {
  const { mass, fs, bl } = balances[which];
  // the ramp is judged by its weight alone
  if (kind === "ramp") return [];
  const along = fs !== null && hasRowsAt(mass, kind, envelope) ? limitsAt(envelope.rows, mass) : [];
  const across = [
    ...limitsAt(envelope.lateral, mass, "lateral"),
    ...(fs === null ? [] : limitsAt(envelope.lateralByStation, fs, "lateral")),
  ];
  const room = (x: number, out: 1 | -1, value: number) => (x - value) * out;
  return [
    ...along.map(({ x, out, what }) => ({ by: room(x, out, fs!), what, stage })),
    ...(bl === null
      ? []
      : across.map(({ x, out, what }) => ({ by: room(x, out, bl), what, stage }))),
  ];
}

/** Outside between two stages, and back in at the next. */
function onTheWay({ stage }: Stage, { excursions }: Judged): readonly Nearest[] {
  return excursions.flatMap(({ code, breach }) =>
    code.startsWith("cg-") ? [{ by: -breach.by, what: breach.what, stage }] : [],
  );
}

const least = (all: readonly Nearest[]): Nearest | undefined =>
  all.reduce<Nearest | undefined>((a, b) => (a && a.by <= b.by ? a : b), undefined);
