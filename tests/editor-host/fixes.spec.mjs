import { expect, test } from "./fixture.mjs";

test.use({ sources: "loaded" });

test("a quick fix says how far, and the finding goes", async ({ bench }) => {
  const { page } = bench;
  await bench.open("kite.poise");
  await expect(bench.squiggles("error")).toHaveCount(1);

  await bench.token("weekend").click();
  const menu = page.locator(".action-widget .monaco-list-row.action");
  await expect(async () => {
    await page.keyboard.press("Control+.");
    await expect(menu.first()).toBeVisible({ timeout: 3_000 });
  }).toPass();
  await expect(menu).toContainText([
    "Raise ballast nose_ballast from 6 lb to 13.5 lb",
    "Lower baggage from 80 lb to 61.8 lb",
  ]);
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
  await menu.filter({ hasText: "Raise ballast" }).click();
  await expect(bench.line("ballast nose_ballast 13.5 lb at FS 10")).toBeVisible();
  await expect(bench.squiggles("error")).toHaveCount(0);
});
