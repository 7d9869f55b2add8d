import { expect, test } from "./fixture.mjs";
import { startWebHost } from "./web-host.mjs";

/** The same workbench without a server: what runs, runs in the browser. What is saved there stays there. */
const place = { open: startWebHost };
test.use({ place });

test("in a browser alone: the weight budget, and a new aircraft", async ({ bench }) => {
  const { page } = bench;
  const row = text => page.locator(".sidebar .pane .monaco-list-row", { hasText: text }).first();
  await bench.open("kite.poise");
  await bench.budget();
  await expect(row("Wing")).toContainText("2.5 lb over");

  await bench.command("Poise: New Aircraft");
  await page.locator(".quick-input-widget input.input").fill("Heron 2");
  await page.keyboard.press("Enter");
  const choices = page.locator(".quick-input-widget .monaco-list-row");
  await choices.filter({ hasText: "kg, mm, L" }).click();
  await choices.filter({ hasText: "2" }).click();
  await expect(bench.tab("heron_2.poise")).toBeVisible();
  await expect(bench.status).toContainText(/Heron 2 [\d.,]+ kg/);
  await expect(row("Heron 2")).toBeVisible();
  await expect(bench.squiggles("error")).toHaveCount(0);
});

test("in a browser alone: findings, hover, a fix, a second file, a text never saved", async ({
  bench,
}) => {
  const { page } = bench;
  const wing = bench.problems("wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb");
  const tail = bench.problems("tail weighs 13.5 lb, 1.5 lb over its budget of 12 lb");

  await bench.open("kite.poise");
  await bench.command("Problems: Focus on Problems View");
  // of a file that no editor shows
  await expect(wing).toHaveCount(1);
  await expect(bench.status).toContainText("53.5 lb");

  await bench.open("wing.poise");
  await expect(bench.squiggles("error")).toHaveCount(1);
  await bench.hoverOver("wing");
  for (const figure of ["42.5 lb", "predicted", "budget", "margin"])
    await expect(bench.hover).toContainText(figure);
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
  await bench.retype("42.5", "39.5");
  await expect(wing).toHaveCount(0);
  await expect(bench.status).toContainText("50.5 lb");
  await bench.save("wing.poise");
  await bench.close("wing.poise");
  await expect(bench.status).toContainText("50.5 lb");

  await bench.retype("11", "13.5");
  await expect(tail).toHaveCount(1);
  await bench.undoUntil("weighed 11 lb");
  await expect(tail).toHaveCount(0);

  // beside the tabs
  await page.locator(".tabs-container").dblclick({ position: { x: 500, y: 15 } });
  await expect(bench.tab("Untitled-1")).toBeVisible();
  await page.keyboard.press("Control+k");
  await page.keyboard.press("m");
  await page.locator(".quick-input-widget input.input").fill("Poise");
  await page
    .locator(".quick-input-widget .monaco-list-row.focused", { hasText: "Poise" })
    .waitFor();
  await page.keyboard.press("Enter");
  await expect(page.locator('[id="status.editor.mode"]')).toContainText("Poise");
  const moth = "aircraft moth\npart fin quoted 1 stone at FS 9\nrequire mass(fin) < 13 lb";
  await page.keyboard.type(moth, { delay: 20 });
  await expect(bench.problems(/14 lb/)).toHaveCount(1);
});

test.describe(() => {
  test.use({ sources: "loaded" });
  test("in a browser alone: a quick fix is offered and applied", async ({ bench }) => {
    const { page } = bench;
    await bench.open("kite.poise");
    await expect(bench.squiggles("error")).toHaveCount(1);
    await bench.token("weekend").click();
    const raise = page
      .locator(".action-widget .monaco-list-row.action")
      .filter({ hasText: "Raise ballast" });
    await expect(async () => {
      await page.keyboard.press("Control+.");
      await expect(raise).toBeVisible({ timeout: 3_000 });
    }).toPass();
    await raise.click();
    await expect(bench.line("ballast nose_ballast 13.5 lb at FS 10")).toBeVisible();
    await expect(bench.squiggles("error")).toHaveCount(0);
  });
});
