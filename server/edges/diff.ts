import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import { emptyProject, type Project, withFile } from "../project";
import { differenceOf } from "../views/diff/difference";
import { judgedSide, noteUnread } from "./check";
import type { ReportOptions } from "./check-options";
import { plainPath, readFolder, workspaceFolderOf } from "./disk";
import type { Report } from "./formats/report";
import { commitOf, filesOf, mergeBaseOf } from "./git";
import { shownPath } from "./places";
import { statusOf, tell } from "./tell";
import { isIn } from "./uris";
import { WrongUse } from "./wrong-use";

/** Judges both states and tells what changed. The exit status as of `check`, of the head. */
export function diff(
  options: ReportOptions,
  print: (text: string) => void,
  note: (text: string) => void,
): 0 | 1 | 2 {
  const { base, head } = statesOf(options.paths);
  const before = judgedSide(base.project, base.wanted, options.date);
  const after = judgedSide(head.project, head.wanted, options.date);
  if (before.files.size + after.files.size === 0)
    throw new WrongUse("neither side holds a .poise file there");
  const difference = differenceOf(before.side, after.side);
  const report: Report = {
    ...{ project: head.project, roots: after.side.roots, files: after.files.size },
    turned: difference.findings,
    folder: head.folder,
    change: { difference, base, head },
  };
  tell(report, options, print);
  // what cannot be read on either side would pass for gone or new
  const unread = [
    noteUnread(base.project, before.files, text => note(`${base.name}: ${text}`)),
    noteUnread(head.project, after.files, text => note(`${head.name}: ${text}`)),
  ];
  return statusOf(report, options.failOn) || (unread.includes(true) ? 2 : 0);
}

interface State {
  readonly name: string;
  readonly project: Project;
  readonly folder: string;
  readonly wanted: (file: string) => boolean;
}

function statesOf(args: readonly string[]): { readonly base: State; readonly head: State } {
  const dashes = args.indexOf("--");
  const [first, second, ...more] = dashes < 0 ? args : args.slice(0, dashes);
  const within = dashes < 0 ? [] : args.slice(dashes + 1);
  if (first === undefined || more.length > 0)
    throw new WrongUse(
      "diff takes a base and perhaps a head: poise diff main, or poise diff OLD NEW",
    );
  if (second !== undefined && isFolder(first) && isFolder(second)) {
    if (within.length > 0) throw new WrongUse("of two folders all is compared: leave out -- PATH");
    return { base: folderState(first), head: folderState(second) };
  }
  const folder = workspaceFolderOf(plainPath("."));
  if (!existsSync(join(folder, ".git")))
    throw new WrongUse(
      "this folder is in no git repository, and revisions are read from one; two folders can be compared without",
    );
  const paths = (within.length > 0 ? within : ["."]).map(plainPath);
  const wanted = (file: string) => paths.some(path => isIn(file, path));
  const revision = (name: string, commit: string): State => {
    let project = emptyProject([folder]);
    for (const file of filesOf(folder, commit)) project = withFile(project, file);
    return { name, project, folder, wanted };
  };
  const [from, to, dots] = rangeIn(first, second);
  const start = commitOf(folder, from);
  const end = to === undefined ? undefined : commitOf(folder, to);
  const parted = dots === "..." ? mergeBaseOf(folder, start, end!) : start;
  return {
    base: revision(dots === "..." ? `${from}...${to}` : from, parted),
    head:
      end === undefined
        ? { ...folderState(folder), name: "the working folder", wanted }
        : revision(to!, end),
  };
}

/** `A..B` is A and B; `A...B` begins where B left A. */
function rangeIn(
  first: string,
  second: string | undefined,
): readonly [string, string | undefined, ".." | "..." | undefined] {
  const found = /^(.+?)(\.{2,3})(.*)$/.exec(first);
  if (second !== undefined || found === null) return [first, second, undefined];
  const [, from, dots, to] = found;
  return [from!, to || "HEAD", dots as ".." | "..."];
}

const isFolder = (path: string) => existsSync(path) && statSync(path).isDirectory();

function folderState(path: string): State {
  const folder = plainPath(path);
  let project = emptyProject([folder]);
  for (const file of readFolder(folder)) project = withFile(project, file);
  return { name: shownPath(folder), project, folder, wanted: () => true };
}
