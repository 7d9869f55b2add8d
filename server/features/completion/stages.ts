import type { StatementOf } from "../../../grammar/tree";
import { flightsOf } from "../../compute/flights";
import { emptyOf } from "../../compute/stages";
import type { Balance } from "../../compute/weight";
import type { Root } from "../../model/root";
import { show } from "../../quantity/show";
import { type Asked, arm, docAt } from "./members";
import type { Offer } from "./offer";

/**
 * The loadings, each as it takes off, and the empty aircraft.
 * @param every a requirement may hold for each of them
 */
export function loadingOffers({ project, root }: Asked, every: boolean): readonly Offer[] {
  const loadings = flightsOf(root).flatMap(({ loading, stages }, i): readonly Offer[] => {
    const { name } = loading.item.head as StatementOf<"loading">;
    if (name === undefined) return [];
    const takeoff = stages.find(it => it.kind === "takeoff");
    const doc = docAt(project, name);
    return [
      {
        ...{ label: name.text, kind: "loading", rank: 300 + i, title: loading.title ?? "loading" },
        ...(takeoff && { detail: weighs(takeoff.basic, root) }),
        ...(doc && { doc }),
      },
    ];
  });
  const empty = weighs(emptyOf(root).basic, root);
  return [
    ...loadings,
    { label: "empty", kind: "loading", rank: 400, detail: empty, title: "basic empty weight" },
    ...(every
      ? [{ label: "loading", kind: "loading", rank: 401, title: "every loading" } as const]
      : []),
  ];
}

/** The stages of a loading that the path begins with. */
export function stageOffers({ root, base }: Asked): readonly Offer[] {
  if (base.length !== 1) return [];
  const flight = flightsOf(root).find(it => it.loading.name === base[0]);
  if (flight === undefined && base[0] !== "loading") return [];
  return stages.map((label, rank): Offer => {
    const stage = flight?.stages.find(it => it.kind === label);
    const detail = stage && weighs(stage.basic, root);
    return { label, kind: "stage", rank, ...(detail && { detail }), doc: { word: label } };
  });
}
const stages = ["ramp", "takeoff", "landing", "zero_fuel"] as const;

const weighs = ({ mass, fs }: Balance, { units }: Root) =>
  `${show(mass, units.mass)}${arm(fs, units)}`;
