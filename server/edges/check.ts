import { existsSync, readFileSync, statSync } from "node:fs";
import type { Finding, Severity } from "../findings";
import { judgeSome } from "../judge";
import { emptyProject, type Project, withFile } from "../project";
import { isIn, plainPath, readBytes, readFile, readFolder, workspaceFolderOf } from "./disk";
import { concise, full, type Paint } from "./formats/full";
import { json } from "./formats/json";
import { shownPath } from "./places";

export interface CheckOptions {
  readonly paths: readonly string[];
  readonly format: "full" | "concise" | "json";
  readonly colour: boolean;
}

/** What is wrong with how the command was called: said, and status 2. */
export class WrongUse extends Error {}

/**
 * Judges every root that reaches what is named, and prints. The exit status: 0 no error, 1 at least
 * one, 2 none, but a file of a named folder could not be read: what it holds is judged by nobody.
 */
export function check(
  { paths, format, colour }: CheckOptions,
  print: (text: string) => void,
  note: (text: string) => void,
): 0 | 1 | 2 {
  const named = (paths.length > 0 ? paths : ["."]).map(path =>
    path === "-" ? path : plainPath(path),
  );
  const project = projectOf(named);
  const wanted = (file: string) => named.some(path => isIn(file, fileOf(path)));
  const judged = judgeSome(project, wanted);
  const { roots } = judged;
  const files = new Set(roots.flatMap(root => root.files));
  for (const path of project.files.keys()) if (wanted(path)) files.add(path);
  const findings = judged.findings.filter(finding => files.has(finding.at.line.file));

  if (format === "json") print(json(project, roots, findings));
  else {
    const paint: Paint = colour ? inColour : (_, text) => text;
    const line = format === "full" ? full : concise;
    for (const finding of findings)
      print(line(project, finding, paint) + (format === "full" ? "\n" : ""));
    for (const root of roots) print(root.summary);
    print(summary(findings, files.size));
    if (roots.length > 0)
      print(
        "A calculated weight and balance does not replace a weighing or the approved documents.",
      );
  }
  const unread = [...project.files.values()].filter(
    file => "unreadable" in file && files.has(file.path) && file.unreadable !== "is a folder",
  );
  for (const file of unread)
    if ("unreadable" in file) note(`${shownPath(file.path)} ${file.unreadable}`);
  if (findings.some(it => it.severity === "error" && it.waived === undefined)) return 1;
  return unread.length > 0 ? 2 : 0;
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

function summary(findings: readonly Finding[], files: number): string {
  const count = (severity: Severity) =>
    findings.filter(it => it.severity === severity && it.waived === undefined).length;
  const many = (n: number, one: string, more = `${one}s`) => `${n} ${n === 1 ? one : more}`;
  const waived = findings.filter(it => it.waived !== undefined).length;
  return `${many(count("error"), "error")}, ${many(count("warning"), "warning")}, ${many(count("info"), "note")}${waived > 0 ? `, ${waived} waived` : ""} in ${many(files, "file")}`;
}

const codes = { error: 31, warning: 33, info: 36, dim: 2 } as const;
const inColour: Paint = (kind, text) => `\u001b[${codes[kind]}m${text}\u001b[0m`;
