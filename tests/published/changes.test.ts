import { expect, test } from "vitest";
import { folderOf, poise } from "../command-line/poise";

// FAA-H-8083-25C, Pilot's Handbook of Aeronautical Knowledge, chapter 10, and AC 43.13-1B, 10-2c: a change
// is negligible up to 1 lb below 5,000 lb of empty weight, 2 lb up to 50,000 lb and 5 lb above, and where it
// moves the CG by less than 0.05 % of the mean aerodynamic chord. Which of the two holds at exactly
// 5,000 lb they leave open; 2 lb is taken. (Published checks NEGL-1800, NEGL-5000, NEGL-12000, NEGL-CG and
// AC43-minfuel, which has its spec among the rules.)
const plane = (empty: number, changes: string, mac = "mac at FS 90 length 58.8") =>
  `aircraft plane { units lb, in; ${mac} }
part hull weighed ${empty} lb at FS 100
airframe sn1 { }
weighing first of sn1 on 2026-01-01 { scale hook at FS 100 reads ${empty} lb }
${changes}
`;
const changesOf = (spec: string) =>
  poise(["history", ".", "sn1"], { in: folderOf({ "plane.poise": spec }) })
    .stdout.split("\n")
    .flatMap(row => row.match(/change \w+( \(.*?\))?/)?.[0] ?? []);
const added = (lb: number, at = 100) =>
  `change add of sn1 on 2026-02-01 { install part extra weighed ${lb} lb at FS ${at} }`;

test.each([
  [1800, 1],
  [4999, 1],
  [5000, 2],
  [12000, 2],
  [50000, 2],
  [50001, 5],
])("at %i lb of empty weight %i lb more are negligible, and no more", (empty, threshold) => {
  expect(changesOf(plane(empty, added(threshold)))).toEqual(["change add (negligible)"]);
  expect(changesOf(plane(empty, added(threshold + 0.01)))).toEqual(["change add"]);
});

// NEGL-CG: of a chord of 58.8 in 0.05 % are 0.0294 in; 1 lb on 1,799 lb, so many inches aft, is 1/1800 of that
test.each([
  [0.0293, " (negligible)"],
  [0.03, ""],
])("the CG moves by %f in: %s", (shift, word) => {
  expect(changesOf(plane(1799, added(1, 100 + 1800 * shift)))).toEqual([`change add${word}`]);
});

test("negligible changes add up, and are told apart from those that do not", () => {
  const change = (name: string, on: string, lb: number) =>
    `change ${name} of sn1 on ${on} { install part p_${name} weighed ${lb} lb at FS 100 }`;
  const spec = plane(
    1800,
    [
      change("a", "2026-02-01", 0.6),
      // 1.2 lb since the weighing
      change("b", "2026-03-01", 0.6),
      change("c", "2026-04-01", 0.6),
      change("d", "2026-05-01", 3),
      change("e", "2026-06-01", 0.9),
    ].join("\n"),
  );
  expect(changesOf(spec)).toEqual([
    "change a (negligible)",
    "change b (negligible by itself)",
    "change c (negligible)",
    "change d",
    "change e (negligible)",
  ]);
});

test("without a chord or with an unknown arm nothing is called negligible", () => {
  expect(changesOf(plane(1800, added(0.5), ""))).toEqual(["change add"]);
  const unknown = "change add of sn1 on 2026-02-01 { install part extra weighed 0.5 lb }";
  expect(changesOf(plane(1800, unknown))).toEqual(["change add"]);
});

test("the record says what the word rests on, and that other rules may hold", () => {
  const folder = folderOf({ "plane.poise": plane(1800, added(1)) });
  const { stdout } = poise(["history", ".", "sn1"], { in: folder });
  expect(stdout).toContain("(AC 43.13-1B, 10-2c; FAA-H-8083-25C, chapter 10)");
  expect(stdout).toContain("Local regulations");
});

// FAA Aviation Mechanic General test bank, empty weight change (check AMG-1): 1,500 lb at 28.4 in; two seats of
// 12 lb out at 68.5; structure 28 lb at 73, a seat 30 lb at 70.5 and a radio 25 lb at 85 in: 1,559 lb at 30.3 in.
test("seats out, structure, a seat and a radio in: the record has the printed weight and CG", () => {
  const spec = `aircraft plane { units lb, in; mac at FS 20 length 60 }
part seats qty 2 weighed total 24 lb at FS 68.5
part rest weighed 1476 lb at FS 27
airframe sn1 { }
weighing first of sn1 on 2026-01-01 { scale hook at FS 28.4 reads 1500 lb }
change refit of sn1 on 2026-02-01 {
  remove seats
  install part structure weighed 28 lb at FS 73
  install part seat weighed 30 lb at FS 70.5
  install part radio weighed 25 lb at FS 85
}
`;
  const { stdout } = poise(["history", "."], { in: folderOf({ "plane.poise": spec }) });
  const rows = stdout.split("\n").map(row => row.split(/ {2,}/));
  expect(rows.find(it => it[1] === "remove seats")).toEqual([
    "2026-02-01",
    "remove seats",
    "-24 lb",
    "FS 68.5 in",
  ]);
  expect(rows.find(it => it[1] === "change refit")).toEqual([
    "2026-02-01",
    "change refit",
    "1,559 lb",
    "FS 30.3 in",
  ]);
});
