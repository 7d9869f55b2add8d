import fc from "fast-check";
import { expect, test } from "vitest";
import { loadingText } from "../../server/checks/all-loadings";
import { allLoadingsOf, extremesOf } from "../../server/compute/all-loadings";
import { loaded } from "../../server/compute/contents";
import { flightsOf } from "../../server/compute/flights";
import { breachesOf } from "../../server/compute/limits";
import { heldIn, loadLimitsOf } from "../../server/compute/load-limits";
import { shapesOf } from "../../server/compute/shapes";
import { fuelsOf, type Shape, stagesOf } from "../../server/compute/stages";
import { judge } from "../../server/judge";
import type { Envelope } from "../../server/model/envelope";
import { fullOf, type Load, unusableOf } from "../../server/model/loading";
import type { Root } from "../../server/model/root";
import type { Station } from "../../server/model/station";
import { emptyProject, withText } from "../../server/project";
import { exceeds } from "../../server/quantity/compare";
import { specs } from "../compute/specs";

const judged = (text: string) => judge(withText(emptyProject(["/"]), "/kite.poise", text));

/** A number from 0 to 1 at each call, its ends often. */
type Draw = () => number;

/** Every place at something it may hold; undefined where that breaks a limit or a weight. */
function permitted(root: Root, envelope: Envelope, draw: Draw) {
  const fuels = fuelsOf(flightsOf(root).map(it => it.loading));
  const between = (low: number, high: number) => low + draw() * (high - low);
  const loads = root.aircraft.stations.flatMap((station): Omit<Load, "at">[] => {
    const [low, high] = rangeOf(station, root);
    if (station.operating && !fuels.has(station.fluid!.text)) return [];
    const ends = station.ends;
    const [a, b] = [ends[Math.floor(draw() * (ends.length - 1))]!, ends.at(-1)!];
    const share = draw();
    const mix = (key: "fs" | "bl" | "wl") => a[key]! + share * (b[key]! - a[key]!);
    const place =
      station.kind === "tank" ? undefined : { fs: mix("fs"), bl: mix("bl"), wl: mix("wl") };
    return [{ station, side: undefined, mass: between(low, high), place }];
  });
  if (loads.length === 0) return undefined;
  const state = loaded(loads, root);
  const { limits } = loadLimitsOf(root);
  if (limits.some(it => exceeds(heldIn(state, it), it.most))) return undefined;
  const at = (shape: Shape, kind: string) =>
    stagesOf({ loads, uses: [] }, shape, fuels).find(it => it.kind === kind)!.basic;
  const drawn = shapesOf(root)[0]!;
  const { takeoff, ramp, zero_fuel: zeroFuel } = envelope;
  const mass = at(drawn, "takeoff").mass;
  if (takeoff && exceeds(mass, takeoff.mass)) return undefined;
  if (ramp && exceeds(mass, ramp.mass)) return undefined;
  if (zeroFuel && exceeds(at(drawn, "zero_fuel").mass, zeroFuel.mass)) return undefined;
  return (shape: Shape) => at(shape, "takeoff");
}

function rangeOf(station: Station, root: Root): readonly [number, number] {
  return station.kind === "tank"
    ? [unusableOf(station, root)!, fullOf(station, root)!]
    : [station.range![0].value, station.range![1].value];
}

/** Park and Miller's minimal standard generator; two draws in three are an end. */
function drawsFrom(seed: number): Draw {
  let state = seed;
  const next = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  return () => {
    const end = next();
    return end < 1 / 3 ? 0 : end < 2 / 3 ? 1 : next();
  };
}

/** The hulls are what can be reached, no more: the worst of them is the worst of all. */
const isPlain = (text: string) =>
  !["filled", "unusable", "lateral FS", ".RH"].some(it => text.includes(it));

const notPermitted = new Set(["syntax", "unknown-name", "out-of-range", "limit-exceeded"]);

test("no loading is outside where all are said inside, and every counterexample is outside", () => {
  const seen = new Map<string, number>();
  const count = (what: string) => seen.set(what, (seen.get(what) ?? 0) + 1);
  fc.assert(
    fc.property(specs, fc.integer({ min: 1, max: 2147483646 }), (text, random) => {
      const draw = drawsFrom(random);
      const before = judged(text);
      const { root } = before.roots[0]!;
      const [result] = allLoadingsOf(root);
      const { envelope, verdict, found } = result!;
      count(String(verdict));
      const shapes = shapesOf(root);
      const extremes = extremesOf(shapes[0]!, envelope, "basic");
      for (let i = 0; i < 30; i++) {
        const loading = permitted(root, envelope, draw);
        if (loading === undefined) continue;
        count("loadings");
        expect(verdict).toBeDefined();
        if (verdict === "inside")
          for (const shape of shapes)
            expect(breachesOf(loading(shape), "takeoff", envelope)).toEqual([]);
        const { fs } = loading(shapes[0]!);
        expect(fs).toBeGreaterThan(extremes!.forward - 1e-9);
        expect(fs).toBeLessThan(extremes!.aft + 1e-9);
        if (verdict === "not-excluded" || !isPlain(text)) continue;
        for (const shape of shapes)
          for (const { code, by } of breachesOf(loading(shape), "takeoff", envelope)) {
            if (shape.configuration && !code.startsWith("cg-")) continue;
            const worst = found.find(it => it.worst.breach.code === code)?.worst.breach.by ?? 0;
            // beside a step the narrower limit is tried a little away from it
            if (by > worst + 1e-4) expect({ code, by }).toEqual({ code, by: worst });
          }
      }
      for (const it of found) {
        count(it.worst.breach.code);
        if (it.shape.configuration) count("swung");
        const spec = text + loadingText(it, envelope);
        const name = spec.match(/loading (normal_\w+)/)![1]!;
        const told = judged(spec).findings;
        const about = told.filter(({ message }) => message.startsWith(name));
        expect(about.map(({ code }) => code)).toContain(it.state.breach.code);
        // it breaks nothing else that would make it a loading nobody may fly
        const others = (findings: typeof told) =>
          findings.filter(({ code }) => notPermitted.has(code)).length;
        expect(others(told)).toBe(others(before.findings));
        expect(it.worst.breach.by).toBeGreaterThanOrEqual(it.state.breach.by * (1 - 1e-9));
      }
    }),
    { numRuns: 10_000, seed: 20261125 },
  );
  // every verdict and every way out was met
  const all = ["inside", "not-excluded", "undefined", "swung", "cg-forward", "cg-aft"];
  for (const it of [...all, "cg-lateral", "below-weight-limit", "above-weight-limit"])
    expect([it, seen.get(it) ?? 0]).not.toEqual([it, 0]);
  expect(seen.get("loadings")).toBeGreaterThan(10_000);
}, 400_000);
