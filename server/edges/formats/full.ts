import { textOf } from "../../../grammar/source";
import type { Finding } from "../../findings";
import { memo } from "../../memo";
import { type Project, sourceOf } from "../../project";
import { type Where, whereIs } from "../places";
import { brought, changeLines, yardstickLines } from "./change";
import { oneLine, placeIn, said } from "./line";
import { CAUTION, counted, foundIn, many, type Paint, type Report } from "./report";
import { drawn, plainRow, windowOf } from "./row";

/** For a person at a terminal: code frames, or what a change does. */
export function full(report: Report, paint: Paint): string {
  if (report.change?.told) return changeLines(report, report.change, paint).join("\n");
  const frames = foundIn(report).map(it => `${frame(report.project, it.finding, paint)}\n`);
  return [...yardstickLines(report, paint, "full"), ...frames, ...ending(report)].join("\n");
}

/** One line each: findings, and before them what a change did. */
export function concise(report: Report, paint: Paint): string {
  if (report.change?.told) return changeLines(report, report.change, paint, "concise").join("\n");
  const lines = foundIn(report).map(it => oneLine(report.project, it.finding, paint));
  return [...yardstickLines(report, paint, "concise"), ...lines, ...ending(report)].join("\n");
}

function ending(report: Report): readonly string[] {
  const { roots, files } = report;
  return [
    ...roots.map(root => plainRow(drawn(root.summary))),
    `${report.change ? `${brought(report)}; now ` : ""}${counted(foundIn(report))} in ${many(files, "file")}`,
    ...(roots.length > 0 ? [CAUTION] : []),
  ];
}

/** A finding with the line it stands on and carets under it, and the places related to it. */
function frame(project: Project, finding: Finding, paint: Paint): string {
  const where = whereIs(project, finding.at);
  const { row, before, width } = windowOf(rowOf(project, finding, where), ...columnsOf(where));
  const pad = " ".repeat(String(where.start.line).length);
  const under = " ".repeat(before);
  const label = `${"^".repeat(width)} ${finding.severity}[${finding.code}]`;
  return [
    paint("dim", `${placeIn(where)}:`),
    `${paint("dim", `${where.start.line} |`)} ${row}`,
    `${paint("dim", `${pad} |`)} ${under}${paint(finding.severity, label)}: ${said(finding)}`,
    ...finding.related.map(
      it => `${paint("dim", `${pad} = ${placeIn(whereIs(project, it.at))}:`)} ${drawn(it.message)}`,
    ),
  ].join("\n");
}

const rowsOf = memo((source: NonNullable<ReturnType<typeof sourceOf>>) =>
  textOf(source).split("\n"),
);

function rowOf(project: Project, { at }: Finding, { start }: Where): string {
  const source = sourceOf(project, at.line.file);
  return (source && rowsOf(source)[start.line - 1]) ?? "";
}

/** From 0; a span over several rows is shown to the end of its first. */
function columnsOf({ start, end }: Where): [from: number, to: number] {
  return [start.column - 1, end.line === start.line ? end.column - 1 : Number.POSITIVE_INFINITY];
}
