import type { Span } from "../../../grammar/tree";
import type { Severity } from "../../findings";
import { broughtIn, pathIn, type Report, rangeOf, rowsOf } from "./report";
import { drawn, jsonText } from "./row";

/** Reviewdog's diagnostics; its columns count bytes of UTF-8, from 1. Of a change, what it brought. */
export function rdjson(report: Report): string {
  return jsonText(
    {
      source: { name: "poise" },
      diagnostics: broughtIn(report).map(
        ({ finding: { code, severity, message, at, related } }) => ({
          message: drawn(message),
          location: locationOf(report, at),
          severity: severities[severity],
          code: { value: code },
          relatedLocations: related.map(it => ({
            message: drawn(it.message),
            location: locationOf(report, it.at),
          })),
        }),
      ),
    },
    1,
  );
}

const severities: Readonly<Record<Severity, string>> = {
  error: "ERROR",
  warning: "WARNING",
  info: "INFO",
};

function locationOf(report: Report, span: Span): object {
  const { start, end } = rangeOf(report.project, span);
  const { first, last } = rowsOf(span);
  const bytes = (row: string, column: number) => Buffer.byteLength(row.slice(0, column)) + 1;
  return {
    path: pathIn(report, span.line.file),
    range: {
      start: { line: start.line + 1, column: bytes(first, start.character) },
      end: { line: end.line + 1, column: bytes(last, end.character) },
    },
  };
}
