import { between, type Case } from "./case";

const handbook = `envelope normal {
  takeoff 2950 lb
  cg 1800 lb: FS 77.0 .. 85.7
  cg 2475 lb: FS 77.0 ..
  cg 2525 lb: FS 77.5 .. 85.7
  cg 2950 lb: FS 82.1 .. 84.7
}
bay load at FS 20 .. 120`;

/** The limits of a weight in moment/100, printed as whole units: the tolerances are the table's. */
function row(weight: number, least: number, most: number): Case {
  const at = (name: string, index: number) =>
    `loading ${name} under normal { load ${weight} lb at FS ${index * 100} lb in / ${weight} lb }`;
  return {
    spec: [
      handbook,
      at("fwd_in", least + 1.4),
      at("fwd_out", least - 1.4),
      at("aft_in", most - 0.55),
      at("aft_out", most + 0.55),
    ].join("\n"),
    reads: {
      min_moment_index100: between("index", "fwd_in", "fwd_out"),
      max_moment_index100: between("index", "aft_in", "aft_out"),
    },
  };
}

/** The limits of a weight between two published points, to 0.005 in. */
function certified(weight: number, fwd: number, aft: number, rows: string): Case {
  const at = (name: string, arm: number) =>
    `loading ${name} under normal { load ${weight} lb at FS ${arm} }`;
  return {
    spec: [
      `envelope normal {\n${rows}\n}\nbay load at FS 20 .. 120`,
      at("fwd_in", fwd + 0.005),
      at("fwd_out", fwd - 0.005),
      at("aft_in", aft - 0.005),
      at("aft_out", aft + 0.005),
    ].join("\n"),
    reads: {
      fwd_limit_in: between("in", "fwd_in", "fwd_out"),
      aft_limit_in: between("in", "aft_in", "aft_out"),
    },
  };
}

