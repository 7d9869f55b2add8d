import type * as lsp from "vscode-languageserver";
import type { Finding } from "../findings";
import type { JudgedRoot, Judgement } from "../judge";
import type { Project } from "../project";
import { diagnosticOf, severities } from "./to-lsp";
import { uriOf } from "./uris";

/** An editor draws no more than this a file; the command line prints all. */
const MOST = 100;

/**
 * Sends the lists that changed since the last time, and only those: a list is never emptied on the way
 * from one state to the next.
 */
export function publisher(send: (params: lsp.PublishDiagnosticsParams) => void) {
  const sent = new Map<string, string>();
  return (project: Project, judgement: Judgement): void => {
    const lists = new Map<string, Finding[]>();
    for (const finding of judgement.findings) {
      if (finding.waived !== undefined) continue;
      const { file } = finding.at.line;
      const list = lists.get(file);
      if (list) list.push(finding);
      else lists.set(file, [finding]);
    }
    for (const path of sent.keys()) if (!lists.has(path)) lists.set(path, []);
    for (const [path, findings] of lists) {
      const diagnostics = worst(findings).map(finding => diagnosticOf(project, finding));
      if (findings.length > MOST) diagnostics.push(more(findings.length - MOST));
      const text = JSON.stringify(diagnostics);
      if (sent.get(path) === text) continue;
      if (findings.length === 0) sent.delete(path);
      else sent.set(path, text);
      send({ uri: uriOf(path), diagnostics });
    }
  };
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

/** What an editor shows of each aircraft beside its text. */
export interface Status {
  readonly roots: readonly {
    readonly name: string;
    readonly airframe?: string;
    readonly file: string;
    readonly emptyWeight: string;
    readonly cg?: string;
    readonly complete: boolean;
    readonly errors: number;
    readonly warnings: number;
  }[];
}

/** Sends how the aircraft are, when that changed. */
export function statusBoard(send: (status: Status) => void) {
  let sent = "";
  return ({ roots, findings }: Judgement): void => {
    const status = { roots: roots.map(root => rootStatus(root, findings)) };
    const text = JSON.stringify(status);
    if (text === sent) return;
    sent = text;
    send(status);
  };
}

function rootStatus(root: JudgedRoot, findings: readonly Finding[]): Status["roots"][number] {
  const files = new Set(root.files);
  const { name, airframe, emptyWeight, cg, complete } = root;
  const isOfIt = (it: Finding) =>
    airframe === undefined
      ? it.airframes === undefined && files.has(it.at.line.file)
      : it.airframes?.includes(airframe) === true;
  const count = (severity: Finding["severity"]) =>
    findings.filter(it => it.severity === severity && it.waived === undefined && isOfIt(it)).length;
  return {
    name: root.root.title ?? name,
    ...(airframe === undefined ? {} : { airframe: root.root.airframe?.title ?? airframe }),
    file: uriOf(root.file),
    emptyWeight,
    ...(cg === undefined ? {} : { cg }),
    complete,
    errors: count("error"),
    warnings: count("warning"),
  };
}
