import { spawnSync } from "node:child_process";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { folderOf } from "./poise";

/** Git in a folder, with nothing of the settings of whoever runs the tests. */
export function git(folder: string, ...args: readonly string[]): string {
  const day = "2026-06-01T12:00:00Z";
  const { status, stdout, stderr } = spawnSync("git", args, {
    cwd: folder,
    encoding: "utf8",
    env: {
      PATH: process.env["PATH"],
      HOME: folder,
      GIT_CONFIG_NOSYSTEM: "1",
      GIT_CONFIG_GLOBAL: "/dev/null",
      ...{ GIT_AUTHOR_NAME: "Ada", GIT_AUTHOR_EMAIL: "ada@example.org", GIT_AUTHOR_DATE: day },
      ...{
        GIT_COMMITTER_NAME: "Ada",
        GIT_COMMITTER_EMAIL: "ada@example.org",
        GIT_COMMITTER_DATE: day,
      },
    },
  });
  if (status !== 0) throw new Error(`git ${args.join(" ")}: ${stderr}`);
  return stdout;
}

/** Files by path; undefined takes one away. */
export type Files = Readonly<Record<string, string | undefined>>;

export function put(folder: string, files: Files): void {
  for (const [path, text] of Object.entries(files)) {
    const at = join(folder, path);
    if (text === undefined) rmSync(at);
    else {
      mkdirSync(dirname(at), { recursive: true });
      writeFileSync(at, text);
    }
  }
}

export interface Step {
  readonly does: string;
  readonly tag?: string;
  readonly files: (now: (path: string) => string) => Files;
}

/** A repository with a commit a step; a step sees the texts as the steps before left them. */
export function repositoryOf(steps: readonly Step[]): string {
  const folder = folderOf({});
  git(folder, "init", "--quiet", "--initial-branch=main");
  const texts = new Map<string, string>();
  for (const { does, tag, files } of steps) {
    const changed = files(path => {
      const text = texts.get(path);
      if (text === undefined) throw new Error(`${does}: there is no ${path} yet`);
      return text;
    });
    put(folder, changed);
    for (const [path, text] of Object.entries(changed))
      if (text === undefined) texts.delete(path);
      else texts.set(path, text);
    git(folder, "add", "--all");
    git(folder, "commit", "--quiet", "--allow-empty", "--message", does);
    if (tag) git(folder, "tag", tag);
  }
  return folder;
}

/** Replaces what stands there once; a step that finds nothing to replace is a mistake of the test. */
export function swap(text: string, from: string, to: string): string {
  if (text.split(from).length !== 2) throw new Error(`${from} does not stand there once`);
  return text.replace(from, () => to);
}
