// Makes a runnable VS Code web workbench out of npm packages alone. Idempotent.
import { execFileSync } from "node:child_process";
import { copyFileSync, existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const here = fileURLToPath(new URL(".", import.meta.url));
const workbench = join(here, "node_modules/code-server/lib/vscode");

/** Installs what is missing; throws where a package cannot be had. */
export function setUp() {
  if (!existsSync(join(here, "node_modules/@playwright/test")) || !existsSync(workbench))
    npm(here, "ci");
  if (!existsSync(join(workbench, "node_modules/ws"))) {
    dropWhatNoTestNeeds();
    npm(workbench, "install", "--omit=dev");
  }
  copyFileSync(join(here, "spdlog.cjs"), join(workbench, "node_modules/@vscode/spdlog/index.js"));
}

// These need a compiler or a network, and the workbench runs without them.
const unneeded = [
  "@github/copilot-sdk",
  "@vscode/copilot-api",
  "@microsoft/mxc-sdk",
  "@devcontainers/cli",
  "@vscode/sandbox-runtime",
  "@vscode/sqlite3",
  "@vscode/windows-process-tree",
  "@vscode/windows-registry",
  "@vscode/deviceid",
  "kerberos",
  "ssh2",
];

function dropWhatNoTestNeeds() {
  const file = join(workbench, "package.json");
  const manifest = JSON.parse(readFileSync(file, "utf8"));
  for (const name of unneeded) delete manifest.dependencies[name];
  writeFileSync(file, JSON.stringify(manifest, null, 2));
  rmSync(join(workbench, "extensions/copilot"), { recursive: true, force: true });
}

/** Install scripts stay off: one native module of the host cannot be built everywhere. */
function npm(cwd, ...command) {
  execFileSync(
    "npm",
    [...command, "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"],
    {
      cwd,
      stdio: ["ignore", "ignore", "inherit"],
    },
  );
}
