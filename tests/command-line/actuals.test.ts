import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

// Five calculated parts, each 4 % or 8 % heavier on the scale, and one still to be built.
const kite = `aircraft kite "Kite" {
  units lb, in
  growth estimated 18%, calculated 6%
  spread estimated 10%, calculated 3%, weighed 0.3%
}
assembly wing "Wing" {
  part spar mirrored kind structure {
    estimated 12 lb on 2026-01-05
    calculated 10 lb on 2026-03-01
    weighed 10.4 lb on 2026-09-01
    at FS 120, BL 60
  }
  part rib qty 6 kind structure calculated 1 lb weighed 1.08 lb at FS 130
  part skin calculated 20 lb weighed 20.8 lb at FS 125
  part flap calculated 5 lb at FS 140
}
assembly tail "Tail" {
  part fin calculated 4 lb weighed 4.32 lb at FS 200
  part rudder rev "B" { calculated 2 lb rev "A"; calculated 2.5 lb rev "B"; weighed 2.6 lb; at FS 210 }
  part skid { was calculated 9 lb; weighed 1 lb; at FS 205 }
}
`;

// By hand: calculated 20, 6, 20, 4 and 2.5 lb, weighed 20.8, 6.48, 20.8, 4.32 and 2.6 lb. Ratios 1.04, 1.08,
// 1.04, 1.08, 1.04: mean 1.056, scatter √(0.00192 ÷ 4) = 2.19 %; 55 ÷ 52.5 = 1.0476. The 5 lb to come add
// 4.76 % = 0.238 lb; off by 0.68 % of bias and, ÷ 0.94 for five, 2.33 % of its own: 2.43 % = 0.121 lb.
test("what parts weighed, against what was thought of them", () => {
  const { status, stdout, stderr } = poise(["actuals"], { in: folderOf({ "kite.poise": kite }) });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toBe(`Kite: what was weighed, against what was thought of it

against     records  pieces  thought  weighed  ratio  bias     bias by mass    scatter
estimated   1        2       24 lb    20.8 lb  0.867  -13.3 %  -13.3 %         one alone
calculated  5        11      52.5 lb  55 lb    1.048  +5.6 %   +4.8 % ± 0.7 %  2.2 %

kind          records  pieces  thought  weighed   ratio  bias    bias by mass    scatter
no kind said  3        3       26.5 lb  27.72 lb  1.046  +5.3 %  +4.6 % ± 0.8 %  2.3 %
structure     2        8       26 lb    27.28 lb  1.049  +6 %    +4.9 % ± 1.4 %  2.8 %

assembly  records  pieces  thought  weighed   ratio  bias    bias by mass    scatter
Wing      3        9       46 lb    48.08 lb  1.045  +5.3 %  +4.5 % ± 0.7 %  2.3 %
Tail      2        2       6.5 lb   6.92 lb   1.065  +6 %    +6.5 % ± 1.9 %  2.8 %

estimated: 1 record is too few to go by; it takes 5
1 weighed, with nothing of the same revision to compare with
Kinds and assemblies stand against the most mature record before the weighing; a record counts once.
ratio: sum weighed ÷ sum thought. bias: mean of weighed ÷ thought, less 1. bias by mass: ratio less 1,
± its standard error (Cochran, Sampling Techniques, 6.4). scatter: sample standard deviation of
weighed ÷ thought (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6).

Not weighed yet, and what it would add if it came out alike
basis       pieces  thought  would add             growth counts
calculated  1       5 lb     +0.238 lb ± 0.121 lb  +0.3 lb

The aircraft's growth and spread, if what was weighed is like what is to come
                   now  from the scale
growth calculated  6 %  +4.8 % ± 0.7 %  stays: no further off than chance allows
spread calculated  3 %  2.3 % ± 0.8 %   stays: no further off than chance allows
spread: scatter ÷ c4 (NIST/SEMATECH 6.3.2), itself ± √(1 - c4²) ÷ c4 of it (JCGM 100:2008, E.4.3).
`);
});

