import { dateOf, isLessMature } from "../model/records";
import { show } from "../quantity/show";
import type { Check } from "./check";

export const recordOvertaken: Check = {
  code: "record-overtaken",
  severity: "warning",
  explain:
    "A part has a later figure, or one of a newer revision, that rests on less than the one that governs: a weighing of the old article still counts. A stale light figure always looks like good news. Write `was` before it if the later figure is right.",
  example: `
part frame {
  weighed 6.9 lb on 2026-06-14
//        ^^^^^^ warning[record-overtaken]: frame still counts with 6.9 lb weighed on 2026-06-14; 7.3 lb calculated is later
  calculated 7.3 lb on 2026-09-01
  at FS 124
}
`,

  *member(member) {
    if (member.kind !== "part" && member.kind !== "ballast") return;
    const { governing, records, unit } = member;
    if (governing?.mass === undefined) return;
    const later = records.findLast(
      it =>
        !it.history &&
        it.mass !== undefined &&
        isLessMature(it, governing) &&
        dateOf(it) !== "" &&
        dateOf(it) > dateOf(governing),
    );
    if (later?.mass === undefined) return;
    const when = governing.clause.on ? ` on ${governing.clause.on.text}` : "";
    yield {
      at: governing.clause.figure ?? governing.clause,
      message: `${member.name} still counts with ${show(governing.mass, unit)} ${governing.basis}${when}; ${show(later.mass, later.unit ?? unit)} ${later.basis} is later`,
      related: [{ at: later.clause.figure ?? later.clause, message: "the later figure" }],
      subject: member.path,
    };
  },
};
