import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";

const told = (text: string) => {
  const { findings } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  const found = findings.find(it => it.code === "over-allocated")!;
  return [found.message, ...found.related.map(it => it.message)];
};

test("what was given out is told item by item, and the items add up", () => {
  // 12 + 2 × 3 + 3 × 1.1 + 1 = 22.3
  expect(
    told(`aircraft kite { units kg, mm, L; budget 20 kg; growth calculated 10% }
assembly wing budget 12 kg { part spar calculated 3 kg at FS 1 }
assembly tail mirrored budget 3 kg { part fin calculated 1 kg at FS 1 }
part battery calculated 3 kg at FS 4
reserve paint 1 kg
`),
  ).toEqual([
    "the budgets inside kite come to 22.3 kg, 2.3 kg over its own of 20 kg",
    "the budget of wing 12 kg",
    "the budget of tail, both sides, 6 kg",
    "battery has no budget and is predicted to weigh 3.3 kg",
    "the reserve paint 1 kg",
  ]);
});

test("of many without a budget the heaviest, and the rest in one", () => {
  const parts = [1, 2, 3, 4, 5, 6, 7].map(it => `part p${it} weighed ${it} kg at FS 1\n`).join("");
  expect(
    told(`aircraft kite { units kg, mm, L; budget 30 kg }
assembly wing budget 5 kg {}
${parts}`).slice(1),
  ).toEqual([
    "the budget of wing 5 kg",
    ...[3, 4, 5, 6, 7].map(it => `p${it} has no budget and is predicted to weigh ${it} kg`),
    "2 more without a budget are 3 kg",
  ]);
});
