import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { test as base, expect } from "@playwright/test";
import { openDesk } from "./desk.mjs";
import { startHost } from "./host.mjs";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));

/** One host for all tests that treat a folder alike, and one workbench for all that begin with the same files. */
export const test = base.extend({
  sources: ["workspace", { option: true }],
  /** Makes of a copy of the sources what is opened, and says its address and what is to be stopped. */
  place: [{ open: async (folder, host) => ({ address: host.address(folder) }) }, { option: true }],
  trusted: [true, { option: true, scope: "worker" }],
  host: [
    async ({ trusted }, use) => {
      const host = await startHost(path("../../dist/poise.vsix"), { trusted });
      await use(host);
      await host.stop();
    },
    { scope: "worker", timeout: 120_000 },
  ],
  /** One for all tests: a fresh one would load and compile the workbench's code each time. */
  profile: [
    async ({ browser }, use) => {
      const profile = await browser.newContext({ viewport: { width: 1280, height: 800 } });
      await use(profile);
      await profile.close();
    },
    { scope: "worker" },
  ],
  desks: [
    // biome-ignore lint/correctness/noEmptyPattern: playwright reads what is wanted from the pattern
    async ({}, use) => {
      const desks = [];
      await use(desks);
      for (const { folder, page, stop } of desks) {
        await page.close();
        await stop?.();
        rmSync(folder, { recursive: true, force: true });
      }
    },
    { scope: "worker" },
  ],
  desk: async ({ desks, host, profile, sources, place }, use) => {
    let desk = desks.find(it => it.sources === sources && it.place === place);
    if (desk === undefined) {
      const folder = mkdtempSync(join(tmpdir(), "poise-workspace-"));
      cpSync(path(sources), folder, { recursive: true });
      const page = await profile.newPage();
      const { address, stop } = await place.open(folder, host);
      desk = { sources, place, stop, ...(await openDesk(page, folder, address)) };
      desks.push(desk);
    }
    await desk.page.bringToFront();
    await use(desk);
    await desk.tidy();
  },
  page: ({ desk }, use) => use(desk.page),
  folder: ({ desk }, use) => use(desk.folder),
  bench: ({ desk }, use) => use(desk.bench),
});

export { expect };
