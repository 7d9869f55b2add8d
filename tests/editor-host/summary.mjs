// Writes a picture of a job's summary: node tests/editor-host/summary.mjs FILE.png
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { setUp } from "./setup.mjs";

const style = `
  body { margin: 0; font: 14px/1.5 "Liberation Sans", sans-serif; color: #1f2328; background: #fff; }
  main { padding: 20px 28px; }
  h3, h4 { margin: 20px 0 12px; line-height: 1.25; }
  h3 { font-size: 17px; }
  table { border-collapse: collapse; margin-bottom: 14px; }
  th, td { border: 1px solid #d1d9e0; padding: 5px 11px; text-align: left; }
  tr:nth-child(even) td { background: #f6f8fa; }
  code { background: #818b981f; padding: 2px 5px; border-radius: 6px; font: 12px "Liberation Mono", monospace; }
  summary { cursor: pointer; }
`;
const path = relative => fileURLToPath(new URL(relative, import.meta.url));
const [target = path("../../client/images/summary.png")] = process.argv.slice(2);

setUp();
// Only now: these come out of what was just installed.
const { chromium: browsers } = await import("@playwright/test");
const { chromium, chromiumFlags } = await import("./chromium.mjs");
const markdownIt = createRequire(path("../../package.json"))("markdown-it");

const folder = mkdtempSync(join(tmpdir(), "poise-summary-"));
const browser = await browsers.launch({ executablePath: chromium(), args: chromiumFlags });
try {
  for (const side of ["main", "skins"])
    cpSync(path("../../examples/dunlin"), join(folder, side), { recursive: true });
  for (const side of ["main", "skins"])
    for (const airframe of ["sn001", "sn003"]) rmSync(join(folder, side, `${airframe}.poise`));
  change(join(folder, "skins", "wing.poise"));
  const page = await browser.newPage({ viewport: { width: 1010, height: 400 } });
  await page.setContent(`<!doctype html><style>${style}</style><main>${summary()}</main>`);
  await page.screenshot({ path: resolve(target), fullPage: true });
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}

function summary() {
  const { stdout } = spawnSync(
    process.execPath,
    [
      path("../../dist/poise.js"),
      "diff",
      "main",
      "skins",
      "--format",
      "markdown",
      "--date",
      "2026-10-01",
    ],
    { cwd: folder, encoding: "utf8" },
  );
  return markdownIt({ html: true }).render(stdout);
}

/** Thicker skins, and a budget raised to let them pass. */
function change(file) {
  let text = readFileSync(file, "utf8");
  for (const [from, to] of [
    [
      "part skin_upper calculated 44 ft^2 * sheet_016",
      "part skin_upper calculated 44 ft^2 * sheet_025",
    ],
    ["part walkway estimated 1.1 lb", "part walkway weighed 1.3 lb on 2026-09-30"],
    ["mirrored budget 79 lb", "mirrored budget 86 lb"],
  ]) {
    if (!text.includes(from)) throw new Error(`${from} does not stand in the example any more`);
    text = text.replace(from, to);
  }
  writeFileSync(file, text);
}
