import { existsSync, statSync } from "node:fs";
import { emptyProject, type Project, withFile } from "../project";
import { differenceOf } from "../views/diff/difference";
import { judgedSide, noteUnread } from "./check";
import type { ReportOptions } from "./check-options";
import { plainPath, readFolder, workspaceFolderOf } from "./disk";
import type { Report } from "./formats/report";
import { shownPath } from "./places";
import { endsOf, needsRepository, projectAt } from "./revisions";
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
    change: { difference, base, head, told: true },
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
  needsRepository(folder, "revisions are read from one; two folders can be compared without");
  const paths = (within.length > 0 ? within : ["."]).map(plainPath);
  const wanted = (file: string) => paths.some(path => isIn(file, path));
  const revision = (name: string, commit: string): State => ({
    ...{ name, project: projectAt(folder, commit), folder, wanted },
  });
  const { base, baseName, head, headName } = endsOf(folder, first, second);
  return {
    base: revision(baseName, base),
    head:
      head === undefined
        ? { ...folderState(folder), name: "the working folder", wanted }
        : revision(headName!, head),
  };
}

const isFolder = (path: string) => existsSync(path) && statSync(path).isDirectory();

function folderState(path: string): State {
  const folder = plainPath(path);
  let project = emptyProject([folder]);
  for (const file of readFolder(folder)) project = withFile(project, file);
  return { name: shownPath(folder), project, folder, wanted: () => true };
}
