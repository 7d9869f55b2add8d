import { expect, test } from "./fixture.mjs";

test("the status bar follows the empty weight", async ({ bench }) => {
  await bench.open("wing.poise");
  await expect(bench.status).toContainText("53.5 lb");
  await bench.retype("42.5", "39.5");
  await expect(bench.status).toContainText("50.5 lb");

  // From elsewhere each time: a pointer that already rests there wakes nothing.
  await expect(async () => {
    await bench.tab("wing.poise").hover();
    await bench.status.hover();
    await expect(bench.hover).toContainText("A calculated weight is not a weighing", {
      timeout: 3_000,
    });
  }).toPass();
});

test("the log opens only when asked; the server restarts with the same findings", async ({
  bench,
}) => {
  const said = what => bench.log.locator(".view-line", { hasText: `language server is ${what}` });
  const finding = bench.problems("over its budget");

  await bench.open("wing.poise");
  await bench.command("Problems: Focus on Problems View");
  await expect(finding).toHaveCount(1);
  await expect(bench.log).toBeHidden();

  // In its first second the workbench may not know the channel yet, and then shows nothing.
  await expect(async () => {
    await bench.command("Poise: Show Log");
    await expect(bench.log).toBeVisible({ timeout: 3_000 });
  }).toPass();
  await expect(said("running")).toHaveCount(1);
  await bench.command("Poise: Restart Language Server");
  await expect(said("running")).toHaveCount(2);
  await expect(said("stopped")).toHaveCount(1);

  await bench.command("Problems: Focus on Problems View");
  await expect(finding).toHaveCount(1);
  await expect(bench.status).toContainText("53.5 lb");
});