test("an airframe's weighings join in: a record counts once, however often its part was weighed", () => {
  const sn = `airframe sn2 serial 2 { weighed wing.spar.LH 10.6 lb on 2026-10-01; weighed wing.flap 5.2 lb }\n`;
  const folder = folderOf({ "kite.poise": kite + sn });
  const { stdout } = poise(["actuals", "--airframe", "sn2", "--format", "json"], { in: folder });
  const { against, not_weighed, records } = JSON.parse(stdout);
  const calculated = against.find((it: { name: string }) => it.name === "calculated");
  // the spars: two of 10.4 lb and one of 10.6 lb, against 10 lb each
  expect(calculated).toMatchObject({ records: 6, pieces: 13 });
  const lb = 0.45359237;
  expect(calculated.thought_kg / lb).toBeCloseTo(30 + 6 + 20 + 4 + 2.5 + 5, 9);
  expect(calculated.weighed_kg / lb).toBeCloseTo(31.4 + 6.48 + 20.8 + 4.32 + 2.6 + 5.2, 9);
  expect(records.map((it: { path: string }) => it.path)).toContain("wing.spar.LH");
  expect(not_weighed.map((it: { pieces: number }) => it.pieces)).toEqual([]);
});

// By hand: 39.2 lb weighed of 37.5 lb thought, 4.53 % more; the scatter is that of the five above.
const parts = `assembly wing growth estimated 30% {
  part spar calculated 10 lb weighed 10.4 lb at FS 120
  part rib calculated 1 lb weighed 1.08 lb at FS 130
  part skin calculated 20 lb weighed 20.8 lb at FS 125
  part fin calculated 4 lb weighed 4.32 lb at FS 200
  part rudder calculated 2.5 lb weighed 2.6 lb at FS 210
}
`;
const proposed = (head: string, call: readonly string[] = ["actuals"]) => {
  const folder = folderOf({ "kite.poise": head + parts });
  const { stdout } = poise(call, { in: folder });
  return { folder, rows: stdout.slice(stdout.indexOf("\nThe aircraft's growth")).split("\n") };
};

test("growth and spread that follow are shown as a change, and written when asked for", () => {
  const head = `aircraft kite "Kite" {
  units lb, in
  growth estimated 18%, calculated 15% // as on the last one
  spread estimated 10%, calculated 9%
}
`;
  const { folder, rows } = proposed(head);
  expect(rows.slice(2)).toEqual([
    "                   now   from the scale",
    "growth calculated  15 %  +4.5 % ± 0.6 %  4.5 %",
    "spread calculated  9 %   2.3 % ± 0.8 %   2.3 %",
    "Growth also covers what no drawing shows yet, of which what was weighed says nothing.",
    "Growth or spread of their own, which stay: wing",
    "spread: scatter ÷ c4 (NIST/SEMATECH 6.3.2), itself ± √(1 - c4²) ÷ c4 of it (JCGM 100:2008, E.4.3).",
    "",
    "kite.poise:3",
    "-   growth estimated 18%, calculated 15% // as on the last one",
    "+   growth estimated 18%, calculated 4.5% // as on the last one",
    "kite.poise:4",
    "-   spread estimated 10%, calculated 9%",
    "+   spread estimated 10%, calculated 2.3%",
    "nothing is written: --write writes it",
    "",
  ]);
  expect(poise(["actuals", "--write"], { in: folder }).stdout).toContain("\nkite.poise: written\n");
  const text = readFileSync(join(folder, "kite.poise"), "utf8");
  expect(text).toBe(
    head.replace("calculated 15%", "calculated 4.5%").replace("calculated 9%", "calculated 2.3%") +
      parts,
  );
  expect(poise(["actuals", "--write"], { in: folder }).stdout).toContain(
    "\nthere is nothing to write\n",
  );
});

