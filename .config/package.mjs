// Builds, then makes dist/poise.vsix. Needs no network.
import { spawnSync } from "node:child_process";
import { existsSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { createVSIX } from "@vscode/vsce";

const mostBytes = 1_500_000;
const vsix = "dist/poise.vsix";

process.chdir(fileURLToPath(new URL("..", import.meta.url)));

const built = spawnSync(process.execPath, [".config/build.mjs"], { stdio: "inherit" });
if (built.status !== 0) process.exit(built.status ?? 1);

const missing = ["extension", "client", "server", "mathjs", "extension-web", "server-worker"]
  .map(name => `dist/${name}.js`)
  .filter(file => !existsSync(file));
if (0 < missing.length) fail(`the build made no ${missing.join(", ")}`);

await createVSIX({
  packagePath: vsix,
  // Everything is bundled, and links in the README stay as they are written.
  dependencies: false,
  rewriteRelativeLinks: false,
  allowMissingRepository: true,
});

const { size } = statSync(vsix);
if (mostBytes < size) fail(`${vsix} has ${size} bytes, more than ${mostBytes}`);
console.log(`${vsix}, ${(size / 1000).toFixed(0)} kB`);

function fail(why) {
  console.error(why);
  process.exit(1);
}
