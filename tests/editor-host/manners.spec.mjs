import { cpSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "./fixture.mjs";

/** Two folders in one workspace, each with an aircraft of its own. */
const place = {
  open: async (folder, host) => {
    const [here, there] = ["kites", "moths"].map(it => join(folder, it));
    for (const it of [here, there]) mkdirSync(it);
    for (const file of ["kite.poise", "wing.poise"]) {
      cpSync(join(folder, file), join(here, file));
      rmSync(join(folder, file));
    }
    const moth = 'aircraft moth "Moth" { units kg, mm, L }\npart hull quoted 80 kg at FS 900\n';
    writeFileSync(join(there, "moth.poise"), moth);
    const file = join(folder, "both.code-workspace");
    writeFileSync(file, JSON.stringify({ folders: [{ path: "kites" }, { path: "moths" }] }));
    return { address: host.workspace(file) };
  },
};
test.use({ place });

test("two folders are two workspaces: each file has its aircraft's weight and its budget", async ({
  bench,
}) => {
  const { page } = bench;
  const row = text => page.locator(".sidebar .pane .monaco-list-row", { hasText: text }).first();
  await bench.open("moth.poise");
  await expect(bench.status).toContainText("Moth 80 kg");
  await bench.budget();
  await expect(row("Moth")).toBeVisible();
  await bench.explorer();
  await bench.open("kite.poise");
  await expect(bench.status).toContainText("Kite 53.5 lb");
  await bench.budget();
  await expect(row("Kite")).toBeVisible();
});

test("nothing opens by itself: no panel, no log, and the cursor stays in the editor", async ({
  bench,
}) => {
  const { page } = bench;
  await bench.open("moth.poise");
  await expect(bench.status).toContainText("Moth 80 kg");
  await expect(bench.log).toBeHidden();
  await expect(page.locator(".markers-panel")).toBeHidden();
  await bench.line("part hull").click();
  await page.keyboard.press("End");
  await page.keyboard.type(", WL 20", { delay: 20 });
  await expect(bench.line(/FS\s900,\sWL\s20/)).toBeVisible();
});

test("beside the language stands what the server does, and how long it took", async ({ bench }) => {
  const { page } = bench;
  await bench.open("moth.poise");
  await expect(bench.status).toContainText("Moth 80 kg");
  const item = page.locator('[id="status.languageStatus"]');
  const detail = page.locator(".monaco-hover .hover-language-status", { hasText: "Moth 80 kg" });
  await expect(async () => {
    await page.mouse.move(5, 5);
    await item.hover();
    await expect(detail).toBeVisible({ timeout: 3_000 });
  }).toPass();
  await expect(detail).toContainText(/language server running, last judged in <?\d+ ms/);
  if (process.env.POISE_PICTURE) await page.screenshot({ path: process.env.POISE_PICTURE });
});
