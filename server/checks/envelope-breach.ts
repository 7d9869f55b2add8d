import { type Flight, flightsOf, type Verdict } from "../compute/flights";
import type { Breach } from "../compute/limits";
import type { Stage } from "../compute/stages";
import type { Root } from "../model/root";
import { show } from "../quantity/show";
import type { Check, Draft } from "./check";
import { over } from "./show";

/** A state of a loading outside an envelope. */
interface Outside {
  readonly stage: Stage;
  readonly breach: Breach;
  readonly verdict: Verdict;
}

/** The check of one of the five codes that say in which direction a loading leaves its envelope. */
export function breachCheck(
  page: Pick<Check, "explain" | "example"> & { code: Breach["code"] },
): Check {
  return { ...page, severity: "error", root: root => breachesWith(page.code, root) };
}

/** One finding a loading and code: the worst state carries it, the others are related places. */
function* breachesWith(code: Breach["code"], root: Root): Iterable<Draft> {
  for (const flight of flightsOf(root)) {
    const states = outside(flight, "basic").filter(it => it.breach.code === code);
    const worst = states.reduce<Outside | undefined>(
      (most, it) => (most === undefined || it.breach.by > most.breach.by ? it : most),
      undefined,
    );
    if (worst === undefined) continue;
    const others = states.filter(it => it !== worst);
    yield {
      at: flight.loading.at,
      message: sentence(flight, worst, root),
      related: [
        { at: worst.breach.clause, message: `the limit of ${worst.verdict.envelope.name}` },
        ...others.map(it => ({ at: it.breach.clause, message: sentence(flight, it, root) })),
      ],
    };
  }
}

/** Every breach of a flight, with basic or with predicted masses. */
export function outside(flight: Flight, which: "basic" | "predicted"): readonly Outside[] {
  return flight.verdicts.flatMap(verdict =>
    verdict.states.flatMap(state =>
      state[which].map(breach => ({ stage: state.stage, breach, verdict })),
    ),
  );
}

export function sentence(
  flight: Flight,
  { stage, breach, verdict }: Outside,
  root: Root,
  which: "basic" | "predicted" = "basic",
): string {
  const when = stage.kind === "after" ? stage.stage : `at ${stage.stage.replace("_", " ")}`;
  const floor = stage[which].complete ? "" : " (incomplete: something has no mass or no arm)";
  const who = `${flight.loading.name} ${when}`;
  if (breach.code === "above-weight-limit" || breach.code === "below-weight-limit") {
    const unit = limitUnit(breach, verdict) ?? root.units.mass;
    const { is, by, limit } = over(breach.value, breach.limit, unit);
    const way = breach.code === "above-weight-limit" ? "over" : "under";
    return `${who} weighs ${is}, ${by} ${way} ${breach.what} of ${limit} (${verdict.envelope.name})${floor}`;
  }
  const { length, mass } = root.units;
  const { is, by, limit } = over(breach.value, breach.limit, length);
  const axis = breach.code === "cg-lateral" ? "BL" : "FS";
  const way = { "cg-forward": "forward of", "cg-aft": "aft of", "cg-lateral": "outside" }[
    breach.code
  ];
  const weight = show(stage[which].mass, mass);
  return `${who} (${weight}) has its CG at ${axis} ${is}, ${by} ${way} ${breach.what} of ${limit} (${verdict.envelope.name})${floor}`;
}

/** A limit speaks the unit it was declared in. */
function limitUnit(breach: Breach, { envelope }: Verdict) {
  for (const limit of [envelope.ramp, envelope.takeoff, envelope.landing, envelope.zero_fuel])
    if (limit?.clause === breach.clause) return limit.unit;
  return undefined;
}
