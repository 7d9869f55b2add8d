import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";

/** What `npm run build` makes; every test here runs it as a user does. */
export const PROGRAM = fileURLToPath(new URL("../../dist/poise.js", import.meta.url));

export interface Run {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Around {
  readonly in: string;
  readonly input?: string | Buffer;
  readonly env?: Record<string, string>;
}

/** Runs the command line in a folder, away from the colour settings of whoever runs the tests. */
export function poise(args: readonly string[], around: Around): Run {
  const { NO_COLOR: _, FORCE_COLOR: __, POISE_DEBUG: ___, ...env } = process.env;
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...args], {
    cwd: around.in,
    input: around.input ?? "",
    env: { ...env, ...around.env },
    encoding: "utf8",
    timeout: 60_000,
    maxBuffer: 2 ** 28,
  });
  return { status, stdout, stderr };
}

/** A new folder with these files in it, by path; it is gone after the tests of the file. */
export function folderOf(files: Record<string, string | Buffer>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-")));
  made.push(folder);
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}

const made: string[] = [];
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true });
});
