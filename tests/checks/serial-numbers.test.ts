import { expect, test } from "vitest";
import { serialNumbers } from "../../server/compute/serial-numbers";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { historyOf } from "../../server/views/history";
import { why } from "../../server/views/why";
import { AT, check } from "../fixture";

const kite = (block: string, after = "") => `aircraft kite { units lb, in }
assembly power { part engine pn "E-9" quoted 150 lb at FS 20 }
assembly wing mirrored { part strut calculated 8 lb at FS 80, BL 40 }
part radio weighed 3 lb at FS 60
airframe sn1 "S/N 1" serial 1 {
${block}
}
${after}`;
const rootOf = (text: string) => judge(withText(emptyProject(["/specs"]), AT, text)).roots[1]!.root;
const numbers = (block: string, after = "") =>
  Object.fromEntries(serialNumbers(rootOf(kite(block, after))));

test("what an airframe has fitted, by its serial number, side by side", () => {
  const block = `  sn power.engine "E-1207"
  sn wing.LH.strut "41"; sn wing.RH.strut "42"
  install part beacon sn "B-7" weighed 1 lb at FS 200`;
  expect(numbers(block)).toEqual({
    beacon: "B-7",
    "power.engine": "E-1207",
    "wing.LH.strut": "41",
    "wing.RH.strut": "42",
  });
  check(kite(block), ["creep"]);
});

test("a change gives a new number, and another piece in its place has none of the old", () => {
  const block = `  sn power.engine "E-1207"; sn radio "R-1"`;
  expect(
    numbers(block, `change overhaul of sn1 on 2026-12-02 { sn power.engine "E-1300" }\n`),
  ).toEqual({
    "power.engine": "E-1300",
    radio: "R-1",
  });
  const swap = (sn: string) =>
    `change radio of sn1 on 2026-12-01 { remove radio; install part radio ${sn}weighed 2 lb at FS 60 }\n`;
  expect(numbers(block, swap(""))).toEqual({ "power.engine": "E-1207" });
  expect(numbers(block, swap('sn "R-2" '))).toEqual({ "power.engine": "E-1207", radio: "R-2" });
  expect(historyOf(rootOf(kite(block, swap('sn "R-2" ')))).map(it => it.what)).toEqual([
    "sum of its parts",
    "remove radio",
    "install radio, S/N R-2",
    "change radio",
  ]);
});

test("no figure rests on a serial number", () => {
  const weight = (block: string) =>
    judge(withText(emptyProject(["/specs"]), AT, kite(block))).roots[1];
  expect(weight(`  sn wing.LH.strut "41"`)!.summary).toBe(weight("")!.summary);
  const lines = why(rootOf(kite(`  sn power.engine "E-1207"`)), "power.engine");
  expect(lines!.map(it => it.text)).toContain("  S/N E-1207");
});

test("what is wrong with one is said where it stands", () => {
  check(
    kite(`  sn wing.strut "1"
//   ^^^^^^^^^^ error[syntax]: wing.strut has two sides, each with its own serial number: say which
  sn nothing "1"
//   ^^^^^^^ error[unknown-name]: nothing is called nothing in sn1
  sn kite "1"
//   ^^^^ error[syntax]: this is the whole airframe: write serial and its number at its head
  sn radio "1"
  sn radio "2"
//   ^^^^^ error[declared-twice]: radio has two serial numbers here
  sn power
//       ^ error[syntax]: sn needs a text in quotes
  sn "x"
//     ^ error[syntax]: the serial number of what? write the path of what is fitted`),
  );
});
