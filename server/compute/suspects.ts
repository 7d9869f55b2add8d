import { memo } from "../memo";
import type { Envelope } from "../model/envelope";
import { type Suspect, stateOf } from "./counterexample";
import type { Breach } from "./limits";
import { type Permitted, permittedOf } from "./permitted";
import { type Reachable, reachable } from "./reachable";
import type { Shape } from "./stages";
import { leavingsOf, type Sums } from "./stretch";
import type { Vertex } from "./support";

/** Where the hulls of one shape leave the envelope; undefined where they are not known or empty. */
export function suspectsIn(
  shape: Shape,
  envelope: Envelope,
  hullOf: HullOf,
): { readonly suspects: readonly Suspect[]; readonly unsure: boolean } | undefined {
  const { rows, station, lateral } = viewsOf(envelope);
  const fs = permittedOf(shape, envelope, "fs");
  const across = envelope.lateral.length + envelope.lateralByStation.length > 0;
  const bl = across ? permittedOf(shape, envelope, "bl") : undefined;
  if (fs === undefined || (across && bl === undefined)) return undefined;
  const long = hullOf(fs, "fs");
  if (long.vertices.length === 0) return undefined;
  const counts = (code: Breach["code"]) => shape.configuration === null || code.startsWith("cg-");
  const suspects = leaving(long, "fs", rows)
    .filter(it => counts(it.code))
    .map((it): Suspect => ({ ...it, shape, permitted: fs, axis: "fs", view: rows }));
  if (bl === undefined) return { suspects, unsure: false };

  const wide = hullOf(bl, "bl");
  for (const it of leaving(wide, "bl", lateral))
    if (it.code === "cg-lateral")
      suspects.push({ ...it, shape, permitted: bl, axis: "bl", view: lateral });
  if (!leavesByStation(long, wide, station)) return { suspects, unsure: false };
  // which CG goes with which BL no polygon says: its corners are tried, and nothing is proven
  for (const [hull, permitted, axis] of [
    [long, fs, "fs"],
    [wide, bl, "bl"],
  ] as const)
    for (const at of hull.vertices) {
      const corner = { code: "cg-lateral", shape, permitted, axis, view: undefined, at } as const;
      const state = stateOf(corner, envelope);
      if (state) suspects.push({ ...corner, by: state.breach.by });
    }
  return { suspects, unsure: true };
}

/** Each edge's worst places, and its corners. */
function leaving({ vertices }: Reachable, axis: "fs" | "bl", view: Envelope): readonly Leaving[] {
  const here = (at: Vertex): readonly Leaving[] =>
    leavingsOf(sums(at, axis), sums(at, axis), view, "takeoff").map(({ code, breach }) => ({
      ...{ code, by: breach.by, at },
    }));
  const steps = stepsIn(view);
  const found = vertices.flatMap((a, i) => {
    const b = vertices[(i + 1) % vertices.length]!;
    const left = leavingsOf(sums(a, axis), sums(b, axis), view, "takeoff");
    return left.flatMap(({ code, worst, breach }): readonly Leaving[] => {
      const at = between(a, b, worst);
      if (!steps) return [{ code, by: breach.by, at }];
      // on a step the wider limit holds, and the narrower one just beside it
      const beside = [worst - 1e-6, worst + 1e-6].filter(t => t > 0 && t < 1);
      return [{ code, by: 0, at }, ...here(at), ...beside.flatMap(t => here(between(a, b, t)))];
    });
  });
  // an edge may touch the rows with nothing but its end
  return [...found, ...vertices.flatMap(here)];
}

type Leaving = Pick<Suspect, "code" | "by" | "at">;

const stepsIn = ({ rows, lateral }: Envelope) =>
  [rows, lateral].some(it =>
    it.some((row, i) => row.key !== undefined && row.key === it[i - 1]?.key),
  );

const sums = ({ mass, moment }: Vertex, axis: "fs" | "bl"): Sums => ({
  mass,
  fsMoment: axis === "fs" ? moment : 0,
  fsMass: axis === "fs" ? mass : 0,
  blMoment: axis === "bl" ? moment : 0,
  blMass: axis === "bl" ? mass : 0,
});

function between(a: Vertex, b: Vertex, t: number): Vertex {
  if (t === 0 || t === 1) return t === 0 ? a : b;
  const mix = (x: number, y: number) => x + t * (y - x);
  return {
    mass: mix(a.mass, b.mass),
    moment: mix(a.moment, b.moment),
    amounts: a.amounts.map((it, i) => mix(it, b.amounts[i]!)),
    moments: a.moments.map((it, i) => mix(it, b.moments[i]!)),
  };
}

/** Whether any BL of the one hull with any FS of the other is outside the lateral rows by station. */
function leavesByStation(long: Reachable, wide: Reachable, view: Envelope): boolean {
  if (view.lateralByStation.length === 0) return false;
  const ends = (hull: Reachable) => {
    const cgs = hull.vertices.map(it => it.moment / it.mass);
    return [Math.min(...cgs), Math.max(...cgs)] as const;
  };
  const [forward, aft] = ends(long);
  const at = (fs: number, bl: number) => ({
    ...{ mass: 1, fsMoment: fs, fsMass: 1, blMoment: bl, blMass: 1 },
  });
  return ends(wide).some(bl =>
    leavingsOf(at(forward, bl), at(aft, bl), view, "takeoff").some(it => it.code === "cg-lateral"),
  );
}

/** An envelope's limits one kind at a time. */
const viewsOf = memo((envelope: Envelope) => ({
  rows: { ...envelope, lateral: [], lateralByStation: [] },
  lateral: { ...envelope, rows: [], lateralByStation: [] },
  station: { ...envelope, rows: [], lateral: [] },
}));

export type HullOf = (permitted: Permitted, axis: "fs" | "bl") => Reachable;

/** What swings no load has the same hull as before, with its base's moment. */
export function hulls(): HullOf {
  const first = new Map<string, { permitted: Permitted; hull: Reachable }>();
  return (permitted, axis) => {
    const known = first.get(axis);
    if (known && sameHolders(known.permitted, permitted)) {
      const change = permitted.loadings.base.moment - known.permitted.loadings.base.moment;
      const vertices = known.hull.vertices.map(it => ({ ...it, moment: it.moment + change }));
      return { ...known.hull, vertices };
    }
    const hull = reachable(permitted.loadings);
    if (!known) first.set(axis, { permitted, hull });
    return hull;
  };
}

function sameHolders(a: Permitted, b: Permitted): boolean {
  if (a.loadings.base.mass !== b.loadings.base.mass) return false;
  return a.held.every((it, i) => {
    const other = b.held[i]!.holder;
    return (
      it.holder.lower.every((corner, k) => corner.moment === other.lower[k]!.moment) &&
      it.holder.upper.every((corner, k) => corner.moment === other.upper[k]!.moment)
    );
  });
}
