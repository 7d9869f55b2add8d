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