test.each([
  ["growth quoted 3%", "growth quoted 3%, calculated 4.5%; spread calculated 2.3%"],
  ["growth 15%", "growth 15%; growth calculated 4.5%; spread calculated 2.3%"],
  ["spread 9%", "spread 9%; growth calculated 4.5%; spread calculated 2.3%"],
  [
    "budget 99 lb margin 2%",
    "budget 99 lb margin 2%; growth calculated 4.5%; spread calculated 2.3%",
  ],
  // an error that is shared, an expression: somebody thought about it
  ["spread calculated 9% common 2%", "spread calculated 9% common 2%; growth calculated 4.5%"],
  ["let a = 9%; growth calculated a", "let a = 9%; growth calculated a; spread calculated 2.3%"],
  ["", "growth calculated 4.5%; spread calculated 2.3%; "],
])("what stands there is kept: %s", (before, after) => {
  const { folder } = proposed(`aircraft kite { ${before} }\n`, ["actuals", "--write"]);
  const text = readFileSync(join(folder, "kite.poise"), "utf8");
  expect(text).toBe(`aircraft kite { ${after} }\n${parts}`);
  expect(poise(["check", "."], { in: folder }).stdout).not.toContain("syntax");
});

test("nothing weighed, and a call that is wrong, are said in a sentence", () => {
  const folder = folderOf({ "kite.poise": "aircraft kite { part a calculated 1 kg at FS 1 }\n" });
  const { status, stdout } = poise(["actuals"], { in: folder });
  expect({ status, stdout }).toEqual({
    status: 0,
    stdout: `kite: what was weighed, against what was thought of it
Nothing is weighed yet, in the design or in an airframe.
`,
  });
  expect(poise(["actuals", "a", "b"], { in: folder })).toMatchObject({
    status: 2,
    stderr: "poise: actuals takes one file or folder: poise actuals kite.poise\n",
  });
});

// By hand: of one side 12 + 6 × 0.5 = 15 lb, both 30 lb on 30.6 lb; the left one of sn2, without the tip it
// removed before, 14 lb on 14.7 lb; its tail 5 + 2 lb calculated and one without a mass.
test("an assembly that was weighed as a whole stands beside the sum of the parts in it", () => {
  const whole = `aircraft kite "Kite" { units lb, in }
assembly wing mirrored {
  weighed 15.3 lb on 2026-09-01
  assembly box { part spar { calculated 11 lb on 2026-03-01; weighed 11.4 lb on 2026-08-01; at FS 120 } }
  part rib qty 6 calculated 0.5 lb at FS 130
  part tip calculated 1 lb at FS 131
  part later effective 9 .. calculated 50 lb at FS 1
}
assembly tail {
  part fin calculated 5 lb calculated 6 lb on 2026-12-01 at FS 200
  part rudder calculated 2 lb at FS 210
  part skid at FS 205
}
airframe sn2 serial 2 {
  remove wing.LH.tip
  weighed wing.LH 14.7 lb on 2026-10-01
  weighed tail 9 lb on 2026-10-02
  remove tail.rudder
}
`;
  const folder = folderOf({ "kite.poise": whole.replace("effective 9 ..", "effective .. 1") });
  const { stdout } = poise(["actuals"], { in: folder });
  expect(stdout.slice(stdout.indexOf("\nWeighed as a whole"))).toBe(`
Weighed as a whole, against the sum of the parts in it as they were thought of
assembly  of          pieces  parts in it  thought  weighed  ratio
wing      the design  2       3            30 lb    30.6 lb  1.020  +0.6 lb
wing.LH   sn2         1       2            14 lb    14.7 lb  1.050  +0.7 lb
tail      sn2         1       3            7 lb     9 lb     -      1 without a mass
A whole also holds what no part lists (paint, sealant, hardware), which growth is for.

Not weighed yet, and what it would add if it came out alike
basis       pieces  thought  would add        growth counts
calculated  2       8 lb     too few weighed  0
`);
  const { wholes } = JSON.parse(poise(["actuals", "--format", "json"], { in: folder }).stdout);
  expect(wholes[1]).toMatchObject({ path: "wing.LH", airframe: "sn2", pieces: 1, parts: 2 });
  expect(wholes[1].weighed_kg / 0.45359237).toBeCloseTo(14.7, 9);
  expect(wholes[2].without_a_mass).toBe(1);
});
