import { expect, test } from "./fixture.mjs";

test("words have the colours of their role", async ({ bench }) => {
  await bench.open("wing.poise");
  const colour = word => bench.token(word).evaluate(element => getComputedStyle(element).color);

  await expect(async () => {
    const colours = await Promise.all(["assembly", "wing", "calculated", "42.5"].map(colour));
    expect(new Set(colours).size).toBe(4);
  }).toPass();
  expect(await colour("part")).toBe(await colour("assembly"));
  expect(await colour("spar")).toBe(await colour("wing"));
});

test("a comment goes on in the next line, a brace brings its fellow", async ({ bench }) => {
  await bench.open("wing.poise");
  await bench.line("What lifts it").click();
  await bench.page.keyboard.press("End");
  await bench.page.keyboard.press("Enter");
  await bench.page.keyboard.type("Both sides.");
  await expect(bench.line("// Both sides.")).toBeVisible();

  await bench.page.keyboard.press("Control+End");
  // At a hand's pace: whether a brace stands in a comment is known once the line has its colours.
  await bench.page.keyboard.type("assembly strut {", { delay: 60 });
  await bench.page.keyboard.press("Enter");
  await bench.page.keyboard.type("part tube");
  await expect(bench.line(/^\s{2}part\stube$/)).toBeVisible();
  await expect(bench.editor.locator(".view-line").filter({ hasText: /^}$/ })).toHaveCount(2);
});

test("what a clause takes is told behind its keyword, and which of it comes next", async ({
  bench,
}) => {
  const help = bench.page.locator(".parameter-hints-widget.visible");
  await bench.open("wing.poise");
  await expect(bench.squiggles("error")).toHaveCount(1);
  await bench.line("part spar").click({ position: { x: 60, y: 8 } });
  await bench.page.keyboard.press("End");
  await bench.page.keyboard.press("Enter");
  await bench.page.keyboard.type("part leg quoted 3 lb shape tube ", { delay: 60 });
  await expect(help).toContainText("shape tube outer diameter, inner diameter, length");
  await expect(help.locator(".parameter.active")).toHaveText("outer diameter");
  await bench.page.keyboard.type("3 in, ", { delay: 60 });
  await expect(help.locator(".parameter.active")).toHaveText("inner diameter");
});