export const limits: Readonly<Record<string, Case>> = {
  "PHAK-10-9a": {
    spec: `${handbook}
loading sample under normal { load 2799 lb at FS 227800 lb in / 2799 lb }
loading fwd_in under normal { load 2799 lb at FS 80.475 }
loading fwd_out under normal { load 2799 lb at FS 80.465 }
loading aft_in under normal { load 2799 lb at FS 85.055 }
loading aft_out under normal { load 2799 lb at FS 85.065 }`,
    reads: {
      cg_in: "sample takeoff in",
      inside: "sample inside",
      fwd_limit_in: between("in", "fwd_in", "fwd_out"),
      aft_limit_in: between("in", "aft_in", "aft_out"),
    },
  },
  "PHAK-10-9-env-2100": row(2100, 1617, 1800),
  "PHAK-10-9-env-2350": row(2350, 1810, 2014),
  "PHAK-10-9-env-2400": row(2400, 1848, 2057),
  "PHAK-10-9-env-2550": row(2550, 1984, 2184),
  "PHAK-10-9-env-2650": row(2650, 2090, 2263),
  "PHAK-10-9-env-2840": row(2840, 2298, 2413),
  "PHAK-10-9-env-2880": row(2880, 2343, 2444),
  "PHAK-10-9-env-2950": row(2950, 2422, 2499),
  "TC-172N": certified(
    2100,
    36.5,
    47.3,
    "cg 1500 lb: FS 35.0 .. 47.3; cg 1950 lb: FS 35.0 ..; cg 2300 lb: FS 38.5 .. 47.3",
  ),
  "TC-PA28-181": certified(
    2300,
    85.3,
    93,
    "cg 1500 lb: FS 82.0 .. 93.0; cg 2050 lb: FS 82.0 ..; cg 2550 lb: FS 88.6 .. 93.0",
  ),
  "TC-172S-util": certified(
    2075,
    36.25,
    40.5,
    "cg 1500 lb: FS 35.0 .. 40.5; cg 1950 lb: FS 35.0 ..; cg 2200 lb: FS 37.5 .. 40.5",
  ),
  "AC43-10-13": {
    spec: `part empty_aircraft weighed 1169 lb moment 12391 lb in at FS 10.6
part oil weighed 17 lb at FS -49
fluid avgas 6 lb/gal
seat pilot at FS 16
seat front at FS 16
seat rear at FS 48
tank fuel holds 40 gal of avgas at FS 22
envelope normal { takeoff 2100 lb; cg 1100 lb: FS 8.5 .. 21.9; cg 2100 lb: FS 8.5 .. 21.9 }
loading l under normal { pilot 170 lb; front 170 lb; rear 340 lb; fuel 39 gal }`,
    reads: {
      total_weight: "l takeoff lb",
      total_moment: "l takeoff lb in",
      cg: "l takeoff in",
    },
    notFound: ["above-weight-limit", "cg-forward", "cg-aft"],
  },
  // weights within a billionth are the same weight: a millionth of a gallon more is over
  "AC43-fuel-limit": {
    spec: `part fixed weighed 1866 lb at FS 16
fluid avgas 6.0 lb/gal
tank fuel holds 50 gal of avgas at FS 22
envelope normal { takeoff 2100 lb }
loading fits under normal { fuel 39 gal }
loading over under normal { fuel 39.000001 gal }`,
    reads: {
      max_fuel_gal: of =>
        of("fits inside") > of("over inside") ? (of("fits takeoff lb") - 1866) / 6 : Number.NaN,
    },
    found: ["above-weight-limit"],
  },
  // 2,100 lb and what is too much aboard; with this much drained it fits, with a little less it does not
  "FAAT-2": {
    spec: `part fixed weighed 1800 lb at FS 16
fluid avgas 6.0 lb/gal
tank fuel holds 80 gal of avgas at FS 22
envelope normal { takeoff 2100 lb }
loading a_in under normal { fuel (300 lb + 110 lb) / 6 lb/gal - 18.335 gal }
loading a_out under normal { fuel (300 lb + 110 lb) / 6 lb/gal - 18.325 gal }
loading b_in under normal { fuel (300 lb + 90 lb) / 6 lb/gal - 15.005 gal }
loading b_out under normal { fuel (300 lb + 90 lb) / 6 lb/gal - 14.995 gal }`,
    reads: {
      drain_110_gal: of => drained(of, "a", 110),
      drain_90_gal: of => drained(of, "b", 90),
    },
  },
  "AMT-MAC-20": {
    block: "mac at FS 300 length 100",
    spec: "part it weighed 1 lb at FS 320\nrequire mac(AMT_MAC_20) / 1% <= 100",
    reads: { pct_mac: "requirement 0 left" },
  },
  "AMT-MAC-25": {
    block: "mac at FS 900 length 180",
    spec: "part it weighed 1 lb at FS 945\nrequire mac(AMT_MAC_25) / 1% <= 100",
    reads: { pct_mac: "requirement 0 left" },
  },
  "WBH-MAC": {
    block: "mac at FS 144 length 62",
    spec: "part it weighed 1 lb at FS 161\nrequire mac(WBH_MAC) / 1% <= 100",
    reads: { pct_mac: "requirement 0 left" },
  },
  "WBH-MAC-inv": {
    block: "mac at FS 144 length 62",
    spec: `envelope normal { cg 1 lb: 27.4 %MAC .. 40 %MAC; cg 200 lb: 27.4 %MAC .. 40 %MAC }
bay load at FS 100 .. 200
loading fwd_in under normal { load 100 lb at FS 161.05 }
loading fwd_out under normal { load 100 lb at FS 160.95 }`,
    reads: { cg_in: between("in", "fwd_in", "fwd_out") },
  },
};

/** Gallons out of a loading that was too heavy, half-way between what suffices and what does not. */
function drained(of: (name: string) => number, name: string, over: number): number {
  if (of(`${name}_in inside`) !== 1 || of(`${name}_out inside`) !== 0) return Number.NaN;
  const mean = (of(`${name}_in takeoff lb`) + of(`${name}_out takeoff lb`)) / 2;
  return (2100 + over - mean) / 6;
}
