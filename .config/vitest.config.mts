import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));

export default defineConfig({
  root,
  test: {
    projects: [
      {
        root,
        test: {
          name: "fast",
          include: ["tests/**/*.test.ts"],
          exclude: ["**/node_modules/**", "tests/slow/**", "tests/editor-host/**"],
        },
      },
      {
        root,
        test: { name: "slow", include: ["tests/slow/**/*.test.ts"], testTimeout: 120_000 },
      },
    ],
  },
});
