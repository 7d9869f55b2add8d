// Every test in a real editor. Exit status 0: passed, 1: failed, 3: an editor cannot be had here.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { chromium, onPath } from "./chromium.mjs";
import { emacs, hasEglot } from "./emacs.mjs";
import { neovim } from "./neovim.mjs";
import { setUp } from "./setup.mjs";

process.chdir(fileURLToPath(new URL("../..", import.meta.url)));

if (process.platform !== "linux" || process.arch !== "x64")
  leaveOut("the workbench for tests runs on 64-bit Linux only");
if (!chromium()) leaveOut("chromium is not installed");
if (!onPath("nvim")) leaveOut("neovim is not installed");
if (!hasEglot()) leaveOut("emacs with eglot is not installed");
try {
  setUp();
} catch (error) {
  leaveOut(`the workbench cannot be installed (${error.message.split("\n")[0]})`);
}

if (node(".config/package.mjs") !== 0) process.exit(1);

neovim();
console.log("In Neovim: diagnostics, hover and a fix, as they should be.");
emacs();
console.log("In Emacs: diagnostics and a fix, as they should be.");

const playwright = "tests/editor-host/node_modules/@playwright/test/cli.js";
const config = "tests/editor-host/playwright.config.mjs";
process.exit(node(playwright, "test", "--config", config, ...process.argv.slice(2)));

function node(...command) {
  return spawnSync(process.execPath, command, { stdio: "inherit" }).status ?? 1;
}

function leaveOut(why) {
  console.error(`Editor tests left out: ${why}.`);
  process.exit(3);
}
