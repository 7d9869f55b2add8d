import type { Finding } from "../../findings";
import type { Project } from "../../project";
import { type Where, whereIs } from "../places";
import type { Paint } from "./report";
import { drawn, plainRow } from "./row";

/** Place, severity, code, message. */
export function oneLine(project: Project, finding: Finding, paint: Paint): string {
  const label = paint(finding.severity, `${finding.severity}[${finding.code}]`);
  return `${placeIn(whereIs(project, finding.at))}: ${label}: ${said(finding)}`;
}

export const placeIn = ({ file, start }: Where) =>
  `${plainRow(drawn(file))}:${start.line}:${start.column}`;

export const said = ({ message, waived }: Finding) =>
  drawn(waived === undefined ? message : `${message} (waived: ${waived})`);
