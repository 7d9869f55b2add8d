import type { Case } from "./case";

/** A nose-wheel aircraft by what its nose wheel carries; the wheels stand this far apart. */
const noseShare = (name: string, nose: number, total: number, base: number): Case => ({
  spec: `part all weighed ${total} lb at FS 128 in - ${nose} lb * ${base} in / ${total} lb
let share = (128 in - fs(${name})) / ${base} in
require share / 1% >= 0
require 8% <= share <= 15% "nose-wheel share"`,
  reads: { nose_pct: "requirement 0 left", in_band: "requirement 1 holds" },
});

/** In slug ft², about the axes of the one part there is. */
const moments = (fs: number, bl: number, wl: number) =>
  `part all weighed 1000 lb at FS 0, WL 0 inertia Ixx ${fs} slug ft^2, Iyy ${bl} slug ft^2, Izz ${wl} slug ft^2`;

const soundBody = (fs: number, bl: number, wl: number): Case => ({
  spec: moments(fs, bl, wl),
  reads: { valid: of => Number(of("parts Ixx") + of("parts Iyy") >= of("parts Izz")) },
  notFound: ["inertia-impossible"],
});

/** What the scales read under the nose or tail wheel and under the main wheels, each where it stands. */
const onScales = (wheel: number, at: number, total: number, mains: number): Case => ({
  spec: `part third_wheel weighed ${wheel} lb at FS ${at}
part main_wheels weighed ${total - wheel} lb at FS ${mains}`,
  reads: { cg_in: "empty in" },
});

/** Where the aircraft's CG is, on its wheels and off, and what moves it. */
export const stands: Readonly<Record<string, Case>> = {
  "LG-nose-share": { ...noseShare("LG_nose_share", 340, 2006, 78), found: ["requirement-failed"] },
  "LG-nose-share-2": {
    ...noseShare("LG_nose_share_2", 222.5, 1502.5, 100),
    notFound: ["requirement-failed"],
  },
  // printed to a thousandth of a degree: what it has above 15
  "LG-tipback": {
    spec: `part all weighed 1000 lb at FS 100, WL 42
let angle = atan((112 in - fs(LG_tipback)) / wl(LG_tipback))
require angle / 1 deg - 15 >= 0 "tip-back angle"`,
    reads: { angle_deg: of => 15 + of("requirement 0 left"), ok: "requirement 0 holds" },
    notFound: ["requirement-failed"],
  },
  "WBH-EWCG-a": onScales(340, 128 - 78, 2006, 128),
  "WBH-EWCG-c": onScales(67, 7.5 + 222, 1218, 7.5),
  "JAR-weigh": {
    spec: `part nose weighed 475 lb at FS 55
part right_main weighed 1046 lb at FS 121
part left_main weighed 1040 lb at FS 121`,
    reads: { total_weight: "empty lb", cg: "empty in" },
  },
  "AC43-10-10": {
    spec: `part empty_aircraft weighed 1169 lb moment 12391 lb in at FS 10.6
part oil weighed 17 lb at FS -49
fluid avgas 6.0 lb/gal
seat pilot at FS 16
tank fuel holds 40 gal of avgas at FS 22
envelope normal { takeoff 2100 lb; cg 1100 lb: FS 8.5 .. 21.9; cg 2100 lb: FS 8.5 .. 21.9 }
loading l under normal { pilot 170 lb; fuel 83 lb }`,
    reads: {
      total_weight: "l takeoff lb",
      total_moment: "l takeoff lb in",
      cg: "l takeoff in",
      satisfactory: "l inside",
    },
    notFound: ["cg-forward"],
  },
  "WBH-lever-shift": {
    spec: `let distance = 22 in * 500 lb / 200 lb
assembly after {
  part rest weighed 300 lb at FS 0
  assembly moved { part it weighed 200 lb at FS distance }
}
require fs(after) == 22 in "the CG moves as far as asked for"`,
    reads: { distance_in: "after.moved in" },
    notFound: ["requirement-failed"],
  },
  "WBH-ballast-perm": {
    spec: `let needed = 1876 lb * (33.0 in - 32.2 in) / (228 in - 33.0 in)
part all weighed 1876 lb at FS 32.2
ballast lead needed at FS 228
require fs(empty) >= 33.0 in "forward limit, empty"`,
    reads: { ballast_lb: of => of("parts lb") - 1876 },
    notFound: ["requirement-failed"],
  },
  "WBH-ballast-verify": {
    spec: `part all weighed 1876 lb at FS 32.2
ballast lead 7.696410256410258 lb at FS 228`,
    reads: { cg: "parts in" },
  },
  "B727-idx": {
    spec: `assembly fwd_pax { part it weighed 3060 lb at FS 582.0 }
assembly aft_pax { part it weighed 16150 lb at FS 1028.0 }
assembly fwd_hold { part it weighed 1500 lb moment 1500 * 680 lb in at FS }
assembly aft_hold { part it weighed 2500 lb moment 2915000 lb in at FS }`,
    reads: {
      fwd_pax_idx: of => of("fwd_pax lb in") / 1000,
      aft_pax_idx: of => of("aft_pax lb in") / 1000,
      fwd_hold_idx: of => of("fwd_hold lb in") / 1000,
      aft_hold_arm_in: "aft_hold in",
    },
  },
  "C172X-cg3": {
    spec: `part empty_aircraft weighed 1454 lb at FS 41, WL 36.5
part pilot weighed 190 lb at FS 36, BL -14, WL 24
part copilot weighed 140 lb at FS 36, BL 14, WL 24
part pax1 weighed 130 lb at FS 60, BL -14, WL 24
part pax2 weighed 106 lb at FS 60, BL 14, WL 24
part luggage weighed 120 lb at FS 95, WL 24
part wing_store weighed 80 lb at FS 41, BL 144, WL 36
part tank mirrored weighed 130 lb at FS 48, BL 112, WL 59.4`,
    reads: {
      total_lb: "parts lb",
      x_in: "parts in",
      y_in: "parts BL in",
      z_in: "parts WL in",
    },
  },
  "TRI-c172": soundBody(948, 1346, 1967),
  "TRI-L17": soundBody(1048, 3000, 3530),
  "TRI-c310": {
    spec: moments(8884, 1939, 11001),
    reads: { valid: of => Number(of("count inertia-impossible") === 0) },
    found: ["inertia-impossible"],
  },
  "MAC-trap": {
    spec: `let root = 250 mm
let taper = 130 mm / root
assembly tapered { part it weighed taper * 1 kg at FS 0 }
assembly chord { part it weighed 1 kg at FS 2 / 3 * root * (1 + taper + taper^2) / (1 + taper) }`,
    reads: { taper: "tapered kg", mac: of => of("chord m") * 1000 },
  },
  // the finding prints it too: 30 lb left, 23.08 % of its budget
  "MARGIN-def": {
    block: "budget 130 lb margin 25%",
    spec: "part all weighed 100 lb at FS 0",
    reads: {
      pct_of_estimate: of => (of("aircraft margin kg") / of("parts kg")) * 100,
      pct_of_limit: of =>
        (of("aircraft margin kg") / (of("aircraft margin kg") + of("parts kg"))) * 100,
    },
    found: ["margin-low"],
  },
};
