import { expect, test } from "./fixture.mjs";

test("a clause, a unit and a path are accepted with the keyboard, and a new line is one", async ({
  bench,
}) => {
  const { page } = bench;
  await bench.open("kite.poise");
  const list = page.locator(".suggest-widget.visible .monaco-list-row");
  const focused = page.locator(".suggest-widget.visible .monaco-list-row.focused");
  const type = text => page.keyboard.type(text, { delay: 60 });
  /** A list that came while more was typed may be gone again: asked for once more. */
  const offers = async (...texts) =>
    expect(async () => {
      if ((await focused.count()) === 0) await page.keyboard.press("Control+Space");
      for (const text of texts) await expect(focused).toContainText(text, { timeout: 3_000 });
    }).toPass();

  await page.keyboard.press("Control+End");
  // a name of one's own, even one that a declaration begins with
  await type("part tank");
  await expect(list).toHaveCount(0);
  await type(" cal");
  await offers("calculated");
  await page.keyboard.press("Tab");
  // what came by itself gives way to a word that is typed already
  await type(" 4 ");
  await page.keyboard.type("l");
  await expect(focused).toContainText("lb");
  await page.keyboard.type("b");
  await expect(focused).toContainText("lb");
  await page.keyboard.press("Enter");
  await expect(bench.line(/^part\stank\scalculated\s4\slb$/)).toBeVisible();

  await type("require mass(sp");
  await offers("wing.spar", "42.5 lb at FS 120");
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
  await page.keyboard.press("Enter");
  await expect(bench.line(/^require\smass\(wing\.spar\)?$/)).toBeVisible();
  await page.keyboard.press("End");
  await type(" <= 45 l");
  await offers("lb");
  await page.keyboard.press("Tab");
  await expect(bench.line(/^require\smass\(wing\.spar\)\s<=\s45\slb$/)).toBeVisible();
});

test("a name is changed in both files at once", async ({ bench }) => {
  const { page } = bench;
  await bench.open("kite.poise");
  await page.keyboard.press("Control+End");
  await page.keyboard.type("require mass(wing.spar) < 45 lb");
  await page.keyboard.press("Escape");
  await bench.token("spar").click();
  await page.keyboard.press("F2");
  const input = page.locator(".rename-box input");
  await expect(input).toHaveValue("spar");
  await input.fill("main_spar");
  await page.keyboard.press("Enter");
  await expect(bench.line(/mass\(wing\.main_spar\)/)).toBeVisible();
  await bench.open("wing.poise");
  await expect(bench.line(/part\smain_spar\scalculated/)).toBeVisible();
});
