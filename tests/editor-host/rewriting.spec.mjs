import { expect, test } from "./fixture.mjs";

test("an assembly goes to a file of its own by the refactor menu, and the aircraft weighs the same", async ({
  bench,
}) => {
  const { page } = bench;
  await bench.open("kite.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.token("tail").click();
  const menu = page.locator(".action-widget .monaco-list-row.action");
  await expect(async () => {
    await page.keyboard.press("Control+Shift+R");
    await expect(menu.first()).toBeVisible({ timeout: 3_000 });
  }).toPass();
  await expect(menu).toContainText(["Move assembly tail to a file of its own, tail.poise"]);
  await expect(menu.filter({ hasText: "Move tail to wing" })).toBeVisible();
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
  await menu.filter({ hasText: "to a file of its own" }).click();
  await expect(bench.line('include "tail.poise"')).toBeVisible();
  await expect(page.locator(".explorer-folders-view")).toContainText("tail.poise");
  await expect(bench.status).toContainText("53.5 lb");
});

test("another value is tried with no file touched, seen whole, and kept", async ({ bench }) => {
  const { page } = bench;
  const asked = page.locator(".quick-input-widget");
  await bench.open("wing.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.token("spar").click();
  await bench.command("Poise: Try Another Value");
  await expect(asked).toContainText("Now 42.5 lb.");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("39 lb");
  await expect(asked).toContainText("empty 53.5 lb → 50 lb");
  await page.keyboard.press("Enter");
  await expect(asked).toContainText("Keep it: write it into the file");
  // no file was touched
  await expect(bench.line("part spar calculated 42.5 lb")).toBeVisible();
  await asked.locator(".monaco-list-row", { hasText: "Show all that changes" }).click();
  await expect(bench.line("Trial: wing.spar 39 lb instead of 42.5 lb")).toBeVisible();
  await expect(bench.line("gone  error[over-budget]: wing weighs 42.5 lb")).toBeVisible();
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
  await asked.locator(".monaco-list-row", { hasText: "Keep it" }).click();
  await expect(asked).toBeHidden();
  await bench.tab("wing.poise").click();
  await expect(bench.line("part spar calculated 39 lb")).toBeVisible();
  await expect(bench.status).toContainText("50 lb");
  await bench.undoUntil("part spar calculated 42.5 lb");
});
