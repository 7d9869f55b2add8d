import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { historyOf } from "../../server/views/history";
import { findingsOf } from "../fixture";

const pound = 0.45359237;

/** An airframe's record, in lb: what was done on which day, and the empty weight from then on. */
function historyIn(text: string) {
  const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  const lb = (kg: number | null | undefined) =>
    kg === undefined || kg === null ? "" : Number((kg / pound).toFixed(3));
  return historyOf(roots[1]!.root).map(it => `${it.what} ${lb(it.mass ?? it.empty?.mass)}`);
}

const kite = (change: string, parts = "", own = "") => `aircraft kite { units lb, in }
part hull weighed 790 lb at FS 100
part radio quoted 3 lb at FS 60
assembly gear at FS 90 {
  part leg mirrored calculated 20 lb at FS 0, BL 30
  part brake weighed 4 lb on 2026-02-01 at FS 2
}
${parts}
airframe sn1 { ${own} }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 100 lb
  scale main at FS 110 reads 700 lb
}
${change}
`;

test.each([
  // 800 lb on the scales, less what the line itself says was taken off
  ["by itself", "remove radio weighed 3.5 lb", ["remove radio -3.5", "change c 796.5"]],
  ["quoted", "remove radio quoted 3.4 lb", ["remove radio -3.4", "change c 796.6"]],
  [
    "on a later day",
    "remove radio weighed 3.5 lb on 2027-02-07",
    ["remove radio -3.5", "change c 796.5"],
  ],
  ["one side", "remove gear.leg.LH weighed 21 lb", ["remove gear.leg.LH -21", "change c 779"]],
  // each of the two sides weighs 21 lb
  ["both sides", "remove gear.leg weighed 21 lb", ["remove gear.leg -42", "change c 758"]],
  ["an assembly", "remove gear weighed 45 lb", ["remove gear -45", "change c 755"]],
  ["without a figure", "remove gear", ["remove gear -44", "change c 756"]],
  ["one inside", "remove gear.brake weighed 4.5 lb", ["remove gear.brake -4.5", "change c 795.5"]],
])("a removal with its own figure, %s: that figure goes out", (_, line, told) => {
  const text = kite(`change c of sn1 on 2027-02-01 { ${line} }`);
  expect(historyIn(text).slice(2)).toEqual(told);
});

test("the figure of a removal comes before what the airframe weighed before", () => {
  const own = "weighed radio 3.2 lb on 2026-10-01";
  const text = kite("change c of sn1 on 2027-02-01 { remove radio weighed 3.5 lb }", "", own);
  expect(historyIn(text).slice(2)).toEqual(["remove radio -3.5", "change c 796.5"]);
});

test.each([
  [
    "remove gear quoted 45 lb",
    "syntax: an assembly may be weighed as a whole; quoted belongs to its parts",
  ],
  ["remove radio weighed 3 in", "wrong-dimension: this mass is a mass, not a length"],
  ["remove radio weighed 3 lb on 2027-02-30", "syntax: 2027-02-30 is no day of the calendar"],
])("a figure that does not fit is told where it stands: %s", (line, said) => {
  const text = kite(`change c of sn1 on 2027-02-01 { ${line} }`);
  const errors = findingsOf({ "kite.poise": text }).filter(it => !it.startsWith("weighing-"));
  expect(errors).toEqual([said]);
});

test.each([
  // the radio came off at 3 lb; that a later one weighs 9 lb is nothing to this airframe
  [
    "of the design",
    "part tx quoted 3 lb at FS 60 weighed 9 lb on 2027-12-20",
    "",
    ["remove tx -3", "change c 797"],
  ],
  [
    "of the design, without a date",
    "part tx quoted 3 lb at FS 60 weighed 9 lb",
    "",
    ["remove tx -9", "change c 791"],
  ],
  [
    "of its own",
    "part tx quoted 3 lb at FS 60",
    "weighed tx 3.2 lb on 2027-12-20",
    ["remove tx -3", "change c 797"],
  ],
  [
    "of a part inside",
    "assembly box at FS 60 { part tx quoted 3 lb at FS 0 weighed 9 lb on 2027-12-20 }",
    "",
    ["remove box -3", "change c 797"],
  ],
])("a change counts with the figures of its day: a later record %s", (_, parts, own, told) => {
  const path = told[0]!.split(" ")[1];
  const text = kite(`change c of sn1 on 2026-12-01 { remove ${path} }`, parts, own);
  expect(historyIn(text).slice(2)).toEqual(told);
});

test.each([
  ["thought of by then", "estimated 3 lb weighed 2.8 lb on 2027-02-01", 3],
  ["put on a scale only later: its own first figure", "weighed 2.8 lb on 2027-02-01", 2.8],
  ["twice later", "weighed 2.8 lb on 2027-02-01 weighed 2.9 lb on 2027-03-01", 2.8],
])("what a change installs counts as of its day: %s", (_, records, lb) => {
  const text = kite(`change c of sn1 on 2026-12-01 { install part tx ${records} at FS 60 }`);
  expect(historyIn(text).slice(2)).toEqual([`install tx ${lb}`, `change c ${800 + lb}`]);
});

test("what a change chooses away goes out with the figures of its day", () => {
  const text = kite(
    "change c of sn1 on 2026-12-01 { choose radio2 none }",
    `choice radio2 default fm {
  option fm { part tx quoted 3 lb at FS 60 weighed 9 lb on 2027-12-20 }
  option none { part cover quoted 1 lb at FS 60 }
}`,
  );
  expect(historyIn(text).slice(2)).toEqual(["choose radio2 none ", "change c 798"]);
});

test("an airframe that nobody weighed is the sum of its parts as they are known now", () => {
  const text = kite(
    "change c of sn1 on 2026-12-01 { remove tx }",
    "part tx quoted 3 lb at FS 60 weighed 9 lb on 2027-12-20",
  ).replace(/weighing[^}]*}\n/, "");
  // hull 790, radio 3, legs 40, brake 4 and the tx of 9 lb
  expect(historyIn(text)).toEqual(["sum of its parts 846", "remove tx -9", "change c 837"]);
});
