import { defineConfig } from "@playwright/test";
import { chromium, chromiumFlags } from "./chromium.mjs";

export default defineConfig({
  testDir: ".",
  testMatch: "*.spec.mjs",
  workers: 1,
  // a busy machine drops a key now and then: what fails twice has failed, what fails once is told
  retries: 1,
  timeout: 120_000,
  expect: { timeout: 20_000 },
  reporter: "list",
  use: {
    launchOptions: { executablePath: chromium(), args: chromiumFlags },
    screenshot: "only-on-failure",
  },
});
