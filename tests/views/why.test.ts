import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import type { Span } from "../../grammar/tree";
import { flightsOf } from "../../server/compute/flights";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { show } from "../../server/quantity/show";
import { namesIn, nearestPath, why } from "../../server/views/why";
import { table } from "../../server/views/why/lines";

const rootWith = (spec: string) =>
  judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", spec)).roots[0]!.root;

/** The document, the words that a line leads to in «» behind it. */
function told(spec: string, path: string): string {
  const lines = why(rootWith(spec), path);
  const words = ({ line, from, to }: Span) => line.text.slice(from, to);
  return (lines ?? [])
    .map(({ text, at }) => (at ? `${text}  «${words(at)}»` : text))
    .join("\n")
    .concat("\n");
}

const kite = `
aircraft kite "Kite" {
  units lb, in, gal
  mac at FS 100 length 50
  growth estimated 15%, calculated 10%, quoted 3%
}
fluid mogas 6 lb/gal
let area = 12 ft^2
let plate = 2 * area * 0.25 lb/ft^2
assembly wing "Wing" budget 60 lb margin 5% {
  at FS 100, WL 40
  growth estimated 20%
  cg FS 105 .. 115
  part skin "Skins" {
    was estimated 9 lb
    calculated plate on 2026-03-01
    estimated 7 lb on 2026-04-01
    at FS 10
  }
  part rib mirrored qty 4 quoted 500 g at FS 12, BL 30, WL 2
  part tip weighed 3 lb moment 330 in lb
  reserve paint 2 lb
}
part engine weighed 200 lb span FS 30 .. FS 50
ballast lead 10 lb at FS 20
tank tank mirrored holds 10 gal of mogas unusable 0.5 gal at FS 110, BL 25
seat pilot at FS 80 .. 90 range 100 lb .. 240 lb
envelope normal {
  takeoff 600 lb
  cg 300 lb: 0 %MAC .. 24 %MAC
  cg 600 lb: FS 60 .. 112
}
loading solo under normal {
  pilot 80 kg at FS 82
  tank 8 gal
  taxi tank total 1 gal
  burn tank to 2 gal
}
`;

test("a part: which record governs and why, what it rests on, its growth, its place in a frame", () => {
  expect(told(kite, "wing.skin")).toBe(`\
wing.skin "Skins"  «skin»
  6 lb at FS 110 in, BL 0 in

Records, of one piece
  was estimated  9 lb                        history  «was estimated 9 lb»
  calculated     plate = 6 lb on 2026-03-01  governs: the most mature  «calculated plate on 2026-03-01»
  estimated      7 lb on 2026-04-01          less mature than calculated  «estimated 7 lb on 2026-04-01»

Rests on
  plate  2 * area * 0.25 lb/ft^2 = 6 lb  «plate»
  area   12 ft^2  «area»

Mass
  basic      6 lb  «calculated plate on 2026-03-01»
  growth     10 % of calculated (kite): 0.6 lb  «calculated 10%»
  predicted  6 lb + 0.6 lb = 6.6 lb

Place
  at               FS 10 in, BL 0 in  «at FS 10»
  frame of wing    + FS 100 in, BL 0 in, WL 40 in  «at FS 100, WL 40»
  in the aircraft  FS 110 in, BL 0 in

Moment
  about the datum       6 lb × 110 in = 660 lb in
  about the centerline  6 lb × 0 in = 0 lb in
`);
});

test("the left-hand one of a pair: pieces in another unit, BL turned", () => {
  expect(told(kite, "wing.rib.LH")).toBe(`\
wing.rib.LH, the left-hand one  «rib»
  4.41 lb at FS 112 in, BL -30 in, WL 42 in

Records, of one piece
  quoted  500 g = 1.1 lb  governs  «quoted 500 g»

Mass
  basic      4 × 1.1 lb = 4.41 lb  «qty 4»
  growth     3 % of quoted (kite): 0.132 lb  «quoted 3%»
  predicted  4.41 lb + 0.132 lb = 4.54 lb

Place
  at               FS 12 in, BL 30 in, WL 2 in  «at FS 12, BL 30, WL 2»
  frame of wing    + FS 100 in, BL 0 in, WL 40 in  «at FS 100, WL 40»
  in the aircraft  FS 112 in, BL 30 in, WL 42 in
  left-hand        BL turned: FS 112 in, BL -30 in, WL 42 in

Moment
  about the datum       4.41 lb × 112 in = 493.8 lb in
  about the centerline  4.41 lb × -30 in = -132.3 lb in
  about WL 0            4.41 lb × 42 in = 185.2 lb in
`);
});

