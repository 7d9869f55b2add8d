import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "./fixture.mjs";

function treeOf({ page }) {
  const pane = page.locator(".pane", { has: page.locator('[aria-label="Weight Budget"]') });
  const rows = page.locator(".sidebar .pane .monaco-list-row");
  return { pane, rows, row: text => rows.filter({ hasText: text }).first() };
}

async function picked({ page }, command, choice) {
  await page.keyboard.press("F1");
  await page.locator(".quick-input-widget input.input").fill(`>${command}`);
  await page
    .locator(".quick-input-widget .monaco-list-row.focused", { hasText: command })
    .waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".quick-input-widget .monaco-list-row", { hasText: choice }).first().click();
}

test.describe("the weight budget", () => {
  test.use({ sources: "../../examples/dunlin" });

  test("tells what is heavy, what is left and what is guessed, and leads there and back", async ({
    bench,
  }) => {
    const { page } = bench;
    const { row, rows } = treeOf(bench);
    await bench.open("wing.poise");
    await bench.budget();
    await expect(row("Dunlin")).toBeVisible();
    await expect(row("Wing")).toContainText(/[▄▂▁]{6} Wing/);
    const spoken = /^Wing: basic [\d.]+ lb, predicted [\d.]+ lb, budget [\d.]+ lb, [\d.]+ lb left/;
    await expect(row("Wing")).toHaveAttribute("aria-label", spoken);

    await row("Landing gear").click();
    await expect(bench.tab("gear.poise")).toBeVisible();
    await bench.line("part trunnion").click();
    const selected = page.locator(".sidebar .pane .monaco-list-row.selected");
    await expect(selected).toContainText("trunnion");
    if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
    await bench.line("assembly gear").click();
    await expect(selected).toContainText("Landing gear");

    await picked(bench, "Poise: Sort Weight Budget", "Least Margin First");
    await expect(rows.nth(1)).toContainText("Hull and decks");

    await picked(bench, "Poise: Show Weight Budget of Another Aircraft", "S/N 003");
    await expect(
      page.locator(".sidebar .title-description, .sidebar .description").first(),
    ).toContainText("S/N 003");
  });
});

test("without an aircraft it says how to begin one; three answers write a sound one", async ({
  bench,
  folder,
}) => {
  const { page } = bench;
  const { row } = treeOf(bench);
  rmSync(join(folder, "kite.poise"));
  await bench.open("wing.poise");
  await bench.budget();
  const begin = page.locator(".welcome-view-content .monaco-button", { hasText: "New Aircraft" });
  await expect(begin).toBeVisible();
  if (process.env.POISE_WELCOME) await page.screenshot({ path: process.env.POISE_WELCOME });
  await begin.click();
  await page.locator(".quick-input-widget input.input").fill("Heron 2");
  await page.keyboard.press("Enter");
  const choices = page.locator(".quick-input-widget .monaco-list-row");
  await choices.filter({ hasText: "kg, mm, L" }).click();
  await choices.filter({ hasText: "2" }).click();
  await expect(bench.tab("heron_2.poise")).toBeVisible();
  await expect(bench.status).toContainText(/Heron 2 [\d.,]+ kg/);
  await expect(row("Heron 2")).toBeVisible();
  await expect(bench.squiggles("error")).toHaveCount(0);
  expect(readFileSync(join(folder, "heron_2.poise"), "utf8")).toContain("units kg, mm, L");
});
