/** A printed example as a spec, and what is printed: [figure, tolerance]. lb, in, lb in where nothing else is said. */
export interface Case {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  /** What the aircraft says of itself beside its units. */
  readonly block?: string;
  readonly spec: string;
  readonly wants: Readonly<Record<string, readonly [number | boolean, number]>>;
}

const PHAK = "FAA-H-8083-25C, chapter 10";
const AC43 = "FAA AC 43.13-1B, chapter 10";
const WBH = "FAA-H-8083-1, from memory";

const limits109 = `envelope normal {
  takeoff 2950 lb
  cg 1800 lb: FS 77.0 .. 85.7
  cg 2475 lb: FS 77.0 ..
  cg 2525 lb: FS 77.5 .. 85.7
  cg 2950 lb: FS 82.1 .. 84.7
}
loading l under normal { }
`;
/** A row of the table of moment limits: one index unit inside either printed limit is inside, two outside is not. */
function limitRow(weight: number, least: number, most: number): readonly Case[] {
  const at = (index: number) =>
    `part load weighed ${weight} lb moment ${index * 100} lb in\n${limits109}`;
  const source = `${PHAK}, fig. 10-9`;
  const one = (name: string, index: number, inside: boolean): Case => ({
    id: `env_${weight}_${name}`,
    title: `${weight} lb at moment index ${index} is ${inside ? "inside" : "outside"}`,
    source,
    spec: at(index),
    wants: { "takeoff inside": [inside, 0] },
  });
  return [
    one("in_forward", least + 1.5, true),
    one("out_forward", least - 1.5, false),
    one("in_aft", most - 0.6, true),
    one("out_aft", most + 0.6, false),
  ];
}

