import { textOf } from "../../grammar/source";
import type { Edit } from "../features/amend";
import { changedRows } from "../lists/changed-rows";
import { applied, splicesOf } from "../lists/splice";
import { type Project, sourceOf } from "../project";
import { shownPath } from "./places";
import { type Replacement, replaceFiles } from "./replace-files";
import { sound, specAt } from "./spec-file";
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
  { shows, writes }: Handling,
  tell: (text: string) => void,
): void {
  const files = new Map<string, Edit[]>();
  for (const edit of edits) {
    const { file } = edit.at.line;
    const own = files.get(file);
    if (own) own.push(edit);
    else files.set(file, [edit]);
  }
  const replacements: Replacement[] = [];
  for (const [path, own] of files) {
    const spec = specAt(path);
    const source = sourceOf(project, path)!;
    if (textOf(source) !== textOf(spec.source))
      throw new WrongUse(`${shownPath(path)} has changed on the disk since it was read`);
    const splices = splicesOf(spec.text, source, own);
    const text = sound(path, applied(spec.text, splices));
    replacements.push({ path, before: spec.bytes, text });
    if (!shows) continue;
    for (const { line, gone, fresh } of changedRows(spec.text, splices)) {
      tell(`${shownPath(path)}:${line}`);
      for (const row of gone) tell(`- ${row}`);
      for (const row of fresh) tell(`+ ${row}`);
    }
  }
  if (!writes) return;
  replaceFiles(replacements);
  for (const { path } of replacements) tell(`${shownPath(path)}: written`);
}