test("a moment in place of an arm", () => {
  expect(told(kite, "wing.tip")).toBe(`\
wing.tip  «tip»
  3 lb at FS 110 in, BL 0 in

Records, of one piece
  weighed  3 lb  governs  «weighed 3 lb»

Mass
  basic   3 lb  «weighed 3 lb»
  growth  none: no growth is said for weighed

Place
  moment           330 in lb ÷ 3 lb = FS 110 in; it governs  «moment 330 in lb»
  in the aircraft  FS 110 in, BL 0 in

Moment
  about the datum       3 lb × 110 in = 330 lb in
  about the centerline  3 lb × 0 in = 0 lb in
`);
});

test("a span: its middle", () => {
  expect(told(kite, "engine")).toBe(`\
engine  «engine»
  200 lb at FS 40 in, BL 0 in

Records, of one piece
  weighed  200 lb  governs  «weighed 200 lb»

Mass
  basic   200 lb  «weighed 200 lb»
  growth  none: no growth is said for weighed

Place
  from    FS 30 in, BL 0 in  «FS 30»
  to      FS 50 in, BL 0 in  «FS 50»
  middle  (FS 30 + FS 50) ÷ 2 = FS 40 in, BL 0 in  «span FS 30 .. FS 50»

Moment
  about the datum       200 lb × 40 in = 8,000 lb in
  about the centerline  200 lb × 0 in = 0 lb in

Inertia about its own CG
  from  span FS 30 .. FS 50: a place in it is not known  «span FS 30 .. FS 50»
`);
});

test("an assembly: each member, the sums up to predicted, CG, budget", () => {
  expect(told(kite, "wing")).toBe(`\
wing "Wing"  «wing»
  basic 17.82 lb, predicted 20.68 lb, CG at FS 111 in, BL 0 in, WL 42 in

Members          mass      FS   BL   WL   FS moment   growth
                   lb      in   in   in       lb in       lb
  skin          6       110      0    ?      660       0.6  «skin»
  rib (both)    8.82    112      0   42      987.67    0.265  «rib»
  tip           3       110      0    ?      330  «tip»
  ──────────────────────────────────────────────────────────
  basic        17.82    111      0   42    1,977.67    0.865
  ──────────────────────────────────────────────────────────
  growth        0.865   110.6    0   42       95.63
  reserves      2       111      0   42      221.98
    paint 2 lb at the CG of the parts  «paint»
  ──────────────────────────────────────────────────────────
  predicted    20.68    111      0   42    2,295.28

CG, basic: moment ÷ mass
  FS      1,977.7 lb in ÷ 17.82 lb = 111 in
  %MAC    (111 in − 100 in) ÷ 50 in = 21.98 %
  BL      0 lb in ÷ 17.82 lb = 0 in
  WL      370.4 lb in ÷ 8.82 lb = 42 in (9 lb in it has no WL)
  wanted  FS 105 in .. 115 in: inside  «cg FS 105 .. 115»

CG, predicted
  FS    2,295.3 lb in ÷ 20.68 lb = 111 in
  %MAC  (111 in − 100 in) ÷ 50 in = 21.95 %
  BL    0 lb in ÷ 20.68 lb = 0 in
  WL    465.5 lb in ÷ 11.08 lb = 42 in (9.6 lb in it has no WL)

Budget
  budget  60 lb  «60 lb»
  margin  60 lb − 20.68 lb = 39.32 lb, 65.53 % of the budget
  asked   5 % of the budget  «60 lb»

Basis of the basic mass
  calculated  6 lb, 33.67 %
  quoted      8.82 lb, 49.49 %
  weighed     3 lb, 16.84 %

Inertia about the CG         Ixx         Iyy         Izz         Ixy         Ixz         Iyz
                       slug ft^2   slug ft^2   slug ft^2   slug ft^2   slug ft^2   slug ft^2
  rib (both)                1.71     0.00194        1.71           0           0           0  «rib»
  ──────────────────────────────────────────────────────────────────────────────────────────
  basic                     1.71     0.00194        1.71           0           0           0
  of what has FS, BL and WL; the rest is not in it
`);
});

