import { createHash } from "node:crypto";
import type { Severity } from "../../findings";
import { foundIn, pathIn, type Report, rangeOf } from "./report";
import { drawn, jsonText } from "./row";

/** GitLab's Code Quality report: it compares two of them by fingerprint itself. Waived ones are accepted. */
export function gitlab(report: Report): string {
  const entries = foundIn(report).filter(it => it.finding.waived === undefined);
  return jsonText(
    entries.map(({ finding, id }) => {
      const { start, end } = rangeOf(report.project, finding.at);
      const place = (at: typeof start) => ({ line: at.line + 1, column: at.character + 1 });
      return {
        description: drawn(finding.message),
        check_name: finding.code,
        fingerprint: createHash("sha256").update(id).digest("hex"),
        severity: severities[finding.severity],
        location: {
          path: pathIn(report, finding.at.line.file),
          positions: { begin: place(start), end: place(end) },
        },
      };
    }),
    1,
  );
}

const severities: Readonly<Record<Severity, string>> = {
  error: "critical",
  warning: "major",
  info: "info",
};
