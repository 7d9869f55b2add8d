// The whole test run: format and lint, types, the tests, and the real editors where they are at hand.
// POISE_EDITORS=required makes a missing editor a failure instead of a note.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

process.chdir(fileURLToPath(new URL("..", import.meta.url)));
const run = (command, ...args) => spawnSync(command, args, { stdio: "inherit" }).status ?? 1;

const steps = [
  ["npm", "run", "--silent", "lint"],
  ["npm", "run", "--silent", "types"],
  ["npm", "run", "--silent", "build"],
  ["npx", "vitest", "run", "--config", ".config/vitest.config.mts"],
];
for (const [command, ...args] of steps) if (run(command, ...args) !== 0) process.exit(1);

const NO_EDITOR = 3;
const editors = run("node", "tests/editor-host/run.mjs");
if (editors === NO_EDITOR && process.env.POISE_EDITORS !== "required")
  console.log("Left out: the tests in real editors (Chromium, Neovim or Emacs is not installed).");
else if (editors !== 0) process.exit(1);
