import { expect, test } from "vitest";
import { positionsOf } from "../../grammar/source";
import { changeHints } from "../../server/features/change-hints";
import { emptyProject, type Project, sourceOf, withText } from "../../server/project";

const AT = "/specs/kite.poise";
const kite = (rows: string): Project =>
  withText(emptyProject(["/specs"]), AT, `aircraft kite { units lb, in }\n${rows}`);
const wing = `assembly wing budget 40 lb {
  part spar calculated 30 lb at FS 100
  part rib qty 4 calculated 1 lb at FS 110
}
part hull weighed 90 lb at FS 90 // the whole of it
`;

/** "row: what stands at its end" of every changed line. */
function told(base: string, head: string, from = 0, to = 100): readonly string[] {
  const project = kite(head);
  const range = { start: { line: from, character: 0 }, end: { line: to, character: 0 } };
  const found = changeHints(project, { name: "HEAD", project: kite(base) }, AT, range);
  return found.map(({ at, parts }) => {
    const { line } = positionsOf(sourceOf(project, AT)!, at).start;
    return `${line}: ${parts.map(it => it.text).join("")}`;
  });
}

test("what a changed line does, and what share of the budget around it is spent now", () => {
  // 34 of 40 lb is 85 %, 36 of 40 lb 90 %
  expect(told(wing, wing.replace("30 lb", "32 lb"))).toEqual([
    "2: +2 lb, wing 85 % → 90 % since HEAD",
  ]);
  expect(told(wing, wing.replace("qty 4", "qty 3"))).toEqual([
    "3: −1 lb, wing 85 % → 83 % since HEAD",
  ]);
});

test("new, moved and matured parts, and one in no budget", () => {
  expect(told(wing, wing.replace("90 lb at", "92.5 lb at"))).toEqual(["5: +2.5 lb since HEAD"]);
  expect(told(wing, wing.replace("FS 100", "FS 105"))).toEqual(["2: moved since HEAD"]);
  expect(told(wing, wing.replace("part spar calculated", "part spar quoted"))).toEqual([
    "2: matured since HEAD",
  ]);
  expect(told(wing, `${wing}part tail weighed 3 lb at FS 200\n`)).toEqual([
    "6: new, +3 lb since HEAD",
  ]);
});

test("what did not change says nothing: layout, units, rows that are not asked for", () => {
  expect(told(wing, wing)).toEqual([]);
  expect(told(wing, `\n// laid out anew\n${wing.replace("30 lb", "480 oz")}`)).toEqual([]);
  expect(told(wing, wing.replace("30 lb", "32 lb"), 3, 9)).toEqual([]);
  expect(told("", wing.replace("30 lb", "32 lb"), 2, 2)).toEqual(["2: new, +32 lb since HEAD"]);
});
