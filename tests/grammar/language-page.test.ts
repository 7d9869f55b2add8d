import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { read } from "../../grammar/source";
import { draw } from "./draw";
import { print } from "./print";
import { faultsOf } from "./specs";

const page = readFileSync(
  fileURLToPath(new URL("../../grammar/language.md", import.meta.url)),
  "utf8",
);
const blocks = [...page.matchAll(/^```poise\n([\s\S]*?)^```$/gm)].map(([, text]) => text!);

test.each(blocks.map(it => [it.split("\n", 1)[0]!, it]))(
  "reads the block that begins %s",
  (_, block) => {
    expect(draw(block)).toBe(block);
  },
);

test("the page has its blocks", () => {
  expect(blocks.length).toBeGreaterThanOrEqual(5);
});

/** What the page says in passing, as whole statements: the same words must stand in it. */
test.each([
  ["12 kg m^2", "let a = 12 kg m^2", "(let a 12[kg m^2])"],
  ["2 ft 3 1/2 in", "let a = 2 ft 3 1/2 in", "(let a 2[ft]&3.5[in])"],
  ["3/8 in", "let a = 3/8 in", "(let a 0.375[in])"],
  ["span FS 10 .. FS 96", "span FS 10 .. FS 96", "(clause (span start=<FS 10> end=<FS 96>))"],
  ["effective .. 4", "effective .. 4", "(clause (effective serials=..4))"],
  [
    "growth estimated 35%, calculated 20%",
    "growth estimated 35%, calculated 20%",
    "(clause (growth (estimated 35[%]) (calculated 20[%])))",
  ],
  [
    "spread calculated 3% common 1.5%",
    "spread calculated 3% common 1.5%",
    "(clause (spread (calculated 3[%] common=1.5[%])))",
  ],
  [
    "about (FS …, BL …, WL …) .. (FS …, BL …, WL …)",
    "swing 84 deg about (FS 1, BL 2, WL 3) .. (FS 4, BL 5, WL 6)",
    "(clause (swing angle=84[deg] ends=[<FS 1, BL 2, WL 3> <FS 4, BL 5, WL 6>]))",
  ],
  [
    "0.02 lb + 0.1%",
    "weighed 4 lb ± 0.02 lb + 0.1%",
    "(clause (record weighed 4[lb] spread=(0.02[lb] + 0.1[%])))",
  ],
  [
    "fs(loading.takeoff)",
    'require fs(loading.takeoff) >= 124 in for every loading "why"',
    "(require sides=[fs(loading.takeoff) 124[in]] comparisons=[>=] everyLoading why=why)",
  ],
  ["fs(two_up_full.takeoff)", "let a = fs(two_up_full.takeoff)", "(let a fs(two_up_full.takeoff))"],
])("reads %s", (said, text, tree) => {
  expect(page).toContain(said);
  const source = read("x.poise", text);
  expect(faultsOf(source)).toEqual([]);
  expect(print(source.items)).toBe(tree);
});