test("the basic empty weight: the parts and unusable fluid", () => {
  expect(told(kite, "empty")).toBe(`\
empty: the basic empty weight of Kite  «kite»

Aboard                    mass       FS   BL   WL   FS moment
                            lb       in   in   in       lb in
  parts                227.82     44.67    0   42   10,177.67  «kite»
  tank                   6       110       0    ?      660  «unusable 0.5 gal at FS 110, BL 25»
    2 × 0.5 gal of mogas, 6 lb/gal  «mogas»
  ───────────────────────────────────────────────────────────
  basic empty weight   233.82     46.35    0   42   10,837.67
  ───────────────────────────────────────────────────────────
  growth                 0.865   110.61    0   42       95.63
  reserves               2       110.99    0   42      221.98
  ───────────────────────────────────────────────────────────
  predicted            236.68     47.13    0   42   11,155.28

CG, basic empty weight: moment ÷ mass
  FS    10,837.7 lb in ÷ 233.8 lb = 46.35 in
  %MAC  (46.35 in − 100 in) ÷ 50 in = -107.3 %
  BL    0 lb in ÷ 233.8 lb = 0 in
  WL    370.4 lb in ÷ 8.82 lb = 42 in (225 lb in it has no WL)

CG, predicted
  FS    11,155.3 lb in ÷ 236.7 lb = 47.13 in
  %MAC  (47.13 in − 100 in) ÷ 50 in = -105.7 %
  BL    0 lb in ÷ 236.7 lb = 0 in
  WL    465.5 lb in ÷ 11.08 lb = 42 in (225.6 lb in it has no WL)
`);
});

test("a stage of a loading: what is aboard, and how far each limit is", () => {
  expect(told(kite, "solo.takeoff")).toBe(`\
solo.takeoff: solo at takeoff  «solo»

Aboard at takeoff      mass       FS   BL   WL   FS moment
                         lb       in   in   in       lb in
  parts             227.82     44.67    0   42   10,177.67  «kite»
  tank               90       110       0    ?    9,900  «tank»
    2 × 7.5 gal of mogas, 6 lb/gal  «mogas»
  pilot             176.37     82       0    ?   14,462.32  «pilot»
    80 kg = 176.4 lb  «pilot»
  ────────────────────────────────────────────────────────
  at takeoff        494.19     69.89    0   42   34,540
  ────────────────────────────────────────────────────────
  growth              0.865   110.61    0   42       95.63
  reserves            2       110.99    0   42      221.98
  ────────────────────────────────────────────────────────
  predicted         497.05     70.13    0   42   34,857.61

CG at takeoff, basic: moment ÷ mass
  FS    34,540 lb in ÷ 494.2 lb = 69.89 in
  %MAC  (69.89 in − 100 in) ÷ 50 in = -60.22 %
  BL    0 lb in ÷ 494.2 lb = 0 in
  WL    370.4 lb in ÷ 8.82 lb = 42 in (485.4 lb in it has no WL)

Under normal, takeoff: basic
  takeoff weight  600 lb: 494.2 lb aboard, 105.8 lb left  «takeoff 600 lb»
  forward limit   FS 74.11 in at 494.2 lb: CG at 69.89 in, 4.22 in outside  «cg 600 lb: FS 60 .. 112»
  aft limit       FS 112 in at 494.2 lb: CG at 69.89 in, 42.11 in inside  «cg 600 lb: FS 60 .. 112»

Under normal, takeoff: predicted
  takeoff weight  600 lb: 497.1 lb aboard, 102.9 lb left  «takeoff 600 lb»
  forward limit   FS 73.73 in at 497.1 lb: CG at 70.13 in, 3.6 in outside  «cg 600 lb: FS 60 .. 112»
  aft limit       FS 112 in at 497.1 lb: CG at 70.13 in, 41.87 in inside  «cg 600 lb: FS 60 .. 112»
`);
});

