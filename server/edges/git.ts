import { spawnSync } from "node:child_process";
import { posix } from "node:path";
import type { SourceFile } from "../project";
import { LARGEST, readBytes } from "./bytes";
import { WrongUse } from "./wrong-use";

/** A commit of the repository in `folder`, which holds `.git`. */
export function commitOf(folder: string, revision: string): string {
  // a branch may be called like an option
  const found = git(folder, [
    "rev-parse",
    "--verify",
    "--quiet",
    "--end-of-options",
    `${revision}^{commit}`,
  ]);
  const commit = found.stdout.toString().trim();
  if (found.status === 0 && /^[0-9a-f]{40,64}$/.test(commit)) return commit;
  complainOf(found.stderr);
  const shallow = git(folder, ["rev-parse", "--is-shallow-repository"]).stdout.toString().trim();
  const hint =
    shallow === "true"
      ? "; this clone is shallow: git fetch --unshallow brings the rest (in a CI job: a fetch depth of 0)"
      : "";
  throw new WrongUse(`there is no revision ${revision} here${hint}`);
}

/** Where the history of two commits parted. */
export function mergeBaseOf(folder: string, a: string, b: string): string {
  const found = git(folder, ["merge-base", a, b]);
  const commit = found.stdout.toString().trim();
  if (found.status === 0) return commit;
  complainOf(found.stderr);
  throw new WrongUse(
    "the two revisions have no commit in common here (a shallow clone may not reach it: git fetch --unshallow)",
  );
}

/**
 * Every build spec of a commit, named as if it stood in `folder`; hidden folders and installed packages
 * are passed over as on a disk. A file that is as in the call before is the same object.
 */
export function filesOf(folder: string, commit: string): readonly SourceFile[] {
  const listed = git(folder, ["ls-tree", "-r", "-l", "-z", "--full-tree", commit]);
  if (listed.status !== 0)
    throw new WrongUse(`git cannot list ${commit}: ${firstLine(listed.stderr)}`);
  const entries = listed.stdout
    .toString()
    .split("\0")
    .flatMap(it => entryOf(it) ?? []);
  const byPath = new Map(entries.map(it => [it.path, it]));
  const specs = entries.filter(it => it.path.endsWith(".poise") && !passedOver.test(it.path));
  const links = contentsOf(
    folder,
    specs.filter(it => it.link).map(it => it.blob),
  );
  const targets = specs.map(it => {
    if (!it.link) return it;
    const to = posix.join(posix.dirname(it.path), links.get(it.blob)?.toString() ?? "");
    return byPath.get(to);
  });
  const wanted = targets.flatMap((it, i) =>
    it && it.size <= LARGEST && !known.has(keyOf(specs[i]!.path, it)) ? it.blob : [],
  );
  const contents = contentsOf(folder, wanted);
  const files = new Map<string, SourceFile>();
  for (const [i, { path }] of specs.entries()) {
    const target = targets[i];
    const name = posix.join(folder, path);
    const key = target ? keyOf(path, target) : path;
    const bytes = target && contents.get(target.blob);
    const file = known.get(key) ?? (bytes && readBytes(name, bytes));
    const unreadable = target ? "is larger than 64 MB" : "does not exist";
    files.set(key, file ?? { path: name, unreadable });
  }
  known = files;
  return [...files.values()];
}

/** What the last call read: from commit to commit most files stay as they are. */
let known: ReadonlyMap<string, SourceFile> = new Map();
const keyOf = (path: string, { blob }: Entry) => `${blob} ${path}`;

interface Entry {
  readonly path: string;
  readonly blob: string;
  readonly size: number;
  readonly link: boolean;
}

/** `100644 blob HASH SIZE\tPATH` */
function entryOf(line: string): Entry | undefined {
  const found = /^(\d+) blob ([0-9a-f]+) +(\d+)\t(.*)$/s.exec(line);
  if (found === null) return undefined;
  const [, mode, blob, size, path] = found;
  return { path: path!, blob: blob!, size: Number(size), link: mode === "120000" };
}

const passedOver = /(^|\/)(\.|node_modules\/)/;

/** One call for all of them: a process a file would be slow. */
function contentsOf(folder: string, blobs: readonly string[]): ReadonlyMap<string, Buffer> {
  const wanted = [...new Set(blobs)];
  const found = new Map<string, Buffer>();
  if (wanted.length === 0) return found;
  const { stdout, status, stderr } = git(folder, ["cat-file", "--batch"], wanted.join("\n"));
  if (status !== 0) throw new WrongUse(`git cannot read: ${firstLine(stderr)}`);
  for (let at = 0; at < stdout.length; ) {
    const end = stdout.indexOf(10, at);
    const [blob, kind, size] = stdout.toString("utf8", at, end).split(" ");
    at = end + 1;
    // "HASH missing": a partial clone that has not fetched it
    if (kind !== "blob") throw new WrongUse(`git does not have ${blob} here: fetch it first`);
    found.set(blob!, stdout.subarray(at, at + Number(size)));
    at += Number(size) + 1;
  }
  return found;
}

interface Answer {
  readonly status: number | null;
  readonly stdout: Buffer;
  readonly stderr: Buffer;
}

/** The commits of a range that touched a build spec, on the main line, oldest first. */
export function commitsTouching(
  folder: string,
  range: readonly string[],
): readonly { readonly commit: string; readonly date: string; readonly subject: string }[] {
  const asked = ["log", "--reverse", "--first-parent", "-z", "--format=%H%x09%cs%x09%s", ...range];
  const { status, stdout, stderr } = git(folder, [...asked, "--", ":(top,glob)**/*.poise"]);
  if (status !== 0) throw new WrongUse(`git cannot list the history: ${firstLine(stderr)}`);
  return stdout
    .toString()
    .split("\0")
    .filter(it => it !== "")
    .map(it => {
      const [commit, date, ...subject] = it.split("\t");
      return { commit: commit!, date: date!, subject: subject.join("\t") };
    });
}

function git(folder: string, args: readonly string[], input = ""): Answer {
  const { error, ...answer } = spawnSync("git", ["--no-pager", "-C", folder, ...args], {
    input,
    maxBuffer: Number.POSITIVE_INFINITY,
    env: { ...process.env, LC_ALL: "C", GIT_OPTIONAL_LOCKS: "0", GIT_TERMINAL_PROMPT: "0" },
  });
  if (error === undefined) return answer;
  throw (error as NodeJS.ErrnoException).code === "ENOENT"
    ? new WrongUse(
        "git is not installed (or not on the PATH), and revisions are read through it; two folders can be compared without",
      )
    : error;
}

/** What is wrong with the repository itself. */
function complainOf(stderr: Buffer): void {
  const line = firstLine(stderr);
  if (line.includes("dubious ownership") || line.includes("not a git repository"))
    throw new WrongUse(`git refuses: ${line}`);
}

const firstLine = (text: Buffer) => text.toString().trim().split("\n", 1)[0] ?? "";
