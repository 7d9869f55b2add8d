import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { why } from "../../server/views/why";

const kite = `aircraft kite { units lb, in, gal }
fluid mogas 6 lb/gal
tank main_tank holds 10 gal of mogas unusable 0.5 gal at FS 100, WL 20
part hull weighed 790 lb at FS 100, WL 30
part radio weighed 3 lb at FS 60, WL 40
airframe sn1 "S/N 001" { }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 102 lb, 104 lb tare 3 lb
  scale main at FS 110 reads 700 lb ± 1 lb
  aboard main_tank 1 gal
  aboard pilot 4 lb at FS 80
  missing radio
}
change refit of sn1 on 2027-01-20 { install part beacon weighed 2 lb at FS 200, WL 60 }
`;

const told = (spec: string, path: string) => {
  const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", spec));
  return why(roots[0]!.root, path)?.map(it => it.text);
};

test("a weighing is told scale by scale, what was aboard less, what was missing more", () => {
  // by hand: 100 + 700 - 6 + 3 (its unusable stays in) - 4 + 3 = 796 lb
  // 100*20 + 700*110 - 600 + 300 - 320 + 180 = 78,560 lb in; by its parts 796 lb, 79,480 lb in
  // WL: (790*30 + 3*40 + 3*20) / 796 = 30.0 in
  expect(told(kite, "sn1.first")).toEqual([
    "first: weighing of S/N 001 on 2026-11-12",
    "",
    "On the scales, taken out, put in   mass       FS   BL   FS moment",
    "                                     lb       in   in       lb in",
    "  nose                              100    20       0       2,000",
    "    mean of 102 lb, 104 lb, less 3 lb tare",
    "  main                              700   110       0      77,000",
    "    reads 700 lb",
    "  ───────────────────────────────────────────────────────────────",
    "  less main_tank                     -3   100       0        -300",
    "  less pilot                         -4    80       0        -320",
    "  ───────────────────────────────────────────────────────────────",
    "  plus radio                          3    60       0         180",
    "  ───────────────────────────────────────────────────────────────",
    "  basic empty weight                796    98.69    0      78,560",
    "  ───────────────────────────────────────────────────────────────",
    "  by its parts                      796    99.85    0      79,480",
    "  unexplained                         0                      -920",
    "",
    "CG, basic empty weight: moment ÷ mass",
    "  FS  78,560 lb in ÷ 796 lb = 98.69 in",
    "  BL  0 lb in ÷ 796 lb = 0 in",
    "  WL  30 in, as its parts have it: scales measure no height",
    "",
    "How sure",
    "  scales            ± 1.41 lb, one standard deviation",
    "  scales and parts  ± 1.41 lb together",
  ]);
});

test("an airframe by its name is its empty weight: as weighed, and what was changed since", () => {
  const lines = told(kite, "sn1")!;
  expect(lines.slice(0, 8)).toEqual([
    "empty: the basic empty weight of S/N 001",
    "",
    "As weighed                     mass       FS   BL   FS moment",
    "                                 lb       in   in       lb in",
    "  weighing first, 2026-11-12    796    98.69    0      78,560",
    "  change refit, 2027-01-20        2   200       0         400",
    "  ───────────────────────────────────────────────────────────",
    "  basic empty weight            798    98.95    0      78,960",
  ]);
  expect(lines.at(-1)).toContain("as its parts have it: scales measure no height");
});

test("what stands behind an airframe's name is as it is in that one", () => {
  expect(told(kite, "sn1.beacon")?.[0]).toContain("beacon");
  expect(told(kite, "beacon")).toBeUndefined();
  expect(told(kite, "sn1.antenna")).toBeUndefined();
});

test("a weighing that is not understood says so and compares nothing", () => {
  const lines = told(kite.replace("reads 700 lb", "reads 700 gal"), "sn1.first")!;
  expect(lines[0]).toBe(
    "first: weighing of S/N 001 on 2026-11-12, not understood: it does not count",
  );
  expect(lines.join("\n")).not.toMatch(/unexplained|How sure/);
});
