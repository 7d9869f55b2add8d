// The command line's language server in Emacs, set up by the README's lines.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readmeLines } from "./readme-lines.mjs";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));

/** Emacs 29 has Eglot; before, it is a package. */
export function hasEglot() {
  return spawnSync("emacs", ["--batch", "--eval", "(require 'eglot)"]).status === 0;
}

export function emacs() {
  const folder = mkdtempSync(join(tmpdir(), "poise-emacs-"));
  cpSync(path("workspace"), folder, { recursive: true });
  writeFileSync(join(folder, "lines.el"), readmeLines("elisp"));
  try {
    const seen = edited(folder);
    assert.deepEqual(seen.findings, [
      {
        line: 2,
        type: "eglot-error",
        text: "poise [over-budget]: wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb",
      },
    ]);
    assert.equal(seen.cleared, true, "the finding stays once the mass is fixed");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function edited(folder) {
  const run = spawnSync("emacs", ["--batch", "-l", path("emacs.el")], {
    cwd: folder,
    env: {
      ...process.env,
      POISE_FILE: join(folder, "wing.poise"),
      POISE_LINES: join(folder, "lines.el"),
    },
    encoding: "utf8",
    timeout: 90_000,
  });
  const row = `${run.stdout}\n${run.stderr}`.split("\n").find(it => it.startsWith("{"));
  assert.ok(row, `emacs said nothing: ${run.stderr} ${run.stdout}`);
  return JSON.parse(row);
}
