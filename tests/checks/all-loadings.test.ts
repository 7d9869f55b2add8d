import { expect, test } from "vitest";
import { loadingText } from "../../server/checks/all-loadings";
import { allLoadingsOf } from "../../server/compute/all-loadings";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { check, findingsOf } from "../fixture";

const judged = (text: string) => judge(withText(emptyProject(["/"]), "/kite.poise", text));
const verdictsOf = (text: string) => reportOf(judged(text).roots[0]!).envelopes;
const findings = (text: string) => findingsOf({ "kite.poise": text });

// 800 kg at FS 1. With 100 kg at FS 2 and 100 kg at FS 3: 1300 kg m / 1000 kg. With the latter alone:
// 1100 / 900 = 1.222.
const kite = `aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1
seat pilot at FS 2 range 0 kg .. 100 kg
bay hold at FS 3 range 0 kg .. 100 kg
`;

test("everything aboard is permitted, and outside", () => {
  check(`${kite}envelope normal { cg 700 kg: FS 0.9 .. 1.25; cg 1100 kg: FS 0.9 .. 1.25 }
//       ^^^^^^ warning[loading-can-exceed]: a permitted loading has its CG at FS 1.3 m (1,000 kg), 0.05 m aft of the aft limit of 1.25 m
`);
});

test.each([
  ["a limit", "limit 100 kg of pilot, hold\n", ""],
  ["a limit inside the envelope", "", "limit 100 kg of pilot, hold; "],
  ["a takeoff weight", "", "takeoff 900 kg; "],
  ["a ramp weight", "", "takeoff 1000 kg; ramp 900 kg; "],
  ["a zero-fuel weight", "", "zero_fuel 900 kg; "],
])("%s forbids it", (_, outside, inside) => {
  const rows = "cg 700 kg: FS 0.9 .. 1.25; cg 1100 kg: FS 0.9 .. 1.25";
  const text = `${kite}${outside}envelope normal { ${inside}${rows} }\n`;
  check(text);
  expect(verdictsOf(text)).toEqual([{ name: "normal", all_loadings: "inside" }]);
});

test("the related places: a plain loading, the other ways out, and what all this rests on", () => {
  const text = `${kite}bay shelf at FS 1
limit 150 kg of pilot, hold
envelope normal { takeoff 1000 kg; cg 810 kg: FS 0.9 .. 1.2; cg 1100 kg: FS 0.9 .. 1.2 }
`;
  const [finding] = judged(text).findings;
  expect(finding!.message).toBe(
    // 100 kg in the hold and 50 kg on the seat: 1200 / 950; the hold alone is less than half as bad
    "a permitted loading has its CG at FS 1.26 m (950 kg), 0.06 m aft of the aft limit of 1.2 m",
  );
  expect(finding!.related.map(it => it.message)).toEqual([
    "such as pilot 50 kg; hold 100 kg: FS 1.26 m (950 kg), 0.06 m aft of the aft limit of 1.2 m",
    "a permitted loading weighs 800 kg, 10 kg under the lightest weight of 810 kg, such as nothing aboard",
    "premises: pilot 0 to 100 kg, hold 0 to 100 kg; limits 150 kg of pilot, hold; takeoff weight 1,000 kg; left empty, having no range: shelf",
  ]);
});

test("the counterexample as a loading of the language", () => {
  const text = `aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
fluid mogas 6 lb/gal
tank wing mirrored holds 20 gal of mogas unusable 1 gal at FS 130, BL 40
seat pilot at FS 90 .. 95, BL -10 range 110 lb .. 250 lb
envelope normal { cg 900 lb: FS 90 .. 105; cg 1500 lb: FS 90 .. 104 }
loading normal_aft under normal { pilot 120 lb }
`;
  const [{ envelope, found }] = allLoadingsOf(judged(text).roots[0]!.root) as [
    ReturnType<typeof allLoadingsOf>[number],
  ];
  expect(loadingText(found[0]!, envelope)).toBe(
    `loading normal_aft_2 under normal {
  wing full
  pilot 110 lb at FS 95
}
`,
  );
});

