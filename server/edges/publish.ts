import type * as lsp from "vscode-languageserver";
import type { Finding } from "../findings";
import type { JudgedRoot, Judgement } from "../judge";
import type { FileReport } from "./reports";
import { uriOf } from "./uris";

/**
 * Sends the lists that changed since the last time, and only those: a list is never emptied on the way
 * from one state to the next.
 */
export function publisher(send: (params: lsp.PublishDiagnosticsParams) => void) {
  const sent = new Map<string, string>();
  return (reports: ReadonlyMap<string, FileReport>): void => {
    for (const [path, { items, text }] of reports) {
      if (sent.get(path) === text) continue;
      sent.set(path, text);
      send({ uri: uriOf(path), diagnostics: [...items] });
    }
    for (const path of [...sent.keys()])
      if (!reports.has(path)) {
        sent.delete(path);
        send({ uri: uriOf(path), diagnostics: [] });
      }
  };
}

/** What an editor shows of each aircraft beside its text. */
export interface Status {
  readonly roots: readonly {
    readonly name: string;
    readonly airframe?: string;
    readonly file: string;
    /** Of a design all that it is written in, of an airframe its own: the rest is its design's. */
    readonly files: readonly string[];
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
    files: (airframe === undefined ? root.files : [root.file]).map(uriOf),
    emptyWeight,
    ...(cg === undefined ? {} : { cg }),
    complete,
    errors: count("error"),
    warnings: count("warning"),
  };
}
