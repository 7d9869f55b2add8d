import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { test as base, expect } from "@playwright/test";
import { startHost } from "./host.mjs";
import { workbench } from "./workbench.mjs";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));

/** One host for all tests that treat a folder alike, a fresh copy of a workspace for each test. */
export const test = base.extend({
  sources: ["workspace", { option: true }],
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
  page: async ({ profile }, use) => {
    const page = await profile.newPage();
    await use(page);
    await page.close();
  },
  folder: async ({ sources }, use) => {
    const folder = mkdtempSync(join(tmpdir(), "poise-workspace-"));
    cpSync(path(sources), folder, { recursive: true });
    await use(folder);
    rmSync(folder, { recursive: true, force: true });
  },
  bench: async ({ page, host, folder }, use) => {
    await page.goto(host.address(folder));
    const bench = workbench(page);
    await bench.ready();
    await use(bench);
  },
});

export { expect };
