import { expect, test } from "./fixture.mjs";

// without trust: what is shown and followed here needs none
test.use({ trusted: false });

test("how a figure came about: from the cursor, after a change, and back to its source", async ({
  bench,
}) => {
  await bench.open("wing.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.token("spar").click();
  await bench.command("Poise: Show How This Figure Came About");
  await expect(bench.tab("wing.spar (why)")).toBeVisible();
  await expect(bench.line("about the datum")).toContainText("42.5 lb × 120 in = 5,100 lb in");

  await bench.tab("wing.poise").click();
  await bench.retype("42.5", "39.5");
  await bench.tab("wing.spar (why)").click();
  await expect(bench.line("about the datum")).toContainText("39.5 lb × 120 in = 4,740 lb in");

  await bench
    .line("governs")
    .locator("span", { hasText: "wing.poise:3:13" })
    .last()
    .click({
      modifiers: ["ControlOrMeta"],
    });
  await expect(bench.tab("wing.poise")).toHaveClass(/active/);
  await expect(
    bench.page.locator(".editor-status-selection, #status\\.editor\\.selection"),
  ).toContainText("Ln 3, Col 13");
});

test("the hover links to it", async ({ bench }) => {
  await bench.open("wing.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.hoverOver("wing");
  await bench.page.getByRole("link", { name: "How it comes about" }).click();
  await expect(bench.tab("wing (why)")).toBeVisible();
  await expect(bench.line("margin")).toContainText("40 lb − 42.5 lb = -2.5 lb");
});
