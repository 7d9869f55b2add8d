import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "./fixture.mjs";

test.use({ sources: "../../examples/dunlin" });

test("the example opens with its weight; a budget too small shows at once and is undone", async ({
  bench,
  folder,
}) => {
  const text = readFileSync(join(folder, "wing.poise"), "utf8");
  const budget = /^assembly wing\b.*\bbudget ([\d.]+) lb/m.exec(text)?.[1];
  const finding = "over its budget of 9 lb";

  await bench.open("wing.poise");
  await bench.command("Problems: Focus on Problems View");
  await expect(bench.status).toContainText(/[\d,.]+ lb/);

  await bench.hoverOver("wing");
  for (const word of [`${budget} lb`, "basic", "predicted", "budget", "margin"])
    await expect(bench.hover).toContainText(word);

  await bench.retype(budget, "9", "assembly wing");
  await expect(bench.squiggles("error")).not.toHaveCount(0);
  await expect(bench.problems(finding)).toHaveCount(1);
  await bench.undoUntil(`budget ${budget} lb`);
  await expect(bench.problems(finding)).toHaveCount(0);
  await expect(bench.squiggles("error")).toHaveCount(0);
});