test("an envelope: a share of the chord is worked out, and whether any permitted loading leaves it", () => {
  // 200 lb at 40, wing 17.82 lb at 111, lead 10 lb at 20, unusable 6 lb at 110, a pilot of 100 lb at 80:
  // 18,838 lb in ÷ 333.8 lb = 56.43 in
  expect(told(kite, "normal")).toBe(`\
normal, an envelope  «normal»

Weights
  takeoff  600 lb  «takeoff 600 lb»

CG, straight in FS against weight
  at 300 lb  FS 100 in (0 %MAC) .. 112 in (24 %MAC)  «cg 300 lb: 0 %MAC .. 24 %MAC»
  at 600 lb  FS 60 in .. 112 in  «cg 600 lb: FS 60 .. 112»
  %MAC       100 in + share × 50 in  «mac at FS 100 length 50»

Every permitted loading
  verdict   a permitted loading is outside
  worst     a permitted loading has its CG at FS 56.43 in (333.8 lb), 39.06 in forward of the  «cg 600 lb: FS 60 .. 112»
            forward limit of 95.49 in
  example   such as pilot 100 lb at FS 80: FS 56.43 in (333.8 lb), 39.06 in forward of the
            forward limit of 95.49 in
  premises  tank 0.5 to 10 gal each, pilot 100 to 240 lb; takeoff weight 600 lb
`);
});

test("a tank: what it holds, and where", () => {
  expect(told(kite, "tank")).toBe(`\
tank, each side  «tank»
  a tank; what is in it counts in loadings, its unusable in the basic empty weight too

Contents, of one side
  holds     10 gal × 6 lb/gal = 60 lb  «holds 10 gal of mogas»
  unusable  0.5 gal × 6 lb/gal = 3 lb  «unusable 0.5 gal at FS 110, BL 25»
  mogas     6 lb/gal  «mogas»

Place
  at  FS 110 in, BL 25 in  «FS 110, BL 25»

Place of the contents, by amount
  unusable  FS 110 in, BL 25 in  «unusable 0.5 gal at FS 110, BL 25»
  the rest  FS 110 in, BL 25 in
`);
});

test("a let, and what it rests on", () => {
  expect(told(kite, "plate")).toBe(`\
plate = 6 lb  «plate»

Value
  written  2 * area * 0.25 lb/ft^2  «2 * area * 0.25 lb/ft^2»

Rests on
  area  12 ft^2  «area»
`);
});

test("what is unknown is said where it is missing, and what rests on it is incomplete", () => {
  const spec = `aircraft kite { units kg, mm, L }
assembly gear mirrored budget 12 kg {
  at FS 100, BL 20
  part leg estimated total 24 kg at FS 5
  part lost calculated 1 kg
  part nothing
}
`;
  expect(told(spec, "gear.LH")).toBe(`\
gear.LH, the left-hand one  «gear»
  basic 13 kg, predicted 13 kg, CG at FS 105 mm, BL -20 mm (incomplete)

Members     mass    FS    BL   WL   FS moment   growth
              kg    mm    mm   mm       kg mm       kg
  leg         12   105   -20    ?       1,260  «leg»
  lost         1     ?     ?    ?           ?  «lost»
  nothing      ?  «nothing»
  ────────────────────────────────────────────────────
  basic       13   105   -20    ?       1,260

Incomplete
  lost     no FS: its mass counts, its moment does not  «lost»
  nothing  no mass yet: the sums are floors  «nothing»

CG, basic: moment ÷ mass
  FS  1,260 kg mm ÷ 12 kg = 105 mm (1 kg in it has no FS)
  BL  -240 kg mm ÷ 12 kg = -20 mm (1 kg in it has no BL)
  WL  unknown: nothing in it has one

Budget
  budget   12 kg  «12 kg»
  margin   12 kg − 13 kg = -1 kg, -8.33 % of the budget
  over     basic exceeds the budget
  at most  something in it has no mass: less is left than this

Basis of the basic mass
  estimated   12 kg, 92.31 %
  calculated  1 kg, 7.69 %
`);
  expect(told(spec, "gear.nothing")).toContain("one piece  unknown: every sum above is a floor");
  expect(told(spec, "gear.lost")).toContain("at  not known: the mass counts, its moment does not");
  expect(told(spec, "gear.leg")).toContain("total 24 kg, ÷ 2 = 12 kg  governs");
});

