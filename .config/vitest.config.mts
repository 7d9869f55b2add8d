import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));

/** What starts processes or tries hundreds of random edits. */
const slow = ["slow", "command-line", "published", "language-server", "packaging"].map(
  it => `tests/${it}/**/*.test.ts`,
);

/** What is waited for may take a while on a busy machine. */
const patient = { poll: { timeout: 30_000 } };

export default defineConfig({
  root,
  test: {
    // of two cores vitest would leave one to a person who is waiting
    maxWorkers: "100%",
    projects: [
      {
        root,
        test: {
          name: "fast",
          // nothing here outlives its test: to load the product once a worker saves most of the time
          isolate: false,
          include: ["tests/**/*.test.ts"],
          exclude: ["**/node_modules/**", "tests/editor-host/**", ...slow],
          // what hangs is ended; how busy a machine is decides nothing
          testTimeout: 60_000,
          expect: patient,
        },
      },
      {
        root,
        test: { name: "slow", include: slow, testTimeout: 120_000, expect: patient },
      },
    ],
  },
});
