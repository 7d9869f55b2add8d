import type { Case } from "./case";

/** A litre of a fluid as declared, aboard because the tank is an operating one. */
const litre = (density: string): Case => ({
  spec: `fluid it ${density}\ntank t holds 1 L of it operating at FS 0`,
  reads: { kg_per_l: "empty kg" },
});

/** Each figure is the mass of an assembly of its name. */
const masses = (figures: Readonly<Record<string, string>>) =>
  Object.entries(figures)
    .map(([name, figure]) => `assembly ${name} { part it weighed ${figure} at FS 0 }`)
    .join("\n");

const grams = (rows: readonly (readonly [string, number, number?])[], basis: string) =>
  rows.map(([name, g, n = 1]) => `  part ${name} qty ${n} ${basis} ${g} g at FS 0`).join("\n");

export const amounts: Readonly<Record<string, Case>> = {
  "PHAK-dens-gasoline": litre("6.0 lb/gal"),
  "PHAK-dens-jet_a": litre("6.8 lb/gal"),
  "PHAK-dens-oil": litre("7.5 lb/gal"),
  "PHAK-dens-water": litre("8.35 lb/gal"),
  "AMT-jet-67": litre("6.7 lb/gal"),
  "PHAK-litres": {
    spec: masses(
      Object.fromEntries(
        [62, 60, 50, 42, 30, 20, 10].map(gal => [`l${gal}`, `${gal} gal * 1 kg/L`]),
      ),
    ),
    reads: Object.fromEntries([62, 60, 50, 42, 30, 20, 10].map(gal => [`l${gal}`, `l${gal} kg`])),
  },
  "AC43-oil": {
    spec: masses({ oil: "9 qt * 7.5 lb/gal" }),
    reads: { lb: "oil lb", lb_printed: of => Math.round(of("oil lb")) },
  },
  "C172S-unusable": {
    spec: "fluid avgas 6.0 lb/gal\ntank fuel holds 56 gal of avgas unusable 3 gal at FS 46",
    reads: { weight_lb: "empty lb", moment_1000: of => of("empty lb in") / 1000 },
  },
  "DA40-oil": {
    spec: masses({ american: "2 qt * 1.86 lb/qt", metric: "1.9 L * 0.89 kg/L" }),
    reads: { lb: "american lb", kg: "metric kg" },
  },
  "LSA-units": {
    spec: masses({ kg_1320: "1320 lb", kg_1430: "1430 lb", kg_660: "660 lb" }),
    reads: { kg_1320: "kg_1320 kg", kg_1430: "kg_1430 kg", kg_660: "kg_660 kg" },
  },
  "ZLT-limits": {
    spec: masses({ a: "16865 lb", b: "1102 lb", c: "882 lb", d: "441 lb" }),
    reads: { a: "a kg", b: "b kg", c: "c kg", d: "d kg" },
  },
  "U-exact": {
    spec: `${masses({
      pound: "1 lb",
      gallon: "1 gal * 1 kg/L",
      imperial: "1 impgal * 1 kg/L",
      pound_force: "1 lbf / (1 m/s^2)",
      slug_mass: "1 slug",
    })}
assembly inch { part it weighed 1 kg at FS 1 in }`,
    reads: {
      lb_kg: "pound kg",
      in_m: "inch m",
      usgal_l: "gallon kg",
      impgal_l: "imperial kg",
      lbf_n: "pound_force kg",
      slug_kg: "slug_mass kg",
    },
  },
  "U-impgal": {
    spec: masses({ avgas: "1 impgal * 6 lb/gal", ratio: "1 impgal / 1 gal * 1 kg" }),
    reads: { lb_per_impgal: "avgas lb", impgal_per_usgal_inv: "ratio kg" },
  },
  "U-oz": {
    spec: masses({ it: "12.5 oz" }),
    reads: { g: of => of("it kg") * 1000 },
  },
  "U-arm": {
    spec: "part it weighed 120 kg at FS 1 ft 6 in",
    reads: { moment_kgm: "parts kg m", moment_lbin: "parts lb in" },
  },
  "S23-tare": {
    spec: `assembly tare weighed 27845 lb { part radio weighed 317 lb at FS 0 }
require mass(tare) - mass(tare.radio) >= 0 lb`,
    reads: { empty_lb: "requirement 0 left" },
    found: ["unlisted"],
  },
  "SSZ-envelope": {
    spec: [3, 4]
      .map(
        planes => `assembly with_${planes} {
  assembly bare {
    part fabric weighed 1143 lb at FS 0
    part ballonets weighed 263 lb at FS 0
    part fittings weighed 99 lb at FS 0
    part rigging weighed 112 lb at FS 0
  }
  part plane qty ${planes} weighed 294 lb / 3 at FS 0
}`,
      )
      .join("\n"),
    reads: {
      total_lb: "with_3 lb",
      total_4_planes_lb: "with_4 lb",
      without_planes_kg: "with_3.bare kg",
    },
  },
  "CUBICS-1": {
    block: "growth estimated 20%",
    spec: `assembly all budget 4800 g {
${[65.35, 85, 90.2, 106, 130, 170, 177, 230, 281, 300, 340, 575, 700, 779].map((g, i) => `  part p${i} estimated ${g} g at FS 0`).join("\n")}
}`,
    reads: {
      total_g: of => of("all kg") * 1000,
      with_margin_g: of => of("all predicted kg") * 1000,
      headroom_g: of => of("all margin kg") * 1000,
      within: of => Number(of("all margin kg") >= 0),
    },
    found: ["budget-at-risk"],
    notFound: ["over-budget"],
  },
  "PJ3-total": {
    block: "budget 700 g",
    spec: `${grams(
      [
        ["printed_airframe", 377],
        ["motor", 63],
        ["esc", 40],
        ["servos", 60],
        ["receiver", 15],
        ["propeller", 11],
        ["landing_gear", 13],
        ["battery", 115],
      ],
      "weighed",
    )}
${grams(
  [
    ["wheels", 20],
    ["pushrods", 15],
    ["adhesive", 12],
  ],
  "estimated",
)}
require (mass(PJ3_total) / 500 g - 1) / 1% >= 0
require mass(PJ3_total) / (18.15 dm^2) / (100 g/m^2) >= 0`,
    reads: {
      total_g: of => of("parts kg") * 1000,
      increase_pct: "requirement 0 left",
      wing_loading_g_dm2: "requirement 1 left",
    },
    found: ["over-budget"],
  },
  "DAWN-rollup": {
    block: "growth calculated 20%",
    spec: Object.entries({
      power: [153.460348, 19.568985, 5.7, 0.314, 0.868],
      structural: [
        20.692105, 2.067, 0.728, 0.391455, 0.62338, 0.613021, 1.830389, 46.228432, 8.89582,
      ],
      propulsion: [3.48255, 3.984506, 0.194201],
      rest: [3.179, 30.0],
    })
      .map(
        ([group, leaves]) => `assembly ${group} {
${leaves.map((kg, i) => `  part p${i} calculated ${kg} kg at FS 0`).join("\n")}
}`,
      )
      .join("\n"),
    reads: {
      structural: "structural kg",
      power: "power kg",
      propulsion: "propulsion kg",
      total: "parts predicted kg",
    },
  },
  "ODRONE-1": {
    spec: `assembly electronics {
${grams(
  [
    ["battery", 172],
    ["esc", 32],
    ["receiver", 15],
    ["motor", 41],
    ["servo", 12, 4],
    ["extender", 10, 2],
  ],
  "weighed",
)}
  part straps at FS 0
}
assembly aerofoils {
${grams(
  [
    ["wings", 220],
    ["rod", 11, 2],
    ["stake", 2, 2],
    ["fairing", 3, 2],
    ["tailfin", 27],
  ],
  "weighed",
)}
}
assembly pod {
${grams(
  [
    ["mount", 11],
    ["electronics_payload", 56],
    ["screws", 3, 8],
  ],
  "weighed",
)}
  part servo_holder at FS 0
  part front_cap at FS 0
  part end_cap at FS 0
  part body_fairing at FS 0
}`,
    reads: {
      electronics: of => of("electronics kg") * 1000,
      aerofoils: of => of("aerofoils kg") * 1000,
      pod: of => of("pod kg") * 1000,
      total: of => of("parts kg") * 1000,
      unknown_parts: "count mass-missing",
    },
  },
  "WEB-table": {
    spec: Object.entries({
      structure: [180, 5],
      eps: [60, 8],
      adcs: [45, 10],
      ttc: [32, 7],
      thermal: [20, 5],
      payload: [95, 10],
    })
      .map(
        ([name, [kg, growth]]) =>
          `assembly ${name} growth ${growth}% { part it estimated ${kg} kg at FS 0 }`,
      )
      .join("\n"),
    reads: { cbe: "parts kg", growth: "aircraft growth kg", allocated: "parts predicted kg" },
  },
  "MGA-1": {
    spec: `assembly s growth calculated 15% { part it calculated 100 kg at FS 0 }
assembly w growth estimated 50% { part it estimated 20 kg at FS 0 }
assembly e1 growth quoted 10% { part it quoted 8 kg at FS 0 }
assembly b growth 20% { part it weighed 50 kg at FS 0 }`,
    reads: { basic: "parts kg", predicted: "parts predicted kg" },
  },
  "MGA-ESA": {
    block: "growth estimated 20%, calculated 10%, quoted 5%",
    spec: `part a quoted 10 kg at FS 0
part c calculated 10 kg at FS 0
part d estimated 10 kg at FS 0`,
    reads: { with_margin: "parts predicted kg" },
  },
  "MULTI-mass": {
    spec: `part frame weighed 1.48 kg at FS 0
part motor qty 4 weighed 0.054 kg at FS 0
part prop qty 4 weighed 0.011 kg at FS 0`,
    reads: { total_kg: "parts kg" },
  },
};