test("a weighed assembly: what its parts lack, and no growth", () => {
  const text = told(
    `aircraft kite { units lb, in; growth 10% }
assembly engine {
  weighed 50 lb on 2026-01-01 by "scale"
  part block quoted 40 lb at FS 60
}
`,
    "engine",
  );
  expect(text).toContain("basic 50 lb, predicted 50 lb, CG at FS 60 in");
  expect(text).toContain("50 lb on 2026-01-01 by scale: governs over its parts, growth 0");
  expect(text).toContain("10 lb of it is not in the parts (unlisted)");
});

test("a name that is none is guessed, wherever it stands", () => {
  const root = rootWith(kite);
  expect(why(root, "wing.rbi")).toBeUndefined();
  expect(nearestPath(root, "wing.rbi")).toBe("wing.rib");
  expect(nearestPath(root, "rib")).toBe("wing.rib");
  expect(nearestPath(root, "solo.takeof")).toBe("solo.takeoff");
  expect(nearestPath(root, "zebra")).toBeUndefined();
});

const dunlin = () => {
  const folder = fileURLToPath(new URL("../../examples/dunlin", import.meta.url));
  const project = readdirSync(folder).reduce(
    (it, file) => withText(it, `/dunlin/${file}`, readFileSync(`${folder}/${file}`, "utf8")),
    emptyProject(["/dunlin"]),
  );
  return judge(project).roots[0]!.root;
};

test("every stage adds up to what the loading is judged by", () => {
  const root = dunlin();
  const { mass, length } = root.units;
  for (const { loading, stages } of flightsOf(root))
    for (const { kind, basic } of stages.filter(it => it.kind !== "after")) {
      const lines = why(root, `${loading.name}.${kind}`)!.map(it => it.text);
      const step = lines[lines.findIndex(it => it.startsWith("CG at")) + 1];
      expect(step).toContain(`÷ ${show(basic.mass, mass)} = ${show(basic.fs!, length)}`);
    }
  expect(flightsOf(root).length).toBeGreaterThan(2);
});

test("everything that has a name has a derivation, in a hundred columns", () => {
  const root = dunlin();
  const names = [...namesIn(root)];
  expect(names.length).toBeGreaterThan(200);
  for (const name of names) {
    const lines = why(root, name);
    expect(lines, name).toBeDefined();
    for (const { text } of lines!) {
      expect(text.length, text).toBeLessThanOrEqual(100);
      expect(text, name).not.toMatch(/undefined|NaN|null/);
    }
  }
});

test("a table has room for more rows than a call has for arguments", () => {
  const row = { name: "part", cells: [1.5], at: undefined };
  const lines = table("Members", [["mass", "lb"]], [Array.from({ length: 200_000 }, () => row)]);
  expect(lines).toHaveLength(200_003);
  expect(lines.at(-1)!.text).toBe("  part     1.5");
});

