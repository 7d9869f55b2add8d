import { execFileSync } from "node:child_process";
import { readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "./fixture.mjs";

const wing = "wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb";
const tail = "tail weighs 13.5 lb, 1.5 lb over its budget of 12 lb";

test("a finding is seen, read, fixed, and moves to where the next one is", async ({
  bench,
  folder,
}) => {
  await bench.open("wing.poise");
  await bench.command("Problems: Focus on Problems View");
  await expect(bench.squiggles("error")).toHaveCount(1);
  await expect(bench.problems(wing)).toHaveCount(1);
  await expect(bench.problems(wing)).toHaveAttribute("aria-label", /Error/);

  await bench.hoverOver("wing");
  for (const figure of ["42.5 lb", "basic", "predicted", "budget", "margin"])
    await expect(bench.hover).toContainText(figure);

  await bench.retype("42.5", "39.5");
  await expect(bench.squiggles("error")).toHaveCount(0);
  await expect(bench.problems(wing)).toHaveCount(0);

  // A file that no editor shows, changed on disk.
  const kite = join(folder, "kite.poise");
  const before = readFileSync(kite, "utf8");
  await written(kite, before.replace("11 lb", "13.5 lb"), bench.problems(tail), 1);
  await expect(bench.problems("kite.poise").first()).toBeVisible();
  await written(kite, before, bench.problems(tail), 0);

  // The same in an editor, not saved; then closed for good.
  await bench.open("kite.poise");
  await bench.retype("11", "13.5");
  await expect(bench.squiggles("error")).toHaveCount(1);
  await expect(bench.problems(tail)).toHaveCount(1);
  await bench.save("kite.poise");
  await bench.close("kite.poise");
  await expect(bench.tab("wing.poise")).toBeVisible();
  await expect(bench.problems(tail)).toHaveCount(1);
});

test("the code of a finding leads to its page", async ({ bench }) => {
  await bench.open("wing.poise");
  await bench.command("Problems: Focus on Problems View");
  await bench.problems(wing).locator("a", { hasText: "over-budget" }).click();
  await expect(bench.tab("over-budget.md")).toBeVisible();
  await expect(bench.line("over-budget (error)")).toBeVisible();
});

test("findings follow a file that is renamed, and leave with it", async ({ bench, folder }) => {
  await bench.open("kite.poise");
  await bench.command("Problems: Focus on Problems View");
  await expect(bench.problems(wing)).toHaveCount(1);

  const file = join(folder, "wing.poise");
  const before = readFileSync(file, "utf8");
  await written(file, before.replace("42.5", "39.5"), bench.problems(wing), 0);
  await written(file, before, bench.problems(wing), 1);

  renameSync(join(folder, "wing.poise"), join(folder, "wings.poise"));
  await expect(bench.problems(wing)).toHaveCount(0);
  await expect(bench.squiggles("error")).toHaveCount(1);

  await bench.retype('"wing.poise"', '"wings.poise"');
  await expect(bench.problems(wing)).toHaveCount(1);
  await expect(bench.problems("wings.poise").first()).toBeVisible();

  rmSync(join(folder, "wings.poise"));
  await expect(bench.problems(wing)).toHaveCount(0);
});

test("findings follow the branch that git checks out", async ({ bench, folder }) => {
  const git = (...command) => execFileSync("git", [...identity, ...command], { cwd: folder });
  const file = join(folder, "kite.poise");
  git("init", "--quiet", "--initial-branch=main");
  git("add", ".");
  git("commit", "--quiet", "--message=kite");
  git("checkout", "--quiet", "-b", "heavy");
  writeFileSync(file, readFileSync(file, "utf8").replace("11 lb", "13.5 lb"));
  git("commit", "--quiet", "--all", "--message=heavier");
  git("checkout", "--quiet", "main");

  await bench.open("wing.poise");
  await bench.command("Problems: Focus on Problems View");
  await expect(bench.problems(wing)).toHaveCount(1);
  await expect(bench.problems(tail)).toHaveCount(0);

  // From the other one each time: git writes nothing where the branch is checked out already.
  const checkOut = (from, to) => () => {
    for (const branch of [from, to]) git("checkout", "--quiet", branch);
  };
  await seen(checkOut("main", "heavy"), bench.problems(tail), 1);
  await expect(bench.status).toContainText("56 lb");
  await seen(checkOut("heavy", "main"), bench.problems(tail), 0);
  await expect(bench.status).toContainText("53.5 lb");
});

const identity = ["-c", "user.name=Kite", "-c", "user.email=kite@example.com"];

async function written(file, text, rows, count) {
  await seen(() => writeFileSync(file, text), rows, count);
}

/** The workbench itself begins to watch the disk a second or so after it opens: do it until it sees. */
async function seen(change, rows, count) {
  await expect(async () => {
    change();
    await expect(rows).toHaveCount(count, { timeout: 3_000 });
  }).toPass({ timeout: 30_000 });
}
