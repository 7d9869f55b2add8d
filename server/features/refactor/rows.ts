import { type Position, positionsOf, type Source, textOf } from "../../../grammar/source";
import type { Item } from "../../../grammar/tree";
import type { Project } from "../../project";
import type { At } from "../place";
import { fileEdits, type Offer } from "./rewrite";

/** A statement that goes on over several rows stands on one. */
export function joining(project: Project, { statement }: At): readonly Offer[] {
  const { line } = statement;
  if (line.rows < 2) return [];
  const breaks = [...line.text.matchAll(/[ \t]*\n[ \t]*/g)];
  return [
    {
      title: "Join its rows into one",
      kind: "rewrite",
      rewrite: () => {
        // behind a remark everything would be part of it
        if (/\/\/.*\n/.test(line.text)) return { refused: "there is a remark between its rows" };
        return {
          edits: fileEdits(
            project,
            breaks.map(it => ({
              at: { line, from: it.index, to: it.index + it[0].length },
              text: " ",
            })),
          ),
        };
      },
      keeps: {},
    },
  ];
}

/** The rows that are a declaration's alone, the remarks above it with them. */
export interface OwnRows {
  readonly from: number;
  readonly last: number;
  /** Where the last of them ends. */
  readonly end: Position;
  /** Without the indent of its head. */
  readonly text: readonly string[];
}

/** Undefined: something else stands on them. */
export function ownRows(source: Source, { head, close }: Item): OwnRows | undefined {
  const rows = textOf(source).split("\n");
  const { start } = positionsOf(source, head);
  const { end } = positionsOf(source, close ?? head);
  const indent = rows[start.line]!.slice(0, start.character);
  if (indent.trim() !== "" || !/^\s*(\/\/.*)?$/.test(rows[end.line]!.slice(end.character)))
    return undefined;
  let from = start.line;
  while (rows[from - 1]?.trimStart().startsWith("//")) from--;
  const text = rows
    .slice(from, end.line + 1)
    .map(it => (it.startsWith(indent) ? it.slice(indent.length) : it));
  const last = end.line;
  return { from, last, end: { line: last, character: rows[last]!.length }, text };
}
