import { expect, test } from "vitest";
import { textOf } from "../../grammar/source";
import { tryAnswer } from "../../server/edges/try-answer";
import { whyAnswer } from "../../server/edges/why-answer";
import { judge } from "../../server/judge";
import { emptyProject, sourceOf, withText } from "../../server/project";
import { trialLines, trialOf, triedNow } from "../../server/views/trial";
import { why } from "../../server/views/why";

const AT = "/specs/kite.poise";
const kite = `aircraft kite { units lb, in }
let area = 10 ft^2
assembly wing budget 40 lb {
  part spar {
    was estimated 34 lb
    calculated 30 lb
    at FS 100, WL 5
  }
  part skin calculated area * 0.5 lb/ft^2 at FS 110
  part tip weighed 1 lb
  reserve undrawn 2 lb
}
choice pack default light {
  option light { part cell quoted 3 lb at FS 30 }
  option heavy { part cell quoted 8 lb at FS 30 }
}
`;
const project = withText(emptyProject(["/specs"]), AT, kite);
const { root } = judge(project).roots[0]!;

/** The row that would be written, and what it would do; or why it cannot be tried. */
function tried(path: string, value: string): readonly string[] {
  const trial = trialOf(project, root, path, value);
  if ("why" in trial) return [trial.why];
  const [before, after] = [project, trial.next].map(it => textOf(sourceOf(it, AT)!).split("\n"));
  const row = after!.find((it, i) => it !== before![i]);
  return [row!.trim(), trial.said];
}

test.each([
  ["wing.spar", "30 lb"],
  ["area", "10 ft^2"],
  ["wing.skin", "area * 0.5 lb/ft^2"],
  ["pack", "light"],
  ["wing.undrawn", "2 lb"],
  ["wing", undefined],
  ["empty", undefined],
])("what %s says now is %s", (path, now) => {
  expect(triedNow(root, path)).toBe(now);
});

test("another figure, value, place or option, and what each would do", () => {
  // empty: 30 + 5 + 1 + 3 = 39 lb; FS of (30 × 100 + 5 × 110 + 3 × 30) / 38 = 95.79 in
  expect(tried("wing.spar", "36 lb")).toEqual([
    "calculated 36 lb",
    "empty 39 lb → 45 lb; FS 95.79 in → 96.36 in; wing weighs 42 lb, 2 lb over its budget of 40 lb",
  ]);
  expect(tried("area", "12 ft^2")[0]).toBe("let area = 12 ft^2");
  expect(tried("wing.spar", "FS 90")[0]).toBe("at FS 90, WL 5");
  expect(tried("wing.spar", "WL 7, BL 3")[0]).toBe("at FS 100, BL 3, WL 7");
  expect(tried("wing.tip", "FS 120")[0]).toBe("part tip weighed 1 lb at FS 120");
  expect(tried("pack", "heavy")[0]).toBe("choice pack default heavy {");
});

test.each([
  ["wing.spar", "3 in", "is a mass, not a length"],
  ["wing.spar", "area * cloth", "cloth"],
  ["wing.spar", "", "write a value, as it would stand in the file"],
  ["wing.spar", "3 lb }", "write a value, as it would stand in the file"],
  ["pack", "none", "its options are light, heavy"],
  ["pack", "FS 3", "it has no place"],
  ["wing.rib", "3 lb", "nothing is called wing.rib"],
  ["wing", "3 lb", "it has no figure of its own to try another for"],
])("%s = %s: %s", (path, value, why) => {
  expect(tried(path, value)).toEqual([expect.stringContaining(why)]);
});

test("all that changes, with the places where it stands now", () => {
  const trial = trialOf(project, root, "wing.spar", "36 lb");
  if ("why" in trial) throw new Error(trial.why);
  const lines = trialLines(project, trial);
  const texts = lines.map(it => it.text);
  expect(texts[0]).toBe("Trial: wing.spar 36 lb instead of 30 lb");
  expect(texts).toContain("  wing.spar  revised  30 lb  36 lb  +6 lb");
  expect(texts.at(-1)).toContain("new   error[over-budget]: wing weighs 42 lb");
  const places = lines.flatMap(({ at }) => (at ? at.line.text.slice(at.from, at.to) : []));
  expect(places).toContain("30 lb");
  // nothing was written
  expect(textOf(sourceOf(project, AT)!)).toBe(kite);
});

test("an editor asks at the cursor, then with a value; the document asks again by its name", () => {
  const uri = "file:///specs/kite.poise";
  const found = tryAnswer(project, { uri, position: { line: 3, character: 8 } });
  expect(found).toMatchObject({ path: "wing.spar", now: "30 lb", said: "", edit: null });
  const answer = tryAnswer(project, { uri, path: "wing.spar", value: "29 lb" });
  expect(answer).toMatchObject({ severity: "information" });
  expect(Object.keys(answer!.edit!.changes!)).toEqual([uri]);
  expect(tryAnswer(project, { uri, path: "wing.spar", value: "36 lb" })).toMatchObject({
    severity: "warning",
  });
  expect(tryAnswer(project, { uri, path: "wing.spar", value: "36 in" })).toMatchObject({
    ...{ severity: "error", edit: null },
  });
  expect(tryAnswer(project, { uri, position: { line: 1, character: 0 } })?.path).toBe("area");
  expect(tryAnswer(project, { uri, position: { line: 2, character: 10 } })).toBeNull();
  expect(whyAnswer(project, { uri, path: "wing.spar = 29 lb" })?.text).toContain(
    "Trial: wing.spar 29 lb instead of 30 lb",
  );
});

test("a choice is told by what each option would make of the aircraft", () => {
  const lines = why(root, "pack")!.map(it => it.text);
  expect(lines[0]).toBe("pack, a choice: light counts");
  // (30 × 100 + 5 × 110 + 8 × 30) / 43 = 88.14 in: the tip has no place
  expect(lines.slice(2).map(it => it.trim().split(/ {2,}/))).toEqual([
    ["chosen", "empty weight", "difference", "CG", "moves"],
    ["as it is: light", "39 lb (incomplete)", "FS 95.79 in"],
    ["pack heavy", "44 lb (incomplete)", "+5 lb", "FS 88.14 in", "-7.65 in"],
    [""],
    ["chosen", "left of budget", "outside", "all permitted", "err/warn"],
    ["as it is: light", "no budget", "none", "not judged", "0/0"],
    ["pack heavy", "no budget", "none", "not judged", "0/0"],
  ]);
});

test("a choice that is called like its part: an option is tried, or a figure", () => {
  const text = kite.replaceAll("part cell", "part pack");
  const alike = withText(emptyProject(["/specs"]), AT, text);
  const { root } = judge(alike).roots[0]!;
  const said = (value: string) => {
    const trial = trialOf(alike, root, "pack", value);
    return "why" in trial ? trial.why : trial.title;
  };
  expect(said("heavy")).toBe("pack heavy instead of light");
  expect(said("4 lb")).toBe("pack 4 lb instead of 3 lb");
  expect(said("heavi")).toBe("nothing is called heavi here; the options of pack are light, heavy");
});
