import type { Span } from "../../../grammar/tree";
import type { Project } from "../../project";
import type { Turned } from "../../views/diff/difference";
import { differenceIn, markIn, type PlaceOf } from "../../views/diff/json";
import { reportOf } from "../../views/report";
import { shownPath, whereIs } from "../places";
import { type Change, foundIn, projectOf, type Report } from "./report";
import { jsonText } from "./row";

/** Everything as one JSON object; keys are added over time, never changed. */
export function json(report: Report): string {
  const { project, roots, change } = report;
  if (change?.told) return changeJson(report, change);
  return jsonText({
    poise: 1,
    roots: roots.map(root => ({ ...reportOf(root), file: shownPath(root.file) })),
    ...(change ? { base: change.base.name, yardstick: yardstickJson(report, change) } : {}),
    findings: change ? turnedJson(report) : foundIn(report).map(it => findingIn(project, it)),
  });
}

const placeOf =
  (report: Report, base: Change["base"]): PlaceOf =>
  (span, side) =>
    placeIn(side === "base" ? base.project : report.project, span);

function yardstickJson(report: Report, { difference, base }: Change): readonly object[] {
  const place = placeOf(report, base);
  return difference.roots.flatMap(({ name, airframe, yardstick }) =>
    yardstick.map(it => ({ aircraft: name, airframe: airframe ?? null, ...markIn(it, place) })),
  );
}

function changeJson(report: Report, { difference, base, head }: Change): string {
  const place = placeOf(report, base);
  return jsonText({
    poise: 1,
    base: base.name,
    head: head.name,
    roots: difference.roots.map(it => differenceIn(it, place)),
    findings: turnedJson(report),
  });
}

const turnedJson = (report: Report): readonly object[] =>
  report.turned.map(it => ({
    state: it.state,
    id: it.id,
    ...findingIn(projectOf(report, it), it),
    ...(it.before?.waived === undefined ? {} : { waived_before: it.before.waived }),
  }));

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
