import { execFileSync } from "node:child_process";
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { editor, holds } from "./client";

const kite = (mass: string) =>
  `aircraft kite { units lb, in }\npart hull weighed ${mass} at FS 90\n`;

test("what a line does since the last commit, and after the next one no more", async () => {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-base-")));
  const git = (...args: string[]) =>
    execFileSync(
      "git",
      ["-c", "user.name=Ada", "-c", "user.email=ada@example.org", "-C", folder, ...args],
      { stdio: "ignore" },
    );
  const file = join(folder, "kite.poise");
  writeFileSync(file, kite("90 lb"));
  git("init", "-q", "-b", "main");
  git("add", ".");
  git("commit", "-q", "-m", "first");
  writeFileSync(file, kite("92 lb"));

  const open = await editor({ folders: [folder], base: "HEAD", refreshes: true });
  const said = async () =>
    (await open.hints(file)).map(it => it.label.map(part => part.value).join("")).join("; ");
  await holds(() => expect(open.refreshed).toContain("inlayHint"));
  expect(await said()).toContain("+2 lb since HEAD");
  const above = async () => JSON.stringify(await open.lenses(file));
  expect(open.refreshed).toContain("codeLens");
  expect(await above()).toContain("+2 lb since HEAD");
  const before = open.refreshed.length;
  git("commit", "-q", "-a", "-m", "second");
  await holds(() => expect(open.refreshed.length).toBeGreaterThan(before));
  expect(await said()).not.toContain("since HEAD");
  expect(await above()).not.toContain("since HEAD");
  expect(await open.stop()).toBe(0);

  // an editor that does not ask for it, and a folder without git
  const plain = await editor({ folders: [folder] });
  expect(JSON.stringify(await plain.hints(file))).not.toContain("since");
  expect(await plain.stop()).toBe(0);
  rmSync(join(folder, ".git"), { recursive: true });
  const bare = await editor({ folders: [folder], base: "HEAD" });
  expect(bare.log).toEqual([]);
  expect(await bare.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});
