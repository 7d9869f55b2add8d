import type { Part } from "../../model/part";
import type { Project } from "../../project";
import { recordIn } from "../../shop/insert";
import { fileEdits, type Offer } from "./rewrite";

/**
 * The governing record of a part stays as history, and one of today with the same figure comes behind it, to
 * be written over: what was thought when stays on record.
 * @param today ISO
 */
export function superseding(project: Project, part: Part, today: string): readonly Offer[] {
  const record = part.governing?.clause;
  if (record?.figure === undefined || record.line.file !== part.head.line.file) return [];
  if (record.on !== undefined && record.on.text >= today) return [];
  const { line, from, figure, spread, rev } = record;
  const said = line.text.slice(from, (spread ?? figure).to);
  const fresh = `${said} on ${today}${rev ? ` rev ${line.text.slice(rev.from, rev.to)}` : ""}`;
  return [
    {
      title: `Keep ${said} as history, and add a record of today`,
      kind: "rewrite",
      rewrite: () => {
        const edit = recordIn(part.item, fresh);
        const { at, text } = edit;
        // a declaration that is put into braces is written anew with all its clauses
        if (at.line === line && at.from <= from && from < at.to)
          return {
            edits: fileEdits(project, [{ at, text: text.replace(said, () => `was ${said}`) }]),
          };
        return {
          edits: fileEdits(project, [{ at: { line, from, to: from }, text: "was " }, edit]),
        };
      },
      // a record of today is later than the scales an airframe was on, and than its own records
      keeps: { codes: ["changed-after-weighing", "record-overtaken"] },
    },
  ];
}
