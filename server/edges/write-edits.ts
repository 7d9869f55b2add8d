import { textOf } from "../../grammar/source";
import type { Edit } from "../features/amend";
import { changedRows } from "../lists/changed-rows";
import { applied, type Splice, splicesOf } from "../lists/splice";
import { type Project, sourceOf } from "../project";
import { shownPath } from "./places";
import { replaceFiles } from "./replace-files";
import { type SpecFile, sound, specAt } from "./spec-file";
import { WrongUse } from "./wrong-use";

/** What is done with edits: their rows shown, the files written, or both. */
export interface Handling {
  readonly shows: boolean;
  readonly writes: boolean;
}

/** Shows the rows that edits change, file by file, and writes all files at once or none. */
export function writeEdits(
  project: Project,
  edits: readonly Edit[],
  handling: Handling,
  tell: (text: string) => void,
): void {
  const files = new Map<string, Edit[]>();
  for (const edit of edits) {
    const { file } = edit.at.line;
    const own = files.get(file);
    if (own) own.push(edit);
    else files.set(file, [edit]);
  }
  const changes = [...files].map(([path, own]) => {
    const spec = specIn(project, path);
    return { spec, splices: splicesOf(spec.text, sourceOf(project, path)!, own) };
  });
  writeSplices(changes, handling, tell);
}

/** A file of a project, which still stands on the disk as it was read. */
export function specIn(project: Project, path: string): SpecFile {
  const spec = specAt(path);
  const source = sourceOf(project, path);
  if (source === undefined || textOf(source) !== textOf(spec.source))
    throw new WrongUse(`${shownPath(path)} has changed on the disk since it was read`);
  return spec;
}

/** A file as it was read, and what changes in it; where that is nothing, what changes elsewhere rests on it. */
export interface Change {
  readonly spec: SpecFile;
  readonly splices: readonly Splice[];
}

export function writeSplices(
  changes: readonly Change[],
  { shows, writes }: Handling,
  tell: (text: string) => void,
): void {
  const replacements = changes.map(({ spec, splices }) => {
    const { path, bytes: before, text } = spec;
    if (splices.length === 0) return { path, before, text: undefined };
    return { path, before, text: sound(path, applied(text, splices)) };
  });
  if (shows)
    for (const { spec, splices } of changes)
      for (const { line, gone, fresh } of changedRows(spec.text, splices)) {
        tell(`${shownPath(spec.path)}:${line}`);
        for (const row of gone) tell(`- ${row}`);
        for (const row of fresh) tell(`+ ${row}`);
      }
  if (!writes) return;
  replaceFiles(replacements);
  for (const { path, text } of replacements)
    if (text !== undefined) tell(`${shownPath(path)}: written`);
}
