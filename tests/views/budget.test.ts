import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { type BudgetRow, budgetTree, type Order } from "../../server/views/budget";

const kite = `aircraft kite "Kite" { units lb, in; budget 300 lb; growth estimated 20%; spread estimated 10%, calculated 1% }
assembly wing "Wing" mirrored budget 50 lb {
  part spar "Main spar" calculated 30 lb at FS 100, BL 40
  part skin estimated 18 lb at FS 110, BL 40
}
assembly tail budget 20 lb {
  part fin weighed 21.5 lb at FS 200
  reserve undrawn "Not drawn yet" 1 lb
}
assembly cabin {
  part seats qty 2 quoted 12 lb at FS 90
  part panel at FS 60
}
part engine quoted 110 lb at FS 20
seat pilot at FS 95 range 110 lb .. 250 lb
`;

function treeOf(text: string, order: Order = "mass", airframe?: string): BudgetRow {
  const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  return budgetTree(roots.find(it => it.airframe === airframe)!.root, order);
}

const titles = ({ inside }: BudgetRow): readonly string[] => inside.map(it => it.title);
const within = (row: BudgetRow, title: string) => row.inside.find(it => it.title === title)!;

test("the aircraft with what is in it, as it stands and as predicted", () => {
  const tree = treeOf(kite);
  // 2 × (30 + 18) + 21.5 + 2 × 12 + 110; the skin grows by 2 × 3.6, the reserve adds 1
  expect(tree).toMatchObject({
    kind: "aircraft",
    title: "Kite",
    basic: "251.5 lb",
    predicted: "259.7 lb",
    budget: { budget: "300 lb", verdict: "within", by: "40.3 lb" },
    // the panel has no mass yet
    complete: false,
  });
  expect(titles(tree)).toEqual(["engine", "Wing", "cabin", "tail"]);
});

test("of something mirrored one side, as its budget is; a guess is told by how much of it is one", () => {
  const wing = within(treeOf(kite), "Wing");
  // one side: 30 + 18 lb, growing by 3.6 lb: over the 50 lb only then
  expect(wing).toMatchObject({
    sides: 2,
    basic: "48 lb",
    predicted: "51.6 lb",
    budget: { budget: "50 lb", verdict: "at-risk", by: "1.6 lb", basicShare: expect.closeTo(0.96) },
    complete: true,
  });
  expect(wing.guessed).toBeCloseTo(18 / 48);
  // √(0.3² + 1.8²)
  expect(wing.spread).toBe("1.82 lb");
  expect(within(wing, "skin")).toMatchObject({ basic: "18 lb", guessed: 1, budget: undefined });
});

test("over its budget as it stands: by that, and not by what growth adds", () => {
  expect(within(treeOf(kite), "tail")).toMatchObject({
    basic: "21.5 lb",
    predicted: "22.5 lb",
    budget: { budget: "20 lb", verdict: "over", by: "1.5 lb" },
    guessed: 0,
  });
});

test("a reserve is predicted, and nothing of it is there; a part without a mass is not known", () => {
  const tree = treeOf(kite);
  expect(within(within(tree, "tail"), "Not drawn yet")).toMatchObject({
    kind: "reserve",
    basic: "0 lb",
    predicted: "1 lb",
  });
  const cabin = within(tree, "cabin");
  expect(within(cabin, "panel")).toMatchObject({ basic: "?", predicted: "?", complete: false });
  expect(within(cabin, "seats")).toMatchObject({ basic: "24 lb", complete: true });
});

test("ordered by what is left, by what is least sure, or as written", () => {
  expect(titles(treeOf(kite, "margin"))).toEqual(["tail", "Wing", "engine", "cabin"]);
  expect(titles(treeOf(kite, "spread"))).toEqual(["Wing", "engine", "cabin", "tail"]);
  expect(titles(treeOf(kite, "written"))).toEqual(["Wing", "tail", "cabin", "engine"]);
});

test("of very many parts the first in that order, and what the others come to", () => {
  const rows = Array.from({ length: 30 }, (_, i) => `  part p${i} weighed ${i + 1} lb at FS 1\n`);
  const spec = `aircraft kite { units lb, in }\nassembly box {\n${rows.join("")}  assembly lid { part l weighed 0.1 lb at FS 1 }\n}\n`;
  const box = within(treeOf(spec), "box");
  expect(box.inside).toHaveLength(21);
  expect(titles(box).slice(0, 2)).toEqual(["p29", "p28"]);
  expect(titles(box).at(-1)).toBe("lid");
  // 1 + 2 + … + 10
  expect(box.more).toEqual({ count: 10, predicted: "55 lb" });
});

test("an airframe with what it has: its sides apart where they differ", () => {
  const tree = treeOf(
    `${kite}airframe sn1 "S/N 1" { weighed wing.LH.spar 31 lb on 2026-10-02 by "scale A" }\n`,
    "written",
    "sn1",
  );
  expect(titles(tree).slice(0, 2)).toEqual(["Wing, RH", "Wing, LH"]);
  expect(within(tree, "Wing, LH")).toMatchObject({ sides: 1, basic: "49 lb" });
});
