import type { Span } from "../../../grammar/tree";
import type { Project } from "../../project";
import type { Turned } from "../../views/diff/difference";
import { differenceIn } from "../../views/diff/json";
import { reportOf } from "../../views/report";
import { shownPath, whereIs } from "../places";
import { type Change, foundIn, projectOf, type Report } from "./report";
import { jsonText } from "./row";

/** Everything as one JSON object; keys are added over time, never changed. */
export function json(report: Report): string {
  const { project, roots, change } = report;
  if (change) return changeJson(report, change);
  return jsonText({
    poise: 1,
    roots: roots.map(root => ({ ...reportOf(root), file: shownPath(root.file) })),
    findings: foundIn(report).map(it => findingIn(project, it)),
  });
}

function changeJson(report: Report, { difference, base, head }: Change): string {
  const place = (span: Span, side: "base" | "head") =>
    placeIn(side === "base" ? base.project : report.project, span);
  return jsonText({
    poise: 1,
    base: base.name,
    head: head.name,
    roots: difference.roots.map(it => differenceIn(it, place)),
    findings: report.turned.map(it => ({
      state: it.state,
      id: it.id,
      ...findingIn(projectOf(report, it), it),
      ...(it.before?.waived === undefined ? {} : { waived_before: it.before.waived }),
    })),
  });
}

function findingIn(project: Project, { finding }: Turned): object {
  const { code, severity, message, at, related, waived } = finding;
  return {
    code,
    severity,
    message,
    ...placeIn(project, at),
    related: related.map(it => ({ message: it.message, ...placeIn(project, it.at) })),
    ...(waived === undefined ? {} : { waived }),
  };
}

function placeIn(project: Project, span: Span) {
  const { file, start, end } = whereIs(project, span);
  return { file, range: { start, end } };
}
