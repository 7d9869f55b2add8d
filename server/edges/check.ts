import { existsSync, readFileSync, statSync } from "node:fs";
import { judgeSome } from "../judge";
import { emptyProject, type Project, withFile } from "../project";
import { differenceOf, identifiedFindings, type Side } from "../views/diff/difference";
import { readBytes } from "./bytes";
import type { ReportOptions } from "./check-options";
import { plainPath, readFile, readFolder, workspaceFolderOf } from "./disk";
import type { Report } from "./formats/report";
import { shownPath } from "./places";
import { endsOf, needsRepository, projectAt } from "./revisions";
import { statusOf, tell } from "./tell";
import { isIn } from "./uris";
import { WrongUse } from "./wrong-use";

/**
 * Judges every root that reaches what is named, and tells. The exit status: 0 nothing that counts, 1 at
 * least one finding that does, 2 none, but a file of a named folder could not be read, or no aircraft
 * stands in it: what it holds is judged by nobody.
 */
export function check(
  options: ReportOptions,
  print: (text: string) => void,
  note: (text: string) => void,
): 0 | 1 | 2 {
  const { paths, date } = options;
  const given = paths.filter(it => it !== "--");
  const named = (given.length > 0 ? given : ["."]).map(path =>
    path === "-" ? path : plainPath(path),
  );
  const project = projectOf(named);
  const wanted = (file: string) => named.some(path => isIn(file, fileOf(path)));
  const { side, files } = judgedSide(project, wanted, date);
  const folder = workspaceFolderOf(fileOf(named[0]!));
  const before = options.base === undefined ? undefined : baseOf(options.base, folder);
  const judged = before && judgedSide(before.project, wanted, date);
  const difference = judged && differenceOf(judged.side, side);
  const report: Report = {
    ...{ project, roots: side.roots, files: files.size, folder },
    turned: difference?.findings ?? identifiedFindings(side),
    change: before &&
      difference && {
        ...{ difference, base: before, head: { name: "the working folder" }, told: false },
      },
  };
  tell(report, options, print);
  const unread = [
    noteUnread(project, files, note),
    // what cannot be read of the base would pass for new
    judged !== undefined &&
      noteUnread(before!.project, judged.files, text => note(`${before!.name}: ${text}`)),
    ...named.map(path => noteNoAircraft(path, side, note)),
  ];
  return statusOf(report, options.failOn) || (unread.includes(true) ? 2 : 0);
}

/** The same folder as a git revision left it. */
function baseOf(revision: string, folder: string) {
  needsRepository(folder, "a base is read from one");
  const { base, head, baseName } = endsOf(folder, revision);
  if (head !== undefined && !/\.{3}$/.test(revision))
    throw new WrongUse(
      "--base is one revision, or main... for where this left main; what is checked stands in the folder",
    );
  return { name: baseName, project: projectAt(folder, base), folder };
}

/** What is judged of the aircraft that a wanted file belongs to, and the files looked at for it. */
export function judgedSide(
  project: Project,
  wanted: (file: string) => boolean,
  date: string | undefined,
): { readonly side: Side; readonly files: ReadonlySet<string> } {
  const { roots, findings } = judgeSome(project, wanted, date);
  const files = new Set(roots.flatMap(root => root.files));
  for (const path of project.files.keys()) if (wanted(path)) files.add(path);
  const theirs = findings.filter(finding => files.has(finding.at.line.file));
  return { side: { project, roots, findings: theirs }, files };
}

/** Says that a folder holds no aircraft: with status 0 it would pass for a sound one. True if so. */
function noteNoAircraft(path: string, { roots }: Side, note: (text: string) => void): boolean {
  if (path === "-" || !statSync(path).isDirectory()) return false;
  if (roots.some(root => root.files.some(file => isIn(file, path)))) return false;
  note(`no file in ${shownPath(path)} belongs to an aircraft: nothing was judged`);
  return true;
}

/** Says which files could not be read; true if there is one. */
export function noteUnread(
  project: Project,
  files: ReadonlySet<string>,
  note: (text: string) => void,
): boolean {
  let unread = false;
  for (const file of project.files.values()) {
    if (!("unreadable" in file) || !files.has(file.path)) continue;
    if (file.unreadable === "is a folder") continue;
    note(`${shownPath(file.path)} ${file.unreadable}`);
    unread = true;
  }
  return unread;
}

const STDIN = "stdin.poise";
export const fileOf = (path: string) => (path === "-" ? plainPath(STDIN) : path);

/** The workspace folders of everything that is named, read whole: what reaches a file may stand anywhere in it. */
export function projectOf(named: readonly string[]): Project {
  const folders = [...new Set(named.map(path => workspaceFolderOf(fileOf(path))))];
  let project = emptyProject(folders);
  for (const path of named)
    if (path !== "-" && !existsSync(path)) throw new WrongUse(`${shownPath(path)} does not exist`);
  for (const folder of folders)
    for (const file of readFolder(folder)) project = withFile(project, file);
  for (const path of named) {
    const at = fileOf(path);
    if (path === "-") {
      const file = readBytes(at, readFileSync(0));
      if ("unreadable" in file) throw new WrongUse(`standard input ${file.unreadable}`);
      project = withFile(project, file);
    } else if (statSync(path).isDirectory()) {
      if (![...project.files.keys()].some(file => file !== path && isIn(file, path)))
        throw new WrongUse(`${shownPath(path)} holds no .poise file`);
    } else {
      const file = project.files.get(at) ?? readFile(at);
      if ("unreadable" in file) throw new WrongUse(`${shownPath(path)} ${file.unreadable}`);
      project = withFile(project, file);
    }
  }
  return project;
}
