import { expect, test } from "./fixture.mjs";

test("figures stand at the ends of lines, and follow what is typed", async ({ bench }) => {
  await bench.open("wing.poise");
  await expect(bench.line("assembly wing")).toContainText("= 42.5 lb, 2.5 lb over");
  await bench.retype("42.5", "2 * 19.5");
  await expect(bench.line("assembly wing")).toContainText("= 39 lb, 1 lb left");
  await expect(bench.line("part spar")).toContainText("= 39 lb");
});

test("those of another file follow when typing rests", async ({ bench }) => {
  const beside = bench.page.locator(".view-line", { hasText: "aircraft kite" });
  await bench.open("wing.poise");
  await bench.page.keyboard.press("Control+\\");
  await bench.open("kite.poise");
  await expect(beside).toContainText("= 53.5 lb");
  await bench.retype("42.5", "39.5");
  await expect(beside).toContainText("= 50.5 lb");
});

test("a line of figures stands above an assembly with a budget, and leads to how it comes about", async ({
  bench,
}) => {
  const lens = bench.page.locator(".codelens-decoration a");
  await bench.open("wing.poise");
  await expect(lens).toHaveText("predicted 42.5 lb of 40 lb (106.3 %) · CG FS 120 in");
  await bench.retype("42.5", "39.5");
  await expect(lens).toHaveText("predicted 39.5 lb of 40 lb (98.8 %) · CG FS 120 in");
  await lens.click();
  await expect(bench.tab("wing (why)")).toBeVisible();
});
