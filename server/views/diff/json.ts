import type { Span } from "../../../grammar/tree";
import type { Balance } from "../../compute/weight";
import type { RootDifference } from "./difference";
import { pathOf } from "./parts";
import type { Nearest, Room } from "./rooms";
import type { Sum } from "./sums";
import type { Thing } from "./things";
import type { Yardstick } from "./yardstick";

/** Where a span stands: in the head, or in the base of what is gone. */
export type PlaceOf = (span: Span, side: "base" | "head") => object;

/** One aircraft's difference as it leaves the program: plain JSON, every key says its unit, null is unknown or not there. */
export function differenceIn(it: RootDifference, place: PlaceOf): object {
  return {
    name: it.name,
    airframe: it.airframe ?? null,
    state: it.base === undefined ? "new" : it.head === undefined ? "gone" : "kept",
    yardstick: it.yardstick.map(one => markIn(one, place)),
    empty: { base: sumIn(it.empty.base), head: sumIn(it.empty.head) },
    assemblies: it.assemblies.map(({ path, basePath, base, head, causes }) => ({
      path,
      base_path: basePath ?? null,
      base: sumIn(base),
      head: sumIn(head),
      difference_kg: (head?.basic.mass ?? 0) - (base?.basic.mass ?? 0),
      causes_kg: causes,
    })),
    parts: it.parts.changes.map(change => ({
      path: pathOf(change),
      base_path: change.base?.path ?? null,
      kind: (change.head ?? change.base)!.kind,
      causes: change.causes,
      base: thingIn(change.base),
      head: thingIn(change.head),
      difference_kg: change.difference,
      ...(change.head ? place(change.head.at, "head") : place(change.base!.at, "base")),
    })),
    loadings: it.loadings.map(({ base, head }) => ({
      name: (head ?? base)!.loading,
      envelope: (head ?? base)!.envelope,
      base: roomIn(base),
      head: roomIn(head),
    })),
  };
}

export function markIn({ base, head, effect, hides }: Yardstick, place: PlaceOf): object {
  const { kind, what, path } = (head ?? base)!;
  return {
    ...{ effect, kind, what },
    path: path ?? null,
    base: base?.shown ?? null,
    head: head?.shown ?? null,
    hides: hides ?? null,
    ...(head ? place(head.at, "head") : place(base!.at, "base")),
  };
}

const centre = ({ fs, bl, wl }: Balance) => [fs, bl, wl];

function sumIn(sum: Sum | undefined) {
  if (sum === undefined) return null;
  const { basic, predicted, budget } = sum;
  return {
    basic: { mass_kg: basic.mass, cg_m: centre(basic), complete: basic.complete },
    predicted: { mass_kg: predicted.mass, cg_m: centre(predicted), complete: predicted.complete },
    budget_kg: budget ?? null,
    of_budget: budget ? basic.mass / budget : null,
  };
}

function thingIn(it: Thing | undefined) {
  if (it === undefined) return null;
  const { fs, bl, wl } = it.place;
  return {
    mass_kg: it.mass ?? null,
    basis: it.basis ?? null,
    pieces: it.pieces,
    cg_m: [fs ?? null, bl ?? null, wl ?? null],
  };
}

function roomIn(room: Room | undefined) {
  if (room === undefined) return null;
  const both = ({ cg, weight }: { cg: Nearest | undefined; weight: Nearest | undefined }) => ({
    cg: cg ? { room_m: cg.by, limit: cg.what, stage: cg.stage } : null,
    weight: weight ? { room_kg: weight.by, limit: weight.what, stage: weight.stage } : null,
  });
  return { ...both(room), predicted: both(room.predicted) };
}
