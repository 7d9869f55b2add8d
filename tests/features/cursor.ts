import { expect } from "vitest";
import { type Position, positionsOf, textOf } from "../../grammar/source";
import { definition } from "../../server/features/definition";
import { hintKinds } from "../../server/features/hint-figures";
import { hints } from "../../server/features/hints";
import { hover } from "../../server/features/hover";
import { lenses, lensText } from "../../server/features/lenses";
import { type Outline, outline } from "../../server/features/symbols";
import { emptyProject, type Project, sourceOf, withText } from "../../server/project";

/** A workspace of a few files by name; `$0` in one of them is the cursor. */
export type Files = Readonly<Record<string, string>>;

const folder = "/specs";
const units = "units lb, in, gal";

/** What a hover says with the cursor in one file of an aircraft, its table's cells parted by `|`. */
export function hovered(files: Files | string): string {
  const { project, path, position } = opened(files);
  const found = hover(project, path, position);
  return (found?.markdown ?? "")
    .split("\n")
    .filter(line => line !== "" && !/^\|[ :|-]*\|$/.test(line))
    .map(line => line.replace(/^\| (.*) \|$/, "$1"))
    .join("\n");
}

/** Where a definition leads: the file, and the row with what is selected in `[ ]`. */
export function leadsTo(files: Files | string): string {
  const { project, path, position } = opened(files);
  const found = definition(project, path, position);
  if (found === undefined) return "nowhere";
  if ("file" in found) return found.file.slice(folder.length + 1);
  const source = sourceOf(project, found.at.line.file)!;
  const { start, end } = positionsOf(source, found.at);
  const row = textOf(source).split("\n")[start.line]!;
  const marked = `${row.slice(0, start.character)}[${row.slice(start.character, end.character)}]${row.slice(end.character)}`;
  return `${source.path.slice(folder.length + 1)}: ${marked.trim()}`;
}

/** A file's outline, indented: name, detail, and the rows it covers where it is more than one. */
export function outlined(files: Files | string): string {
  const { project, path } = opened(files);
  const source = sourceOf(project, path)!;
  const lines = (entries: readonly Outline[], indent: string): string[] =>
    entries.flatMap(({ name, detail, whole, inside }) => {
      const from = positionsOf(source, whole[0]).start.line + 1;
      const to = positionsOf(source, whole[1]).end.line + 1;
      const rows = from === to ? "" : ` (${from} to ${to})`;
      return [`${indent}${name}: ${detail}${rows}`, ...lines(inside, `${indent}  `)];
    });
  return lines(outline(project, path), "").join("\n");
}

/** The rows of a file that end with a figure, with it behind `«`; only some kinds, only some rows. */
export function hinted(
  files: Files | string,
  { kinds = hintKinds as readonly (typeof hintKinds)[number][], from = 0, to = 1000 } = {},
): string {
  const { project, path } = opened(files);
  const source = sourceOf(project, path)!;
  const rows = textOf(source).split("\n");
  const range = { start: { line: from, character: 0 }, end: { line: to, character: 0 } };
  return hints(project, path, range, new Set(kinds))
    .map(({ at, parts }) => {
      const { line, character } = positionsOf(source, at).start;
      expect(character, "at the end of a row").toBe(rows[line]!.length);
      return `${rows[line]!.trim()} «${parts.map(it => it.text).join("")}»`;
    })
    .join("\n");
}

/** What stands above the declarations of a file: each after what it is of. */
export function lensed(files: Files | string): readonly string[] {
  const { project, path } = opened(files);
  return lenses(project, path).map(it => `${it.key}: ${lensText(project, path, it)?.text}`);
}

/** One text alone is a file of an aircraft called kite, unless it has one of its own. */
export function opened(files: Files | string): {
  project: Project;
  path: string;
  position: Position;
} {
  const all = typeof files === "string" ? whole(files) : files;
  let project = emptyProject([folder]);
  let found: { path: string; position: Position } | undefined;
  for (const [name, marked] of Object.entries(all)) {
    const path = `${folder}/${name}`;
    const before = marked.split("$0")[0]!;
    if (before.length < marked.length) {
      const rows = before.split("\n");
      found = { path, position: { line: rows.length - 1, character: rows.at(-1)!.length } };
    }
    project = withText(project, path, marked.replace("$0", ""));
  }
  expect(found, "a fixture has a $0").toBeDefined();
  return { project, ...found! };
}

function whole(text: string): Files {
  if (text.includes("aircraft ")) return { "kite.poise": text };
  return { "kite.poise": `aircraft kite { ${units} }\ninclude "file.poise"`, "file.poise": text };
}
