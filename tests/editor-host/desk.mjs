// A workbench that stays open from test to test: to load one takes longer than most tests do.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect } from "@playwright/test";
import { workbench } from "./workbench.mjs";

/** Opened at an address that shows the folder. */
export async function openDesk(page, folder, address) {
  const before = filesIn(folder);
  const bench = workbench(page);
  await page.goto(address);
  await bench.ready();
  return {
    page,
    folder,
    bench,
    /** As it was when it was opened: nothing open, and each file as it was. */
    async tidy() {
      for (const _ of ["what pops up", "what asks"]) await page.keyboard.press("Escape");
      await expect(page.locator(".quick-input-widget")).toBeHidden();
      if ((await page.locator(".tab").count()) > 0) {
        await bench.command("View: Close All Editors");
        const drop = page.locator(".monaco-dialog-box .monaco-button", { hasText: "Don't Save" });
        await expect(async () => {
          if (await drop.isVisible()) await drop.click();
          await expect(page.locator(".tab")).toHaveCount(0, { timeout: 500 });
        }).toPass();
      }
      if (await page.locator(".part.panel").isVisible()) await bench.command("View: Hide Panel");
      await bench.explorer();
      putBack(before, folder);
    },
  };
}

function filesIn(folder) {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter(it =>
    it.isFile(),
  );
  const paths = files.map(it => join(it.parentPath, it.name));
  return new Map(paths.map(path => [path, readFileSync(path, "utf8")]));
}

function putBack(before, folder) {
  for (const entry of readdirSync(folder)) {
    const path = join(folder, entry);
    if (![...before.keys()].some(it => it === path || it.startsWith(`${path}/`)))
      rmSync(path, { recursive: true });
  }
  for (const [path, text] of before) {
    if (existsSync(path) && readFileSync(path, "utf8") === text) continue;
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
}
