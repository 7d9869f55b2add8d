import { textOf } from "../../../grammar/source";
import type { Finding, Severity } from "../../findings";
import { memo } from "../../memo";
import { type Project, sourceOf } from "../../project";
import { type Where, whereIs } from "../places";
import { drawn, windowOf } from "./row";

export type Paint = (severity: Severity | "dim", text: string) => string;

/** A finding with the line it stands on and carets under it, and the places related to it. */
export function full(project: Project, finding: Finding, paint: Paint): string {
  const where = whereIs(project, finding.at);
  const { row, before, width } = windowOf(rowOf(project, finding, where), ...columnsOf(where));
  const pad = " ".repeat(String(where.start.line).length);
  const under = " ".repeat(before);
  const label = `${"^".repeat(width)} ${finding.severity}[${finding.code}]`;
  return [
    paint("dim", `${at(where)}:`),
    `${paint("dim", `${where.start.line} |`)} ${row}`,
    `${paint("dim", `${pad} |`)} ${under}${paint(finding.severity, label)}: ${said(finding)}`,
    ...finding.related.map(
      it => `${paint("dim", `${pad} = ${at(whereIs(project, it.at))}:`)} ${drawn(it.message)}`,
    ),
  ].join("\n");
}

/** One line: place, severity, code, message. */
export function concise(project: Project, finding: Finding, paint: Paint): string {
  const label = paint(finding.severity, `${finding.severity}[${finding.code}]`);
  return `${at(whereIs(project, finding.at))}: ${label}: ${said(finding)}`;
}

const at = ({ file, start }: Where) => `${drawn(file)}:${start.line}:${start.column}`;

const said = ({ message, waived }: Finding) =>
  drawn(waived === undefined ? message : `${message} (waived: ${waived})`);

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
