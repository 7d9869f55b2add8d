import { positionsOf, type Source, textOf } from "../../../grammar/source";
import { reachesOf, resolvePath } from "../../model/reach";
import { type Project, sourceOf } from "../../project";
import type { At } from "../place";
import type { Offer } from "./rewrite";
import { ownRows } from "./rows";

/** An assembly of the aircraft goes to a file of its own, with the remarks above it; an include stands instead. */
export function extracting(project: Project, { statement, blocks }: At): readonly Offer[] {
  const item = blocks.at(-1);
  const around = blocks.at(-2)?.head;
  if (statement.kind !== "assembly" || item?.head !== statement) return [];
  const source = sourceOf(project, statement.line.file);
  const name = statement.path?.text;
  if (source === undefined || item.close === undefined || name === undefined) return [];
  // an include stands outside of all blocks; of an assembly in another one no file can speak
  if (around !== undefined && (around.kind !== "aircraft" || blocks.length > 2)) return [];
  const file = `${name}.poise`;
  const path = besides(source.path, file);
  return [
    {
      title: `Move assembly ${name} to a file of its own, ${file}`,
      kind: "extract",
      rewrite: () => {
        if (project.files.has(path)) return { refused: `there is a file ${file} already` };
        const own = ownRows(source, item);
        if (own === undefined) return { refused: `something else stands on the rows of ${name}` };
        const { from, last, end, text } = own;
        const include = `include "${file}"`;
        const start = { line: from, character: 0 };
        const created = [{ path, text: `${text.join("\n")}\n` }];
        if (around === undefined)
          return { edits: [{ path: source.path, start, end, text: include }], created };
        const rows = textOf(source).split("\n");
        const bottom = { line: rows.length - 1, character: rows.at(-1)!.length };
        return {
          edits: [
            { path: source.path, start, end: { line: last + 1, character: 0 }, text: "" },
            {
              path: source.path,
              ...{ start: bottom, end: bottom },
              text: `${bottom.character > 0 ? "\n" : ""}${include}\n`,
            },
          ],
          created,
        };
      },
      keeps: {},
    },
  ];
}

/** What an include brings stands in its place; the file goes, where nothing else includes it. */
export function inlining(project: Project, { statement }: At): readonly Offer[] {
  if (statement.kind !== "include") return [];
  const { targets } = reachesOf(project);
  const target = targets.get(statement);
  const source = sourceOf(project, statement.line.file);
  const other = target === undefined ? undefined : sourceOf(project, target);
  if (source === undefined || other === undefined || statement.path === undefined) return [];
  const users = [...targets].filter(([, it]) => it === target);
  return [
    {
      title: `Put what is in ${statement.path.text} here`,
      kind: "inline",
      rewrite: () => {
        const rest = users.find(([it]) => it !== statement);
        if (rest) return { refused: `${rest[0].line.file.split("/").at(-1)} includes it too` };
        return {
          edits: [
            {
              path: source.path,
              ...positionsOf(source, statement),
              text: asSeenFrom(other, source.path).trim(),
            },
          ],
          deleted: [other.path],
        };
      },
      keeps: {},
    },
  ];
}

/** A file's text with its includes written as a file in another folder must have them. */
function asSeenFrom(source: Source, path: string): string {
  const to = folderOf(path);
  if (folderOf(source.path) === to) return textOf(source);
  return textOf(source)
    .split("\n")
    .map(row =>
      row.replace(/^(\s*include\s+")([^"]*)(")/, (_, before, it: string, after) => {
        return `${before}${relative(to, resolvePath(source.path, it))}${after}`;
      }),
    )
    .join("\n");
}

const folderOf = (path: string) => path.slice(0, path.lastIndexOf("/"));
const besides = (path: string, name: string) => `${folderOf(path)}/${name}`;

function relative(folder: string, path: string): string {
  const [from, to] = [folder.split("/"), path.split("/")];
  let same = 0;
  while (same < from.length && same < to.length - 1 && from[same] === to[same]) same++;
  return [...from.slice(same).map(() => ".."), ...to.slice(same)].join("/");
}
