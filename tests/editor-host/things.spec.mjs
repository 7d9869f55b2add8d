import { expect, test } from "./fixture.mjs";

test("a few letters of a path lead to it, in whatever file", async ({ bench }) => {
  const { page } = bench;
  await bench.open("kite.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.command("Go to Symbol in Workspace");
  await page.keyboard.type("wspar", { delay: 30 });
  const row = page.locator(".quick-input-widget .monaco-list-row", { hasText: "wing.spar" });
  await expect(row).toBeVisible();
  await page.keyboard.press("Enter");
  await expect(bench.tab("wing.poise")).toBeVisible();
  await expect(page.locator("#status\\.editor\\.selection")).toContainText("Ln 3");
});

test("what an assembly is in, and what it contains", async ({ bench }) => {
  const { page } = bench;
  const rows = page.locator(".sidebar .monaco-list-row");
  await bench.open("wing.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.token("wing").click();
  await bench.command("Calls: Show Call Hierarchy");
  await expect(rows).toContainText(["wing42.5 lb · CG FS 120 in", "kite53.5 lb · CG FS 144.7 in"]);
  await bench.command("Calls: Show Outgoing Calls");
  await expect(rows).toContainText(["wing42.5 lb · CG FS 120 in", "spar42.5 lb"]);
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
});

test("a file is written in other units once every figure was seen", async ({ bench }) => {
  const { page } = bench;
  await bench.open("wing.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.token("wing").click();
  const menu = page.locator(".action-widget .monaco-list-row.action");
  await expect(async () => {
    await bench.command("Source Action...");
    await expect(menu.first()).toBeVisible({ timeout: 3_000 });
  }).toPass();
  await menu.filter({ hasText: "Write this file in kg, mm and L" }).click();
  const shown = page.locator(".bulk-edit-panel .monaco-list-row");
  await expect(shown.filter({ hasText: "42.5 lb" })).toContainText("19.278 kg");
  await expect(bench.line("part spar calculated 42.5 lb")).toBeVisible();
  await shown.first().locator(".monaco-checkbox, input").click();
  await page.locator(".bulk-edit-panel .monaco-button", { hasText: "Apply" }).click();
  await expect(bench.line("part spar calculated 19.278 kg")).toBeVisible();
  await expect(bench.status).toContainText("53.5 lb");
});

test("the check that CI runs is a task, and leaves what the server told", async ({ bench }) => {
  const { page } = bench;
  const rows = page.locator(".quick-input-widget .monaco-list-row");
  const over = "wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb";
  await bench.open("kite.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await page.keyboard.press("F1");
  await page.locator(".quick-input-widget input.input").fill("task poise");
  await rows.filter({ hasText: "poise" }).first().click();
  await rows.filter({ hasText: "poise: check" }).click();
  const terminal = page.locator(".xterm-rows");
  await expect(terminal).toContainText(`wing.poise:2:29: error[over-budget]: ${over}`);
  await expect(terminal).toContainText("1 error, 0 warnings");
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
  await bench.command("Problems: Focus on Problems View");
  await expect(bench.problems(over)).toHaveCount(1);
  await expect(bench.problems("spar weighs 42.5 lb")).toHaveCount(1);
});
