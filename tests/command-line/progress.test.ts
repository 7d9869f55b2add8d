import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const kite = `aircraft kite "Kite" { units lb, in; spread calculated 10%, estimated 20%, weighed 0.3% }
assembly wing "Wing" budget 105 lb {
  part spar calculated 60 lb at FS 100
  part skin estimated 40 lb at FS 120
  part tip weighed 1 lb at FS 130
}
part seat at FS 90
airframe sn1 "S/N 1" serial 1 { weighed wing.spar 62 lb }
`;
const folder = folderOf({ "kite.poise": kite });

test("how much is weighed, and what to weigh next", () => {
  const { status, stdout, stderr } = poise(["progress"], { in: folder });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toBe(`Kite: how much of it is weighed
assembly      basic   weighed  quoted  calculated  estimated  without a mass
the aircraft  101 lb  1 %      -       59 %        40 %       1
  wing        101 lb  1 %      -       59 %        40 %

What to weigh next: one spread of it moves the chance of what it bears on most
part       pieces  thought           spread of all  bears on        chance  moves by
wing.skin  1       40 lb estimated   ± 8 lb         budget of wing  34 %    29.5 points
wing.spar  1       60 lb calculated  ± 6 lb         budget of wing  34 %    22.1 points
seat       1       no mass yet       not declared
The chance of exceeding is about basic + growth, reserves unspent; normal, to first order
(JCGM 100:2008, 5.1.2).
`);
});

test("of an airframe: its own weighings, and those of the design apart", () => {
  const { stdout } = poise(["progress", "--airframe", "sn1", "--most", "1"], { in: folder });
  expect(stdout.split("\n").slice(0, 5)).toEqual([
    "Kite, S/N 1: how much of it is weighed",
    "assembly      basic   weighed  weighed elsewhere  quoted  calculated  estimated  without a mass",
    "the aircraft  103 lb  60 %     1 %                -       -           39 %       1",
    "  wing        103 lb  60 %     1 %                -       -           39 %",
    "weighed elsewhere: as a piece of the design, and not as this airframe's own",
  ]);
  expect(stdout).toContain("\n2 more: --most 3 shows them all\n");
});

test("while a part has no mass there is no chance of a limit, which is said", () => {
  const flown = `${kite}seat pilot at FS 95 range 0 lb .. 200 lb
envelope normal { takeoff 300 lb; cg 100 lb: FS 90 .. 110; cg 300 lb: FS 90 .. 110 }
loading solo { pilot 150 lb }
`;
  const next = (text: string) => poise(["progress"], { in: folderOf({ "kite.poise": text }) });
  const open = "While a part has no mass, no chance of exceeding what it counts in is given";
  expect(next(flown).stdout).toContain(open);
  expect(next(flown).stdout).not.toContain("takeoff weight");
  const known = next(flown.replace("part seat at", "part seat estimated 49 lb at")).stdout;
  // 101 + 49 + 150 lb at takeoff: on the limit
  expect(known).toContain("the takeoff weight, solo");
  expect(known).not.toContain(open);
});

test("as JSON, in kg", () => {
  const { stdout } = poise(["progress", "--format=json"], { in: folder });
  const { assemblies, next } = JSON.parse(stdout);
  expect(assemblies[1]).toMatchObject({ path: "wing", without_a_mass: 0 });
  expect(assemblies[1].estimated_kg).toBeCloseTo(40 * 0.45359237, 9);
  expect(next[0]).toMatchObject({
    path: "wing.skin",
    basis: "estimated",
    bears_on: "budget of wing",
  });
  expect(next[2]).toMatchObject({ path: "seat", basis: null, mass_kg: null, chance: null });
});

test.each([
  [["progress", "--most", "none"], "--most is a whole number of rows, such as 20"],
  [["progress", "--airframe", "sn2"], "kite has no airframe sn2; did you mean sn1?"],
  [["progress", "a", "b"], "progress takes one file or folder: poise progress kite.poise"],
])("called wrongly: %j", (call, why) => {
  expect(poise(call, { in: folder })).toMatchObject({ status: 2, stderr: `poise: ${why}\n` });
});
