import { spawnSync } from "node:child_process";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { folderOf } from "./poise";

const day = "2026-06-01T12:00:00Z";
const who = { name: "Ada", email: "ada@example.org" };

/** Git in a folder, with nothing of the settings of whoever runs the tests. */
export function git(folder: string, ...args: readonly string[]): string {
  return gitReading("", folder, ...args);
}

function gitReading(input: string, folder: string, ...args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync("git", args, {
    cwd: folder,
    input,
    encoding: "utf8",
    env: {
      PATH: process.env["PATH"],
      HOME: folder,
      GIT_CONFIG_NOSYSTEM: "1",
      GIT_CONFIG_GLOBAL: "/dev/null",
      GIT_AUTHOR_NAME: who.name,
      GIT_AUTHOR_EMAIL: who.email,
      GIT_AUTHOR_DATE: day,
      GIT_COMMITTER_NAME: who.name,
      GIT_COMMITTER_EMAIL: who.email,
      GIT_COMMITTER_DATE: day,
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
  // as one stream: three commands for each of a few dozen commits take seconds
  let stream = "";
  for (const { does, tag, files } of steps) {
    const changed = files(path => {
      const text = texts.get(path);
      if (text === undefined) throw new Error(`${does}: there is no ${path} yet`);
      return text;
    });
    stream += `commit refs/heads/main\ncommitter ${who.name} <${who.email}> ${Date.parse(day) / 1000} +0000\n`;
    stream += data(`${does}\n`);
    for (const [path, text] of Object.entries(changed)) {
      const name = `"${path.replace(/["\\]/g, "\\$&").replaceAll("\n", "\\n")}"`;
      stream += text === undefined ? `D ${name}\n` : `M 100644 inline ${name}\n${data(text)}`;
      if (text === undefined) texts.delete(path);
      else texts.set(path, text);
    }
    if (tag) stream += `reset refs/tags/${tag}\nfrom refs/heads/main\n\n`;
  }
  gitReading(stream, folder, "fast-import", "--quiet");
  git(folder, "reset", "--quiet", "--hard");
  return folder;
}

const data = (text: string) => `data ${Buffer.byteLength(text)}\n${text}\n`;

/** Replaces what stands there once; a step that finds nothing to replace is a mistake of the test. */
export function swap(text: string, from: string, to: string): string {
  if (text.split(from).length !== 2) throw new Error(`${from} does not stand there once`);
  return text.replace(from, () => to);
}