test("a seat anywhere in its range of arms", () => {
  // 100 kg at FS 3 at the most: 1100 / 900
  check(`aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1
seat pilot at FS 1 .. 3 range 0 kg .. 100 kg
envelope normal { cg 700 kg: FS 0.9 .. 1.2; cg 1100 kg: FS 0.9 .. 1.2 }
//       ^^^^^^ warning[loading-can-exceed]: a permitted loading has its CG at FS 1.222 m (900 kg), 0.022 m aft of the aft limit of 1.2 m
`);
});

test("a limit of one side of what is loaded alike on both", () => {
  // 60 kg on each side: (800 + 360) / 920 = 1.2609
  const text = (aft: number) => `aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1
bay pod mirrored at FS 3, BL 1 range 0 kg .. 100 kg
limit 60 kg of pod.LH
envelope normal { cg 700 kg: FS 0.9 .. ${aft}; cg 1100 kg: FS 0.9 .. ${aft} }
`;
  expect(findings(text(1.261))).toEqual([]);
  expect(findings(text(1.26))).toEqual([
    "loading-can-exceed: a permitted loading has its CG at FS 1.2609 m (920 kg), 0.0009 m aft of the aft limit of 1.26 m",
  ]);
});

test("a limit of one side of one place and both of another: not excluded where only bounds leave", () => {
  // pods of 2 p and a hold of h with p + h within 100 kg. Really at most 200 kg at FS 3: 1400 / 1000.
  // Bounded by 2 p + h within 200 kg, h within 100 kg: 1500 / 1000.
  const text = (aft: number) => `aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1
bay pod mirrored at FS 3, BL 1 range 0 kg .. 100 kg
bay hold at FS 4 range 0 kg .. 100 kg
limit 100 kg of pod.LH, hold
envelope normal { cg 700 kg: FS 0.9 .. ${aft}; cg 1100 kg: FS 0.9 .. ${aft} }
`;
  const told = [1.51, 1.45, 1.39].map(aft => verdictsOf(text(aft)));
  expect(told).toEqual(
    ["inside", "not-excluded", "can-exceed"].map(it => [{ name: "normal", all_loadings: it }]),
  );
  expect(findings(text(1.45))).toEqual([]);
});

test("a tank that bends the other way: not excluded", () => {
  // half full its 100 kg are at FS 2: 1400 / 900. A straight line to full promises 1300 / 900 = 1.444.
  const text = `aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1.5
fluid mogas 0.5 kg/L
tank main holds 400 L of mogas {
  filled 200 L at FS 2
  filled 400 L at FS 1
}
envelope normal {
  cg 800 kg: FS 1.3 .. 2
  cg 900 kg: FS 1.45 .. 2
  cg 1000 kg: FS 1.3 .. 2
}
`;
  expect(verdictsOf(text)).toEqual([{ name: "normal", all_loadings: "not-excluded" }]);
});

test("what only a swung configuration makes", () => {
  // 100 kg go from FS 1 to FS 2: 900 / 800
  check(`aircraft kite { units kg, m, L }
part airframe weighed 700 kg at FS 1, WL 0
assembly boom swing 90 deg aft about BL at FS 1, WL 0 {
  part arm weighed 100 kg at FS 1, WL 1
}
configuration folded { swing boom }
seat pilot at FS 1, WL 0 range 0 kg .. 100 kg
envelope normal { cg 700 kg: FS 0.9 .. 1.12; cg 1100 kg: FS 0.9 .. 1.12 }
//       ^^^^^^ warning[loading-can-exceed]: a permitted loading in configuration folded has its CG at FS 1.125 m (800 kg), 0.005 m aft of the aft limit of 1.12 m
`);
});

