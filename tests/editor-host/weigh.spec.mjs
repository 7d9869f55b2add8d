import { expect, test } from "./fixture.mjs";

test("parts are weighed in by the keyboard alone, and what is off is said before it is written", async ({
  bench,
}) => {
  const { page } = bench;
  const asked = page.locator(".quick-input-widget");
  const rows = asked.locator(".monaco-list-row");
  const enter = async text => {
    await page.keyboard.type(text);
    await page.keyboard.press("Enter");
  };
  await bench.open("wing.poise");
  await expect(bench.status).toContainText("53.5 lb");

  await bench.command("Poise: Enter a Weighed Part");
  await expect(asked).toContainText("Which scale?");
  await enter("bench scale 2");

  await expect(asked).toContainText("Which part?");
  await expect(rows.first()).toContainText("wing.spar");
  await expect(rows.first()).toContainText("42.5 lb calculated");
  await expect(asked).toContainText("tail.fin");
  await enter("spar");

  await expect(asked).toContainText("42.5 lb calculated. Reading in lb");
  await page.keyboard.type("19.3");
  await expect(asked).toContainText("as pounds are to kilograms");
  await page.keyboard.type(" feathers");
  await expect(asked).toContainText("19.3 feathers");
  for (const _ of "19.3 feathers") await page.keyboard.press("Backspace");
  await page.keyboard.type("19.5 kg");
  await expect(asked).toContainText("19.5 kg: 0.49 lb more, no spread is declared");
  await page.keyboard.press("Enter");

  // the next part, and the spar is no longer among the first
  await expect(asked).toContainText("Written. wing.spar: 19.5 kg");
  await expect(asked).toContainText("19.5 kg weighed");
  await page.keyboard.press("Escape");
  await expect(asked).toBeHidden();
  await expect(bench.line("part spar calculated 42.5 lb weighed 19.5 kg on ")).toContainText(
    'by "bench scale 2" at FS 120, WL 40',
  );
  await bench.undoUntil("part spar calculated 42.5 lb at FS 120, WL 40");
});

test("an assembly is weighed as a whole, behind the parts and against their sum", async ({
  bench,
}) => {
  const { page } = bench;
  const asked = page.locator(".quick-input-widget");
  await bench.open("wing.poise");
  await bench.line("part spar").click();
  await page.keyboard.press("End");
  await page.keyboard.press("Enter");
  await page.keyboard.type("part rib calculated 2 lb at FS 121", { delay: 20 });

  await bench.command("Poise: Enter a Weighed Part");
  await expect(asked).toContainText("Which scale?");
  await page.keyboard.press("Enter");
  await expect(asked).toContainText("assemblies, each as a whole");
  await page.keyboard.type("by its parts");
  await expect(asked.locator(".monaco-list-row").first()).toContainText("wing");
  await page.keyboard.press("Enter");
  await expect(asked).toContainText("44.5 lb by its parts. Reading in lb");
  await page.keyboard.type("45");
  await expect(asked).toContainText("45 lb: 0.5 lb more, no spread is declared");
  await page.keyboard.press("Enter");
  await expect(asked).toContainText("Written. wing: 45 lb");
  await page.keyboard.press("Escape");
  await expect(bench.line("weighed 45 lb on ")).toBeVisible();
});
