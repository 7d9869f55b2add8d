import type { Case } from "./case";

/** Each figure is the mass of an assembly of its name, after what it rests on. */
const masses = (figures: Readonly<Record<string, string>>, lets = "") =>
  [
    lets,
    ...Object.entries(figures).map(
      ([name, figure]) => `assembly ${name} { part it weighed ${figure} at FS 0 }`,
    ),
  ].join("\n");

/** A height or length is read as a station, in inches. */
const station = (figure: string) => `part it weighed 1 lb at FS ${figure}`;

const dropHeight = (loading: number) =>
  `max(9.2 in, min(18.7 in, 3.6 in * sqrt(${loading} lb/ft^2 / 1 lb/ft^2)))`;

const drop = (loading: number): Case => ({
  spec: station(dropHeight(loading)),
  reads: { h_in: "parts in" },
});

/** How far it sinks in a second. */
const descent = (loading: number): Case => ({
  spec: `let root = sqrt(${loading} lb/ft^2 / 1 lb/ft^2)
let velocity = max(7 ft/s, min(10 ft/s, 4.4 ft/s * sqrt(root)))
${station("velocity * 1 s")}`,
  reads: { V_fps: of => of("parts in") / 12 },
});

/** 0.25 up to 3,000 lb, 0.33 from 6,000 lb, straight between. */
const dragFactor = (weight: number): Case => ({
  spec: masses({
    k: `max(0.25, min(0.33, 0.25 + 0.08 * (${weight} lb - 3000 lb) / 3000 lb)) * 1 kg`,
  }),
  reads: { K: "k kg" },
});

const occupants = (seats: number, each: number): Case => {
  const names = Array.from({ length: seats }, (_, i) => `seat_${i + 1}`);
  return {
    spec: `part all weighed 1000 lb at FS 90
${names.map(name => `seat ${name} at FS 90`).join("\n")}
loading l { ${names.map(name => `${name} ${each} lb`).join("; ")} }`,
    reads: { occupants_lb: of => of("l takeoff lb") - of("empty lb") },
  };
};

/** What regulations and standards ask for, as requirements ask for it. */
export const rules: Readonly<Record<string, Case>> = {
  "FAR23-725-h-10": drop(10),
  "FAR23-725-h-5": drop(5),
  "FAR23-725-h-30": drop(30),
  "FAR23-725-h-27": drop(27),
  "FAR23-725-We": {
    spec: masses({ effective: "1000 lb * (12 in + (1 - 0.667) * 6 in) / (12 in + 6 in)" }),
    reads: { We_lb: "effective lb" },
  },
  "FAR23-725-We2": {
    spec: masses({ effective: "850 lb * (11.38 in + (1 - 0) * 5.2 in) / (11.38 in + 5.2 in)" }),
    reads: { We_lb: "effective lb" },
  },
  "FAR23-727": {
    spec: station(`1.44 * ${dropHeight(10)}`),
    reads: { h_reserve_in: "parts in" },
  },
  "FAR27-727": { spec: station("1.5 * 13 in"), reads: { h_reserve_in: "parts in" } },
  "FAR23-473-V-16": descent(16),
  "FAR23-473-V-5": descent(5),
  "FAR23-473-V-10": descent(10),
  "FAR23-consistency": {
    spec: ["4.4", "7", "10"]
      .map(
        (v, i) =>
          `assembly fall_${i} { part it weighed 1 lb at FS (${v} ft/s)^2 / (2 * 32.17405 ft/s^2) }`,
      )
      .join("\n"),
    reads: { coef_from_V: "fall_0 in", h_7fps_in: "fall_1 in", h_10fps_in: "fall_2 in" },
  },
  "FAR23-C-K-2300": dragFactor(2300),
  "FAR23-C-K-3750": dragFactor(3750),
  "FAR23-C-K-4500": dragFactor(4500),
  "FAR23-C-nose": {
    spec: masses(
      {
        rear: "vertical * a / (a + b)",
        front: "vertical * b / (a + b)",
        rear_drag: "drag * a / (a + b)",
        front_drag: "drag * b / (a + b)",
        tail_down: "vertical",
      },
      `let n = 2.67
let lift = 0.667
let a = 54.0 in
let b = 11.0 in
let weight = 2550 lb
let vertical = (n - lift) * weight
let drag = 0.25 * n * weight`,
    ),
    reads: {
      Vr_lb: "rear lb",
      Vf_lb: "front lb",
      Dr_lb: "rear_drag lb",
      Df_lb: "front_drag lb",
      Vr_tail_down_lb: "tail_down lb",
    },
  },
  "FAR23-25-occ": occupants(4, 170),
  "FAR23-25-occ-util": occupants(2, 190),
  "FAR23-21": {
    spec: `${masses({ most: "1.05 * 2300 lb", least: "0.90 * 2300 lb" })}
assembly allowed { part it weighed 1 lb at FS 7% * (47.3 in - 35.0 in) }`,
    reads: { cg_tol_in: "allowed in", w_hi: "most lb", w_lo: "least lb" },
  },
  "LSA-100hp": {
    spec: `let useful = 2 * 190 lb + 100 hp * 0.5 lb/hp
part all weighed 1320 lb - useful at FS 0
envelope normal { takeoff 1320 lb }
require takeoff(normal) - mass(empty) >= useful "minimum useful load"`,
    reads: { min_useful_lb: of => 1320 - of("empty lb"), max_empty_lb: "empty lb" },
    notFound: ["requirement-failed"],
  },
  "AC43-minfuel": {
    spec: masses({
      gallons: "165 hp * 1/12 gal/hp * 1 kg/gal",
      fuel: "165 hp * 1/12 gal/hp * 6.0 lb/gal",
    }),
    reads: { gal: "gallons kg", lb: "fuel lb", lb_printed: of => Math.round(of("fuel lb")) },
  },
  "NEGL-CG": {
    spec: `let threshold = 0.05% * 58.8 in
${station("threshold")}
require 0.03 in < threshold "negligible change of the CG"`,
    reads: { threshold_in: "parts in", negligible: "requirement 0 holds" },
    found: ["requirement-failed"],
  },
  ASCI310: {
    spec: masses(
      {
        limit: "takeoff_limit",
        bare: "takeoff_limit - fuel",
        payload: "min(120000 lb, takeoff_limit - fuel) - 90000 lb",
      },
      `let fuel = 25000 lb
let takeoff_limit = min(170000 lb, 160000 lb, 140000 lb + 15000 lb)`,
    ),
    reads: { takeoff_limit: "limit lb", zfw_from_takeoff: "bare lb", max_payload: "payload lb" },
  },
  "WBH-fueldump": {
    spec: masses(
      {
        to_lose: "too_much",
        burned: "before",
        remaining: "too_much - before",
        rate: "(2300 lb/min + engines) * 1 min",
        time: "(too_much - before) / (2300 lb/min + engines) / 1 min * 1 kg",
      },
      `let engines = 3 * 3170 lb/h
let too_much = 171000 lb - 142500 lb
let before = engines * 19 min`,
    ),
    reads: {
      to_lose_lb: "to_lose lb",
      burned_before_lb: "burned lb",
      remaining_lb: "remaining lb",
      rate_lb_per_min: "rate lb",
      dump_time_min: "time kg",
    },
  },
};
