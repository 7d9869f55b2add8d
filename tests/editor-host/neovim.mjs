// The command line's language server in Neovim, set up by the README's lines.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readmeLines } from "./readme-lines.mjs";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));

export function neovim() {
  const folder = mkdtempSync(join(tmpdir(), "poise-neovim-"));
  cpSync(path("workspace"), folder, { recursive: true });
  writeFileSync(join(folder, "lines.lua"), readmeLines("lua"));
  try {
    const seen = edited(folder);
    assert.deepEqual(seen.findings, [
      { line: 1, severity: 1, message: "wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb" },
    ]);
    for (const figure of ["42.5 lb", "basic", "predicted", "budget", "margin"])
      assert.ok(seen.hover.includes(figure), `the hover lacks "${figure}": ${seen.hover}`);
    assert.equal(seen.cleared, true, "the finding stays once the mass is fixed");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function edited(folder) {
  const flags = ["--headless", "-u", "NONE", "-i", "NONE", "-n", "-c"];
  const run = spawnSync("nvim", [...flags, `luafile ${path("neovim.lua")}`], {
    cwd: folder,
    env: {
      ...process.env,
      POISE_FILE: join(folder, "wing.poise"),
      POISE_LINES: join(folder, "lines.lua"),
    },
    encoding: "utf8",
    timeout: 90_000,
  });
  const row = `${run.stdout}\n${run.stderr}`.split("\n").find(it => it.startsWith("{"));
  assert.ok(row, `neovim said nothing: ${run.stderr} ${run.stdout}`);
  return JSON.parse(row);
}
