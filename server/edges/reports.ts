import * as lsp from "vscode-languageserver";
import type { Finding } from "../findings";
import type { Judgement } from "../judge";
import type { Project } from "../project";
import { addressOfCode } from "./code-pages";
import { diagnosticOf, rangeOf, severities } from "./to-lsp";

/** What an editor can show of a finding beside its words. */
export interface Shows {
  /** Text that does nothing is faded. */
  readonly fades: boolean;
  /** A code leads to its page. */
  readonly pages: boolean;
}

/** What an editor is told of a file. */
export interface FileReport {
  readonly items: readonly lsp.Diagnostic[];
  /** All of it, to be compared. */
  readonly text: string;
}

/** An editor draws no more than this a file; the command line prints all. */
const MOST = 100;

export const nothing: FileReport = { items: [], text: "[]" };

/** Of every file with a finding that is not waived, by its path. */
export function reportsOf(
  project: Project,
  judgement: Judgement,
  shows: Shows,
): ReadonlyMap<string, FileReport> {
  const lists = new Map<string, Finding[]>();
  for (const finding of judgement.findings) {
    if (finding.waived !== undefined) continue;
    const { file } = finding.at.line;
    const list = lists.get(file);
    if (list) list.push(finding);
    else lists.set(file, [finding]);
  }
  const reports = new Map<string, FileReport>();
  for (const [path, findings] of lists) {
    const items = worst(findings).flatMap(finding => drawn(project, finding, shows));
    if (findings.length > MOST) items.push(more(findings.length - MOST));
    reports.set(path, { items, text: JSON.stringify(items) });
  }
  return reports;
}

/** Errors before warnings before information, each in the order of the file. */
function worst(findings: readonly Finding[]): readonly Finding[] {
  if (findings.length <= MOST) return findings;
  return [...findings]
    .sort((a, b) => severities[a.severity] - severities[b.severity])
    .slice(0, MOST);
}

function more(count: number): lsp.Diagnostic {
  const start = { line: 0, character: 0 };
  return {
    range: { start, end: start },
    severity: severities.info,
    source: "poise",
    message: `${count} more findings in this file: poise check lists them all`,
  };
}

/** A waiver that does nothing is faded, and so is a later record that does not count yet. */
function drawn(project: Project, finding: Finding, { fades, pages }: Shows): lsp.Diagnostic[] {
  const { code, at, related } = finding;
  const plain = diagnosticOf(project, finding);
  const shown = pages ? { ...plain, codeDescription: { href: addressOfCode(code) } } : plain;
  if (!fades) return [shown];
  if (code === "waiver-unused") return [{ ...shown, tags: [lsp.DiagnosticTag.Unnecessary] }];
  if (code !== "record-overtaken") return [shown];
  const later = related.flatMap(({ at: place }): lsp.Diagnostic[] =>
    place.line.file === at.line.file
      ? [
          {
            range: rangeOf(project, place),
            severity: lsp.DiagnosticSeverity.Hint,
            code,
            source: "poise",
            message: `does not count: ${finding.message}`,
            tags: [lsp.DiagnosticTag.Unnecessary],
          },
        ]
      : [],
  );
  return [shown, ...later];
}
