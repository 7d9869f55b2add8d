import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "./fixture.mjs";

test("a document is formatted, and undone in one step", async ({ bench, folder }) => {
  const { page } = bench;
  await bench.open("wing.poise");
  await expect(bench.squiggles("error")).toHaveCount(1);
  await bench.line("part spar").click();
  await page.keyboard.press("End");
  await page.keyboard.press("Enter");
  await page.keyboard.type("part   rib  quoted 2lb;part tip // last", { delay: 20 });
  await bench.command("Format Document");
  await expect(bench.line(/^\s{2}part\srib\squoted\s2\slb$/)).toBeVisible();
  await expect(bench.line(/^\s{2}part\stip\s\/\/\slast$/)).toBeVisible();
  await bench.save("wing.poise");
  expect(readFileSync(join(folder, "wing.poise"), "utf8")).toBe(`// What lifts it.
assembly wing "Wing" budget 40 lb {
  part spar calculated 42.5 lb at FS 120, WL 40
  part rib quoted 2 lb
  part tip // last
}
`);
  await bench.undoUntil(/part\s{3}rib/);
});

test("blocks and comments fold, and stay folded while the file is formatted", async ({ bench }) => {
  const { page } = bench;
  await bench.open("wing.poise");
  // The editor folds by indents until the server is there.
  await expect(bench.squiggles("error")).toHaveCount(1);
  await page.keyboard.press("Control+End");
  await page.keyboard.type("let  gap = 3 lb\n// first\nsecond", { delay: 20 });
  await expect(bench.line("// second")).toBeVisible();
  await expect(async () => {
    // On its words, for a figure behind them takes no cursor; again, for the line of figures above it
    // may come in between.
    await bench.line("assembly wing").click({ position: { x: 30, y: 8 } });
    await page.keyboard.press("Control+Shift+BracketLeft");
    await expect(bench.line("part spar")).toBeHidden({ timeout: 1_000 });
  }).toPass();
  await bench.command("Fold All Block Comments");
  await expect(bench.line("// second")).toBeHidden();
  await bench.command("Format Document");
  await expect(bench.line(/^let\sgap\s=\s3\slb$/)).toBeVisible();
  await expect(bench.line("part spar")).toBeHidden();
  await expect(bench.line("// second")).toBeHidden();
  await expect(bench.editor.locator(".view-line").filter({ hasText: /^}$/ })).toBeVisible();
});
