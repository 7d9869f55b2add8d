import type { Finding } from "../../findings";
import type { JudgedRoot } from "../../judge";
import type { Project } from "../../project";
import { reportOf } from "../../views/report";
import { shownPath, whereIs } from "../places";

/** Everything as one JSON object; keys are added over time, never changed. */
export function json(
  project: Project,
  roots: readonly JudgedRoot[],
  findings: readonly Finding[],
): string {
  const place = (span: Finding["at"]) => {
    const { file, start, end } = whereIs(project, span);
    return { file, range: { start, end } };
  };
  return JSON.stringify({
    poise: 1,
    roots: roots.map(root => ({ ...reportOf(root), file: shownPath(root.file) })),
    findings: findings.map(({ code, severity, message, at, related, waived }) => ({
      code,
      severity,
      message,
      ...place(at),
      related: related.map(it => ({ message: it.message, ...place(it.at) })),
      ...(waived === undefined ? {} : { waived }),
    })),
  });
}
