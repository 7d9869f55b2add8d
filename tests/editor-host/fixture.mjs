import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { test as base, expect } from "@playwright/test";
import { startHost } from "./host.mjs";
import { workbench } from "./workbench.mjs";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));

/** One host for all tests, a fresh copy of a workspace for each. */
export const test = base.extend({
  sources: ["workspace", { option: true }],
  host: [
    // biome-ignore lint/correctness/noEmptyPattern: the first argument must be a pattern
    async ({}, use) => {
      const host = await startHost(path("../../dist/poise.vsix"));
      await use(host);
      await host.stop();
    },
    { scope: "worker", timeout: 120_000 },
  ],
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