test("lateral limits, by weight and by station", () => {
  // 100 kg at BL -1: -100 / 900
  const text = (rows: string) => `aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1
seat pilot at FS 1, BL -1 range 0 kg .. 100 kg
envelope normal { cg FS 0 .. 2; ${rows} }
`;
  const told =
    "loading-can-exceed: a permitted loading has its CG at BL -0.111 m (900 kg), 0.011 m outside the left limit of -0.1 m";
  expect(findings(text("lateral BL -0.1 .. 0.1"))).toEqual([told]);
  expect(findings(text("lateral FS 0: BL -0.1 .. 0.1; lateral FS 2: BL -0.1 .. 0.1"))).toEqual([
    told,
  ]);
  expect(findings(text("lateral BL -0.12 .. 0.1"))).toEqual([]);
  expect(verdictsOf(text("lateral FS 0: BL -0.12 .. 0.1; lateral FS 2: BL -0.12 .. 0.1"))).toEqual([
    { name: "normal", all_loadings: "inside" },
  ]);
});

test("no verdict where a mass is missing, nothing can be loaded, or nothing is permitted", () => {
  const envelope =
    "envelope normal { takeoff 700 kg; cg 700 kg: FS 0 .. 1; cg 1100 kg: FS 0 .. 1 }\n";
  expect(verdictsOf(`${kite}part tail at FS 2\n${envelope}`)).toEqual([]);
  expect(verdictsOf(`${kite}${envelope}`)).toEqual([]);
  expect(verdictsOf(`${kite.replaceAll(/ range.*/g, "")}${envelope}`)).toEqual([]);
});

test("what all loadings can do is not waived", () => {
  expect(
    findings(`${kite}envelope normal { cg 700 kg: FS 0.9 .. 1.25; cg 1100 kg: FS 0.9 .. 1.25 }
waive loading-can-exceed of normal "for now"
`),
  ).toContain(
    "waiver-unused: loading-can-exceed stands all the same: findings about envelopes, weights and the text itself are not waived",
  );
});

test("the foremost and the rearmost CG of all loadings", () => {
  check(`${kite}envelope normal { takeoff 900 kg; cg FS 0 .. 3 }
require forward(normal) >= 1 m "nose up"
require aft(normal) <= 1.2 m "tail up"
//      ^^^^^^^^^^^^^^^^^^^^ error[requirement-failed]: 1.22 m is not <= 1.2 m: tail up
require aft(utility) <= 1.2 m "tail up"
//          ^^^^^^^ error[unknown-name]: no envelope is called utility
`);
});

test("a requirement for every loading names the worst that breaks it", () => {
  const text = `${kite}loading solo { pilot 50 kg }
loading two { pilot 100 kg; hold 20 kg }
loading move { pilot 50 kg; hold 100 kg }
require fs(loading.takeoff) <= 1.15 m for every loading "tail up"
//      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[requirement-failed]: move: 1.26 m is not <= 1.15 m: tail up
require mass(loading.takeoff) <= 1000 kg for every loading "runway"
`;
  check(text);
  const [failed] = judged(text).findings;
  expect(failed!.related.map(it => it.message)).toEqual(["two breaks it too"]);
});

test("for every loading, once growth is in", () => {
  check(`aircraft kite { units kg, m, L growth calculated 10% }
part airframe calculated 800 kg at FS 1
seat pilot at FS 2 range 0 kg .. 100 kg
loading solo { pilot 50 kg }
loading full { pilot full }
require mass(loading.takeoff) <= 960 kg for every loading "runway"
//      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning[requirement-at-risk]: full: 980 kg is not <= 960 kg once growth and reserves are in: runway
`);
});

test("a limit of what is there counts unusable fluid and full operating tanks", () => {
  // 2 kg of oil and 10 kg of fuel that cannot be used leave 8 kg of 20 kg: 836 / 820 = 1.0195
  check(`aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1
fluid oil 1 kg/L
fluid mogas 0.5 kg/L
tank sump holds 2 L of oil operating at FS 1
tank main holds 100 L of mogas unusable 20 L at FS 1
bay hold at FS 3 range 0 kg .. 30 kg
limit 20 kg of sump, main, hold
limit 30 kg of attic
//             ^^^^^ error[unknown-name]: no tank, seat or bay is called attic
loading trip { hold 9 kg }
//      ^^^^ error[limit-exceeded]: trip puts 21 kg into sump, main and hold, 1 kg over the limit of 20 kg
envelope normal { cg 700 kg: FS 0.9 .. 1.023; cg 1100 kg: FS 0.9 .. 1.023 }
`);
});
