import { textOf } from "../../../grammar/source";
import type { Span } from "../../../grammar/tree";
import type { Finding, Severity } from "../../findings";
import { memo } from "../../memo";
import { type Project, sourceOf } from "../../project";
import { type Where, whereIs } from "../places";

export type Paint = (severity: Severity | "dim", text: string) => string;

/** A finding with the line it stands on and carets under it, and the places related to it. */
export function full(project: Project, finding: Finding, paint: Paint): string {
  const where = whereIs(project, finding.at);
  const label = `${finding.severity}[${finding.code}]`;
  const lines = [`${paint("dim", `${at(where)}:`)}`, ...frame(project, finding.at, where, paint)];
  const carets = "^".repeat(width(where, rowOf(project, finding.at, where)));
  const pad = " ".repeat(String(where.start.line).length);
  const waived = finding.waived === undefined ? "" : ` (waived: ${finding.waived})`;
  const under = " ".repeat(
    columns(rowOf(project, finding.at, where).slice(0, where.start.column - 1)),
  );
  lines.push(
    `${paint("dim", `${pad} |`)} ${under}${paint(finding.severity, `${carets} ${label}`)}: ${finding.message}${waived}`,
  );
  for (const { message, at: span } of finding.related)
    lines.push(`${paint("dim", `${pad} = ${at(whereIs(project, span))}:`)} ${message}`);
  return lines.join("\n");
}

/** One line: place, severity, code, message. */
export function concise(project: Project, finding: Finding, paint: Paint): string {
  const label = paint(finding.severity, `${finding.severity}[${finding.code}]`);
  const waived = finding.waived === undefined ? "" : ` (waived: ${finding.waived})`;
  return `${at(whereIs(project, finding.at))}: ${label}: ${finding.message}${waived}`;
}

const at = ({ file, start }: Where) => `${file}:${start.line}:${start.column}`;

function frame(project: Project, span: Span, where: Where, paint: Paint): readonly string[] {
  const row = rowOf(project, span, where).replaceAll("\t", "  ");
  return [
    `${paint("dim", `${where.start.line} |`)} ${row.length > 160 ? `${row.slice(0, 159)}…` : row}`,
  ];
}

const rowsOf = memo((source: NonNullable<ReturnType<typeof sourceOf>>) =>
  textOf(source).split("\n"),
);

function rowOf(project: Project, span: Span, where: Where): string {
  const source = sourceOf(project, span.line.file);
  return (source && rowsOf(source)[where.start.line - 1]) ?? "";
}

function width(where: Where, row: string): number {
  const end = where.end.line === where.start.line ? where.end.column : row.length + 1;
  return Math.max(1, columns(row.slice(where.start.column - 1, Math.min(end - 1, 160))));
}

/** As wide as a tab is drawn: two. */
const columns = (text: string) => text.length + (text.match(/\t/g)?.length ?? 0);
