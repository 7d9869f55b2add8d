// Writes a picture of the editor with a finding: node tests/editor-host/screenshot.mjs FILE.png
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { setUp } from "./setup.mjs";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));
const [target = path("../../client/images/editor.png")] = process.argv.slice(2);
const mostBytes = 300_000;

setUp();
// Only now: these come out of what was just installed.
const { chromium: browsers, expect } = await import("@playwright/test");
const { chromium, chromiumFlags } = await import("./chromium.mjs");
const { startHost } = await import("./host.mjs");
const { workbench } = await import("./workbench.mjs");

const parent = mkdtempSync(join(tmpdir(), "poise-picture-"));
const folder = join(parent, basename(path("../../examples/dunlin")));
cpSync(path("../../examples/dunlin"), folder, { recursive: true });
tighten(join(folder, "wing.poise"));

const settings = {
  "breadcrumbs.enabled": false,
  "editor.fontSize": 13,
  "editor.minimap.enabled": false,
  "window.menuBarVisibility": "hidden",
  "workbench.activityBar.location": "hidden",
  "workbench.colorTheme": "Default Light Modern",
  "workbench.layoutControl.enabled": false,
};
const host = await startHost(path("../../dist/poise.vsix"), { settings });
const browser = await browsers.launch({ executablePath: chromium(), args: chromiumFlags });
try {
  const page = await browser.newPage({ viewport: { width: 1200, height: 750 } });
  await page.goto(host.address(folder));
  const bench = workbench(page);
  await bench.ready();
  await bench.open("wing.poise");
  await bench.command("Problems: Focus on Problems View");
  await expect(bench.problems(/wing weighs .* over its budget/)).toHaveCount(1, {
    timeout: 30_000,
  });
  for (const lens of await page.locator(".codelens-decoration").all())
    await expect(lens).toContainText("predicted", { timeout: 30_000 });
  await bench.hoverOver("wing");
  await expect(page.locator(".notifications-toasts.visible")).toHaveCount(0);
  await opaque(bench.hover);
  await page.screenshot({ path: resolve(target) });
} finally {
  await browser.close();
  await host.stop();
  rmSync(parent, { recursive: true, force: true });
}

const { size } = statSync(resolve(target));
if (mostBytes < size) throw new Error(`${target} has ${size} bytes, more than ${mostBytes}`);
console.log(`${target}, ${Math.round(size / 1000)} kB`);

/** A hover fades in: it is to be read, so wait until nothing around it moves or shines through. */
async function opaque(hover) {
  await expect(async () => {
    const settled = await hover.evaluate(element => {
      for (let it = element; it; it = it.parentElement)
        if (getComputedStyle(it).opacity !== "1") return false;
      return document.getAnimations().every(it => it.playState !== "running");
    });
    expect(settled).toBe(true);
  }).toPass({ timeout: 10_000 });
}

/** The example keeps its budgets: the picture shows the day when the wing's was cut too far. */
function tighten(file) {
  const check = [path("../../dist/poise.js"), "check", "dunlin.poise", "--format", "json"];
  const { stdout } = spawnSync(process.execPath, check, { cwd: folder, encoding: "utf8" });
  const wing = JSON.parse(stdout).roots[0].assemblies.find(it => it.path === "wing");
  const budget = Math.floor((wing.basic.mass_kg / 0.45359237) * 0.97);
  const text = readFileSync(file, "utf8");
  writeFileSync(file, text.replace(/^(assembly wing\b.*\bbudget )[\d.]+ lb/m, `$1${budget} lb`));
}