export const cases: readonly Case[] = [
  {
    id: "PHAK_10_2",
    title: "moment of 10 lb at 70 in",
    source: `${PHAK}, fig. 10-2`,
    spec: "part w weighed 10 lb at FS 70",
    wants: { moment: [700, 0] },
  },
  {
    id: "PHAK_10_4",
    title: "a lever in balance: 100 lb at 25 in and 50 lb at 50 in against 50 lb at 100 in",
    source: `${PHAK}, figs 10-3, 10-4`,
    spec: "part w1 weighed 100 lb at FS -25\npart w2 weighed 50 lb at FS -50\npart w3 weighed 50 lb at FS 100",
    wants: { moment: [0, 0] },
  },
  {
    id: "PHAK_10_5",
    title: "computational method",
    source: `${PHAK}, fig. 10-5`,
    spec: `part empty_aircraft weighed 2100 lb at FS 78.3
fluid fuel 6.0 lb/gal
seat front at FS 85
seat rear at FS 121
tank fuel holds 75 gal of fuel at FS 75
bay baggage at FS 150
envelope normal { takeoff 3400 lb; cg 2000 lb: FS 78 .. 86; cg 3400 lb: FS 78 .. 86 }
loading l under normal { front 340 lb; rear 350 lb; fuel full; baggage 80 lb }`,
    wants: {
      "takeoff weight": [3320, 0],
      "takeoff moment": [281430, 0.5],
      "takeoff arm": [84.8, 0.05],
      "takeoff inside": [true, 0],
    },
  },
  {
    id: "PHAK_10_9a",
    title: "sample loading by the table method, within the printed limits",
    source: `${PHAK}, fig. 10-9`,
    spec: `part load weighed 2799 lb moment 227800 lb in\n${limits109}`,
    wants: { arm: [81.39, 0.005], "takeoff inside": [true, 0] },
  },
  ...limitRow(2100, 1617, 1800),
  ...limitRow(2350, 1810, 2014),
  ...limitRow(2550, 1984, 2184),
  {
    id: "PHAK_10_11",
    title: "zero-fuel, ramp, takeoff and landing of a twin",
    source: `${PHAK}, fig. 10-11`,
    spec: `part empty_aircraft weighed 3230 lb at FS 90.5
fluid fuel 6 lb/gal
seat front at FS 89
seat middle at FS 126
seat aft_seats at FS 157
bay nose at FS 10
bay aft_bay at FS 183
tank fuel holds 822 lb of fuel at FS 113
envelope normal { ramp 5224 lb; landing 4940 lb; zero_fuel 4400 lb }
loading l under normal {
  front 335 lb; middle 350 lb; aft_seats 200 lb; nose 100 lb; aft_bay 25 lb; fuel full
  taxi fuel 24 lb
  burn fuel 450 lb
}`,
    wants: {
      "zero_fuel weight": [4240, 0],
      "zero_fuel moment": [403205, 0.01],
      "zero_fuel arm": [95.1, 0.05],
      "ramp weight": [5062, 0],
      "ramp moment": [496091, 0.01],
      "ramp arm": [98, 0.05],
      "takeoff weight": [5038, 0],
      "takeoff moment": [493379, 0.01],
      "takeoff arm": [97.9, 0.05],
      "landing weight": [4588, 0],
      "landing moment": [442529, 0.01],
      "landing arm": [96.5, 0.05],
      "landing inside": [true, 0],
    },
  },
  {
    id: "PHAK_shift",
    title: "100 lb shifted from 30 in to 150 in in 8,000 lb",
    source: `${PHAK}, weight shifting`,
    spec: "part rest weighed 7900 lb moment 613000 lb in\npart cargo weighed 100 lb at FS 150",
    wants: { moment: [628000, 1e-6], arm: [78.5, 0.005] },
  },
  {
    id: "PHAK_add",
    title: "140 lb added at 150 in to 6,860 lb at 80 in",
    source: `${PHAK}, weight addition`,
    spec: "part aircraft_as_is weighed 6860 lb at FS 80\npart added weighed 140 lb at FS 150",
    wants: { arm: [81.4, 0.0005] },
  },
  {
    id: "AC43_10_13",
    title: "maximum passengers: 38466/2100 (the printed 18.6 is a misprint)",
    source: `${AC43}, fig. 10-13`,
    spec: `part empty_aircraft weighed 1169 lb moment 12391 lb in
part oil weighed 17 lb at FS -49
fluid fuel 6 lb/gal
seat pilot at FS 16
seat front at FS 16
seat rear at FS 48
tank fuel holds 39 gal of fuel at FS 22
envelope normal { takeoff 2100 lb; cg 1100 lb: FS 8.5 .. 21.9; cg 2100 lb: FS 8.5 .. 21.9 }
loading l under normal { pilot 170 lb; front 170 lb; rear 340 lb; fuel full }`,
    wants: {
      "takeoff weight": [2100, 0],
      "takeoff moment": [38466, 1e-6],
      "takeoff arm": [18.3, 0.05],
      "takeoff inside": [true, 0],
    },
  },
  {
    id: "AC43_fuel",
    title: "40 gal on 1,866 lb break the 2,100 lb that 39 gal meet",
    source: `${AC43}, fig. 10-13`,
    spec: `part rest weighed 1866 lb at FS 16
fluid fuel 6 lb/gal
tank fuel holds 40 gal of fuel at FS 22
envelope normal { takeoff 2100 lb }
loading l under normal { fuel 40 gal }`,
    wants: { "above-weight-limit": [true, 0], "takeoff weight": [2106, 1e-9] },
  },
  {
    id: "AC43_oil",
    title: "9 qt of oil at 7.5 lb/gal weigh 16.875 lb",
    source: `${AC43}, fig. 10-10`,
    spec: "part oil quoted 9 qt * 7.5 lb/gal at FS -49",
    wants: { weight: [16.875, 1e-9] },
  },
  {
    id: "WBH_lever",
    title: "plank with the datum off its end",
    source: `${WBH}, chapter 2`,
    spec: "part a weighed 100 lb at FS 50\npart b weighed 100 lb at FS 90\npart c weighed 200 lb at FS 150",
    wants: { weight: [400, 0], moment: [44000, 0], arm: [110, 0] },
  },
  {
    id: "WBH_lever_zero",
    title: "the same plank, datum moved to its CG",
    source: `${WBH}, chapter 2`,
    spec: "part a weighed 100 lb at FS -60\npart b weighed 100 lb at FS -20\npart c weighed 200 lb at FS 40",
    wants: { moment: [0, 0] },
  },
  {
    id: "PA18_datum",
    title: "stations moved from the firewall to the leading edge, 24 in aft of it",
    source: "baggage modification of a light aircraft, published thread",
    spec: "assembly moved at FS -24 { part first weighed 1 lb at FS 101 }",
    wants: { arm: [77, 1e-9] },
  },
  {
    id: "S23_datum",
    title: "a limit of 55.5 in aft of a datum 7.728 m aft of the origin",
    source: "open flight-model data, from a 1937 report",
    spec: "assembly hull at FS 7.728 m { part limit weighed 1 lb at FS 55.5 }",
    wants: { arm: [359.75, 0.005] },
  },
  {
    id: "WBH_MAC",
    title: "CG at 161 in with the chord from 144 in, 62 in long: 27.4 % MAC",
    source: `${WBH}, chapter 3`,
    block: "mac at FS 144 length 62",
    spec: "part a weighed 100 lb at FS 161\nrequire mac(WBH_MAC) / 1% <= 100",
    wants: { "left 0": [27.4, 0.05] },
  },
  {
    id: "AMT_MAC",
    title: "CG at 945 in with the chord from 900 in, 180 in long: 25 % MAC",
    source: "FAA-H-8083-30, chapter 4, from memory",
    block: "mac at FS 900 length 180",
    spec: "part a weighed 100 lb at FS 945\nrequire mac(AMT_MAC) / 1% <= 100",
    wants: { "left 0": [25, 1e-9] },
  },
  {
    id: "FAAT_1",
    title: "loaded CG of a private pilot's question",
    source: "FAA airman knowledge test, in part from memory",
    spec: "part empty_aircraft weighed 1495 lb moment 151593 lb in\npart crew weighed 380 lb at FS 64\npart fuel weighed 30 gal * 6 lb/gal at FS 96",
    wants: { weight: [2055, 1e-9], moment: [193193, 1e-6], arm: [94.01, 0.005] },
  },
  {
    id: "ATPL",
    title: "CG at landing after a burn and a drop",
    source: "European ATPL question bank",
    spec: `fluid jet 0.79 kg/L
part rest weighed 11203 kg moment 386680 kg cm - 26350 kg cm
tank fuel holds 7120 kg of jet at FS -9 cm
loading l { fuel full; burn fuel 1.5 h * 900 L/h }`,
    wants: { "landing kg": [17257, 1], "landing cm": [17.72, 0.01] },
  },
  {
    id: "NICHOLLS",
    title: "a weight added between two",
    source: "Nicholls's Seamanship and Nautical Knowledge, p. 499",
    spec: "part a weighed 10 lb at FS 2\npart b weighed 10 lb at FS 7\npart c weighed 5 lb at FS 8",
    wants: { moment: [130, 1e-9], arm: [5.2, 1e-9] },
  },
  ...(
    [
      ["gasoline", 6, 0.719, PHAK],
      ["jet", 6.8, 0.8148, PHAK],
      ["oil", 7.5, 0.8987, PHAK],
      ["water", 8.35, 1.0006, PHAK],
      ["turbine_fuel", 6.7, 0.8028, "FAA-H-8083-30, chapter 4"],
    ] as const
  ).map(
    ([name, lb, kg, source]): Case => ({
      id: `density_${name}`,
      title: `${name} at ${lb} lb/gal is ${kg} kg/L`,
      source: `${source}, standard weights`,
      spec: `part litre quoted 1 L * ${lb} lb/gal at FS 0`,
      wants: { kg: [kg, 0.00005] },
    }),
  ),
  {
    id: "unusable",
    title: "3 gal unusable at 46 in: 18 lb, moment 830 lb in",
    source: "a type's weighing form, p. 6-5",
    spec: "part unusable_fuel weighed 3 gal * 6 lb/gal at FS 46",
    wants: { weight: [18, 1e-9], moment: [830, 5] },
  },
  {
    id: "LSA",
    title: "1,320 lb is 598.74 kg, not 600",
    source: "14 CFR 1.1",
    spec: "part whole weighed 1320 lb at FS 0",
    wants: { kg: [598.74, 0.005] },
  },
  {
    id: "ounces",
    title: "12.5 oz is 354.369 g",
    source: "NIST SP 811, avoirdupois, in part from memory",
    spec: "part whole weighed 12.5 oz at FS 0",
    wants: { kg: [0.354369, 0.0000005] },
  },
  {
    id: "U_arm",
    title: "120 kg at 1 ft 6 in: 4,761.98 lb in",
    source: "derivation",
    spec: "part whole weighed 120 kg at FS 1 ft 6 in",
    wants: { moment: [4761.98, 0.005] },
  },
  {
    id: "CUBICS",
    title: "14 items, 20 % margin, limit 4,800 g: inside before the margin, outside after it",
    source: "Western University 3U CubeSat mass budget, revision 1",
    block: "growth estimated 20%",
    spec: `assembly all budget 4800 g {
${[65.35, 85, 90.2, 106, 130, 170, 177, 230, 281, 300, 340, 575, 700, 779].map((g, i) => `  part p${i} estimated ${g} g at FS 0`).join("\n")}
}`,
    wants: {
      "mass of all": [4.02855, 0.000005],
      "margin of all": [-0.03426, 0.000005],
      "budget-at-risk": [true, 0],
      "over-budget": [false, 0],
    },
  },
  {
    id: "WEB_table",
    title: "best estimates and growth by subsystem",
    source: "a published spacecraft mass budget",
    spec: [
      ["structure", 180, 5],
      ["eps", 60, 8],
      ["adcs", 45, 10],
      ["ttc", 32, 7],
      ["thermal", 20, 5],
      ["payload", 95, 10],
    ]
      .map(
        ([name, kg, growth]) =>
          `assembly ${name} growth ${growth}% { part it estimated ${kg} kg at FS 0 }`,
      )
      .join("\n"),
    wants: { kg: [432, 1e-9], predicted_kg: [463, 0.05] },
  },
  {
    id: "MGA_1",
    title: "growth by category and maturity; weighed mass carries none",
    source: "mass growth allowance table, in part from memory",
    spec: `assembly s growth 15% { part it calculated 100 lb at FS 0 }
assembly w growth 50% { part it estimated 20 lb at FS 0 }
assembly e growth 10% { part it calculated 8 lb at FS 0 }
assembly b growth 20% { part it weighed 50 lb at FS 0 }`,
    wants: { weight: [178, 1e-9], predicted: [203.8, 1e-9] },
  },
  {
    id: "MGA_ESA",
    title: "off the shelf 5 %, modified 10 %, new 20 %",
    source: "instrument rule EIDA-2656 (ECSS categories)",
    block: "growth estimated 20%, calculated 10%, quoted 5%",
    spec: `part a quoted 10 kg at FS 0\npart c calculated 10 kg at FS 0\npart d estimated 10 kg at FS 0`,
    wants: { predicted_kg: [33.5, 1e-9] },
  },
  {
    id: "MULTI",
    title: "frame and four motors with propellers",
    source: "open quadrotor model",
    spec: "part frame weighed 1.480 kg at FS 0\npart motor qty 4 weighed 0.054 kg at FS 0\npart propeller qty 4 weighed 0.011 kg at FS 0",
    wants: { kg: [1.74, 1e-9] },
  },
  {
    id: "ODRONE",
    title: "a parts list with unknown masses is a floor",
    source: "open foam-board aircraft, first bill of materials",
    spec: `assembly electronics {
  part battery weighed 172 g at FS 0\n  part esc weighed 32 g at FS 0\n  part receiver weighed 15 g at FS 0
  part motor weighed 41 g at FS 0\n  part servo qty 4 weighed 12 g at FS 0\n  part extender qty 2 weighed 10 g at FS 0
  part straps at FS 0
}
assembly aerofoils {
  part wings weighed 220 g at FS 0\n  part rod qty 2 weighed 11 g at FS 0\n  part stake qty 2 weighed 2 g at FS 0
  part fairing qty 2 weighed 3 g at FS 0\n  part tailfin weighed 27 g at FS 0
}
assembly pod {
  part mount weighed 11 g at FS 0\n  part payload weighed 56 g at FS 0\n  part screws qty 8 weighed 3 g at FS 0
  part servo_holder at FS 0\n  part front_cap at FS 0\n  part end_cap at FS 0\n  part body_fairing at FS 0
}`,
    wants: {
      "mass of electronics": [0.328, 1e-12],
      "mass of aerofoils": [0.279, 1e-12],
      "mass of pod": [0.091, 1e-12],
      kg: [0.698, 1e-12],
      complete: [false, 0],
      "mass-missing": [true, 0],
    },
  },
];
