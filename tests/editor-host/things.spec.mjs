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
