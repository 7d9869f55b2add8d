import { expect, test } from "./fixture.mjs";

test.use({ trusted: false });

test("a folder that is not trusted has the same findings, hovers and weight", async ({ bench }) => {
  const finding = bench.problems("over its budget");

  await expect(bench.restricted).toBeVisible();
  await bench.open("wing.poise");
  await bench.command("Problems: Focus on Problems View");
  await expect(bench.squiggles("error")).toHaveCount(1);
  await expect(finding).toHaveCount(1);
  await expect(bench.status).toContainText("53.5 lb");

  await bench.hoverOver("wing");
  for (const figure of ["42.5 lb", "predicted", "budget", "margin"])
    await expect(bench.hover).toContainText(figure);

  await bench.retype("42.5", "39.5");
  await expect(finding).toHaveCount(0);
  await expect(bench.restricted).toBeVisible();
});