test("how sure a mass is: what each brings, what they share, the chance of the budget", () => {
  const spec = `
aircraft kite { units kg, m budget 25.5 kg growth estimated 10% spread estimated 10%, calculated 3% common 4% }
let sheet = 2 kg/m^2 ± 5%
part skin calculated 5 m^2 * sheet at FS 2, WL 0
part motor estimated 10 kg ± 0.3 kg at FS 1, WL 0 shape cylinder 0.2 m, 0.3 m along FS
part lamp weighed 3 kg at FS 0, WL 0
`;
  // skin: 3 % of 10 kg by itself, 5 % by the sheet, 4 % with its basis; √(0.3² + 0.3² + 0.5² + 0.4²)
  const text = told(spec, "kite");
  expect(text).toContain(`
Basis of the basic mass
  estimated   10 kg, 43.48 %
  calculated  10 kg, 43.48 %
  weighed     3 kg, 13.04 %

Spread of the basic mass, one standard deviation
  skin                  ± 0.3 kg  «skin»
  motor                 ± 0.3 kg  «motor»
  let sheet             ± 0.5 kg, one error of all that rest on it  «sheet»
  common to calculated  ± 0.4 kg, one error of all that rest on it  «spread estimated 10%, calculated 3% common 4%»
  together              ± 0.768 kg, the root of the sum of squares

Chance of exceeding the budget
  expected  23 kg + 1 kg of growth = 24 kg; reserves unspent
  distance  (25.5 kg − 24 kg) ÷ 0.768 kg = 1.95
  chance    1 in 39, as a normal error goes
`);
  // m D² ÷ 8 along, m (D² ÷ 16 + L² ÷ 12) across
  expect(told(spec, "motor")).toContain(`
Inertia about its own CG
  from  shape cylinder 0.2 m, 0.3 m along FS  «shape cylinder 0.2 m, 0.3 m along FS»
  Ixx   0.05 kg m^2
  Iyy   0.1 kg m^2
  Izz   0.1 kg m^2
`);
});

test("a configuration: where what swings goes, and what that does to the moment", () => {
  const spec = `
aircraft kite { units lb, in }
part body weighed 90 lb at FS 30, WL 26
assembly leg mirrored swing 90 deg aft about BL at FS 30, WL 26 {
  part wheel weighed 5 lb at FS 30, BL 20, WL 6
}
configuration up "Wheels up" { swing leg }
`;
  expect(told(spec, "up")).toBe(`\
up "Wheels up", in flight  «up»

leg, both sides
  swing  90 deg aft  «swing 90 deg aft about BL at FS 30, WL 26»
  FS     30 in to 50 in: 10 lb × 20 in = 200 lb in
  WL     6 in to 26 in: 10 lb × 20 in = 200 lb in

CG of the basic empty weight, 100 lb
  FS  30 in to 32 in
  BL  0 in to 0 in
  WL  24 in to 26 in
`);
});

test("a figure at the end of a long chain of lets", () => {
  const lets = Array.from({ length: 5000 }, (_, i) => `let x${i + 1} = x${i}`);
  const spec = `aircraft kite { units kg, m }
let x0 = 5 kg
${lets.join("\n")}
part spar calculated x5000 at FS 1
`;
  const lines = told(spec, "spar").split("\n");
  expect(lines.filter(it => /^ *x(5000|4999|0) /.test(it))).toEqual([
    "  x5000  x4999 = 5 kg  «x5000»",
    "  x4999  x4998 = 5 kg  «x4999»",
    "  x0     5 kg  «x0»",
  ]);
});

test("two uses on one line are told apart, and what closes the block is no part of them", () => {
  const spec = kite.replace(
    "taxi tank total 1 gal\n  burn tank to 2 gal\n}",
    "taxi tank total 1 gal; burn tank 3 gal; burn tank to 2 gal }",
  );
  expect(spec).not.toBe(kite);
  const uses = told(spec, "solo").match(/^ +(taxi|burn) .*$/gm);
  expect(uses?.map(it => it.trim())).toEqual([
    "taxi tank total 1 gal  «tank»",
    "burn tank 3 gal  «tank»",
    "burn tank to 2 gal  «tank»",
  ]);
});

test("a limit is not said to be kept where something aboard has no place", () => {
  const spec = `
aircraft kite { units lb, in }
part hull weighed 600 lb at FS 50
seat pilot at BL 3 range 100 lb .. 250 lb
envelope n { takeoff 1200 lb; cg 500 lb: FS 45 .. 55; cg 1200 lb: FS 45 .. 55 }
loading solo under n { pilot 200 lb }
`;
  const text = told(spec, "solo.takeoff");
  expect(text).toContain("1,200 lb: 800 lb aboard, 400 lb left");
  expect(text).toContain("CG at 50 in, 5 in inside, of what has a mass and a place: not judged");
  const massless = told(
    `${spec.replace("at BL 3", "at FS 45")}part radio at FS 50\n`,
    "solo.takeoff",
  );
  expect(massless).toContain("800 lb aboard, at most 400 lb left");
});
