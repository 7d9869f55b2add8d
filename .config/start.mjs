// The first run on a fresh machine: build, package, check the examples, say how to install.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

process.chdir(fileURLToPath(new URL("..", import.meta.url)));

const packaged = node(".config/package.mjs");
if (packaged !== 0) process.exit(packaged);

// Findings are what the examples are there to show, so the exit status of the check says nothing.
node("dist/poise.js", "check", "examples");

console.log("\nThe extension is in dist/poise.vsix. Install it in VS Code with");
console.log("  code --install-extension dist/poise.vsix");

function node(...command) {
  return spawnSync(process.execPath, command, { stdio: "inherit" }).status ?? 1;
}
