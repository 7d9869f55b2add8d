import { type Flight, flightsOf, type Verdict } from "../compute/flights";
import type { Breach } from "../compute/limits";
import type { Excursion, Spot } from "../compute/paths";
import type { Path, Stage } from "../compute/stages";
import type { Root } from "../model/root";
import { exceeds, same } from "../quantity/compare";
import { MASS, VOLUME } from "../quantity/dimension";
import { closestShown, show } from "../quantity/show";
import type { Check, Draft } from "./check";
import { over, when } from "./show";

type Related = NonNullable<Draft["related"]>;

/** Where a loading is outside an envelope: in a stage, or on the burn or release that leads to it. */
interface Outside {
  readonly stage: Stage;
  readonly breach: Breach;
  readonly verdict: Verdict;
  readonly along: Excursion | undefined;
}

/** The check of one of the five codes that say in which direction a loading leaves its envelope. */
export function breachCheck(
  page: Pick<Check, "explain" | "example"> & { code: Breach["code"] },
): Check {
  return { ...page, severity: "error", root: root => breachesWith(page.code, root) };
}

/** One finding a loading and code: the worst place carries it, other stages are related places. */
function* breachesWith(code: Breach["code"], root: Root): Iterable<Draft> {
  for (const flight of flightsOf(root)) {
    const places = outside(flight, "basic").filter(it => it.breach.code === code);
    const worst = worstOf(places);
    if (worst === undefined) continue;
    const others = distinct(worst, places);
    yield {
      at: flight.loading.at,
      message: sentence(flight, worst, root),
      related: [
        ...relatedTo(worst, places, root),
        ...others.map(it => ({ at: it.breach.clause, message: sentence(flight, it, root) })),
      ],
    };
  }
}

/** The other stages; what is the same in two of them, or with something swung, is said once. */
function distinct(worst: Outside, places: readonly Outside[]): readonly Outside[] {
  const seen = new Set([figuresOf(worst)]);
  return places.filter(it => {
    const figures = figuresOf(it);
    if (it.along !== undefined || seen.has(figures)) return false;
    seen.add(figures);
    return true;
  });
}

const figuresOf = ({ breach, verdict }: Outside) =>
  [breach.value, breach.limit].map(it => it.toPrecision(9)).join() + verdict.envelope.name;

/** Every breach of a flight, with basic or with predicted masses, in the order of each envelope's flight. */
export function outside(flight: Flight, which: "basic" | "predicted"): readonly Outside[] {
  return flight.verdicts.flatMap(verdict =>
    verdict.states.flatMap(state => {
      const { stage } = state;
      const { excursions, breaches } = state[which];
      return [
        ...excursions.map(along => ({ stage, breach: along.breach, verdict, along })),
        ...breaches.map(breach => ({ stage, breach, verdict, along: undefined })),
      ];
    }),
  );
}

/** A path ends in its stage: it is worse only where it is so on the way. */
export function worstOf(places: readonly Outside[]): Outside | undefined {
  const stages = places.filter(it => it.along === undefined);
  const paths = places.filter(it => it.along !== undefined);
  return [...stages, ...paths].reduce<Outside | undefined>(
    (most, it) => (most && !exceeds(it.breach.by, most.breach.by) ? most : it),
    undefined,
  );
}

/** The limit that is broken, and where on a burn the loading was outside for the first time. */
export function relatedTo(worst: Outside, places: readonly Outside[], root: Root): Related {
  const { breach, verdict } = worst;
  const limit = {
    at: breach.clause,
    message: `the limit${verdict.envelope.name && ` of ${verdict.envelope.name}`}`,
  };
  const { along, stage } =
    places.find(it => it.verdict === verdict && it.breach.code === breach.code) ?? worst;
  if (along === undefined || stage.path === undefined) return [limit];
  if (worst.along === along && same(along.first.used, along.worst.used)) return [limit];
  const first = spotOn(stage.path, along.first, root);
  const weight = show(along.first.mass, root.units.mass);
  return [limit, { at: stage.path.use.at, message: `first outside ${first} (${weight})` }];
}

export function sentence(
  flight: Flight,
  { stage, breach, verdict, along }: Outside,
  root: Root,
  which: "basic" | "predicted" = "basic",
): string {
  const where = along && stage.path ? spotOn(stage.path, along.worst, root) : when(stage);
  const floor = stage[which].complete ? "" : " (incomplete: something has no mass or no arm)";
  const { name } = flight.loading;
  const under = verdict.envelope.name && ` (${verdict.envelope.name})`;
  const who = verdict.configuration
    ? `${name}, ${verdict.configuration}, ${where}`
    : `${name} ${where}`;
  if (breach.code === "above-weight-limit" || breach.code === "below-weight-limit") {
    const unit = limitUnit(breach, verdict) ?? root.units.mass;
    const { is, by, limit } = over(breach.value, breach.limit, unit);
    const way = breach.code === "above-weight-limit" ? "over" : "under";
    return `${who} weighs ${is}, ${by} ${way} ${breach.what} of ${limit}${under}${floor}`;
  }
  const { length, mass } = root.units;
  const { is, by, limit } = over(breach.value, breach.limit, length);
  const axis = breach.code === "cg-lateral" ? "BL" : "FS";
  const way = { "cg-forward": "forward of", "cg-aft": "aft of", "cg-lateral": "outside" }[
    breach.code
  ];
  const weight = show(along?.worst.mass ?? stage[which].mass, mass);
  return `${who} (${weight}) has its CG at ${axis} ${is}, ${by} ${way} ${breach.what} of ${limit}${under}${floor}`;
}

/** "after 6.2 gal of the 14 gal burn of wing_tank", in the unit of the burn or of the tank. */
function spotOn({ use, points }: Path, { used }: Spot, root: Root): string {
  const { station, side, kind } = use;
  const all = points.at(-1)!.used;
  const density = station.fluid && root.fluids.get(station.fluid.text)?.density;
  const said = use.unit ?? station.holds?.unit ?? root.units.mass;
  const volume = said.dimension === VOLUME && density !== undefined;
  const unit = volume || said.dimension === MASS ? said : root.units.mass;
  const of = (mass: number) => (volume ? mass / density : mass);
  const [shown, whole] = closestShown(of(used), of(all), unit);
  const total = station.mirrored && side === undefined ? "total " : "";
  const what = `the ${whole} ${total}${kind} of ${use.name}`;
  return used < all * 1e-6 ? `at the start of ${what}` : `after ${shown} of ${what}`;
}

/** A limit speaks the unit it was declared in. */
function limitUnit(breach: Breach, { envelope }: Verdict) {
  for (const limit of [envelope.ramp, envelope.takeoff, envelope.landing, envelope.zero_fuel])
    if (limit?.clause === breach.clause) return limit.unit;
  return undefined;
}
