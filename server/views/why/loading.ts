import type { Item, Span, Statement } from "../../../grammar/tree";
import { loaded, type State, used, zeroFuel } from "../../compute/contents";
import { type Flight, flightsOf } from "../../compute/flights";
import { fuelsOf, type Stage } from "../../compute/stages";
import { type Balance, none, put, type Totals } from "../../compute/weight";
import type { Loading, Use } from "../../model/loading";
import type { Root } from "../../model/root";
import type { Station } from "../../model/station";
import { aboard, type Said } from "./aboard";
import { asShown, written } from "./figures";
import { distanceSteps } from "./limits";
import { line, type Row, section, table, type WhyLine } from "./lines";
import { centreSteps, headingsOf, rowOf } from "./sums";

export const stageNames = ["ramp", "takeoff", "landing", "zero_fuel"] as const;
type StageName = (typeof stageNames)[number];

/** A loading: what it weighs from the ramp to zero fuel, and what is used on the way. */
export function loadingLines(root: Root, flight: Flight): readonly WhyLine[] {
  const { loading, stages } = flight;
  return [
    line(titleOf(loading), loading.at),
    ...brokenLine(loading),
    ...table("Stages, basic", headingsOf(root, false).slice(0, 4), [
      stages.map((it): Row => {
        const uses = it.kind === "takeoff" ? loading.uses.filter(use => use.kind === "taxi") : [];
        const all = it.path ? [it.path.use] : uses;
        const details = all.map(use => line(`    ${useText(loading, use)}`, use.at));
        const row = rowOf(root, it.stage.replace("_", " "), totalsOf(it.basic), undefined);
        // of what has no place a balance tells no moment
        return { ...row, cells: row.cells.slice(0, 4), details };
      }),
    ]),
    ...stageLines(root, flight, "takeoff").slice(1),
  ];
}

/** A stage of a loading: the empty weight, each item, the sums, and each limit with the distance from it. */
export function stageLines(root: Root, flight: Flight, name: StageName): readonly WhyLine[] {
  const { loading, stages, verdicts } = flight;
  const shown = stages.find(it => it.kind === name) ?? stages.find(it => it.kind === "takeoff");
  if (shown === undefined) return [];
  const { kind } = shown;
  const spoken = kind.replace("_", " ");
  const now = aboard(root, stateAt(root, loading, kind), `at ${spoken}`, it =>
    saidAt(root, loading, it),
  );
  const limits = verdicts.flatMap(({ envelope, configuration, states }) => {
    const state = states.find(it => it.stage.kind === kind)?.stage;
    if (state === undefined) return [];
    const under = `Under ${envelope.name}, ${spoken}${configuration ? `, ${configuration}` : ""}`;
    const grown = state.predicted.mass !== state.basic.mass;
    const floor = state.basic.complete ? "" : " (incomplete: something has no mass or no FS)";
    return [
      ...section(
        `${under}: basic${floor}`,
        distanceSteps(root, envelope, kind, state.basic, configuration !== null),
      ),
      ...(grown
        ? section(
            `${under}: predicted`,
            distanceSteps(root, envelope, kind, state.predicted, configuration !== null),
          )
        : []),
    ];
  });
  return [
    line(`${loading.name}.${kind}: ${titleOf(loading)} at ${spoken}`, loading.at),
    ...brokenLine(loading),
    ...(name === kind ? [] : [line(`  nothing is burnt or released: ${name} is takeoff`)]),
    ...now.lines,
    ...section(`CG at ${spoken}, basic: moment ÷ mass`, centreSteps(root, now.basic)),
    ...limits,
  ];
}

const titleOf = ({ title, name }: Loading) => (title ? `${name} "${title}"` : name);

const brokenLine = ({ broken }: Loading): readonly WhyLine[] =>
  broken ? [line("  something in it could not be understood: it counts as absent")] : [];

/** What is in every place by then. */
function stateAt(root: Root, { loads, uses }: Loading, kind: Stage["kind"]): State {
  const after = (state: State, all: readonly Use[]) =>
    all.reduce((it, use) => used(it, use, root).state, state);
  const ramp = loaded(loads, root);
  if (kind === "ramp") return ramp;
  const takeoff = after(
    ramp,
    uses.filter(it => it.kind === "taxi"),
  );
  if (kind === "takeoff") return takeoff;
  if (kind === "zero_fuel")
    return zeroFuel(takeoff, fuelsOf(flightsOf(root).map(it => it.loading)), root);
  return after(
    takeoff,
    uses.filter(it => it.kind !== "taxi"),
  );
}

/** The line that loads it, or else the place itself, for its unusable. */
function saidAt(root: Root, { item, loads }: Loading, station: Station): Said {
  const load = loads.find(it => it.station === station);
  if (load === undefined) return { at: station.head.path };
  const head = saying(item, load.at);
  const value = head?.kind === "load" ? head.amount?.value : undefined;
  const text = value && asShown(value, load.mass, root.units.mass);
  return { at: load.at, text: text?.includes("=") ? text : undefined };
}

const useText = ({ item }: Loading, use: Use) => written(saying(item, use.at) ?? use.at);

/** The statement of a loading that names a place there. */
function saying(item: Item, path: Span): Statement | undefined {
  return item.items.map(it => it.head).find(it => "path" in it && it.path === path);
}

function totalsOf({ mass, fs, bl, wl }: Balance): Totals {
  const totals = none();
  put(totals, mass, { fs: fs ?? undefined, bl: bl ?? undefined, wl: wl ?? undefined }, false);
  return totals;
}
