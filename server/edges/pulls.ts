import type * as lsp from "vscode-languageserver";
import { type FileReport, nothing } from "./reports";
import { pathOf, uriOf } from "./uris";

type Reports = ReadonlyMap<string, FileReport>;

/** What an editor is told that asks for findings instead of being sent them. */
export interface Pulls {
  /** It asks for those of files that it does not show too. */
  readonly ofWorkspace: () => boolean;
  readonly document: (params: lsp.DocumentDiagnosticParams) => lsp.DocumentDiagnosticReport;
  /** Stays open: what changes later is told as a part of the same answer, or ends it. */
  readonly workspace: (
    params: lsp.WorkspaceDiagnosticParams,
    cancelled: lsp.CancellationToken,
    parts: lsp.ResultProgressReporter<lsp.WorkspaceDiagnosticReportPartialResult> | undefined,
  ) => Promise<lsp.WorkspaceDiagnosticReport>;
  /** The picture is another one. */
  readonly changed: () => void;
  readonly end: () => void;
}

interface Waiting {
  /** What the editor has of each file, by its identity. */
  readonly has: Map<string, string>;
  readonly tell: (items: lsp.WorkspaceDocumentDiagnosticReport[]) => void;
  readonly end: () => void;
}

/**
 * @param now the reports of the picture as it is
 * @param related whether the answer for one document may bring those of others that are not shown
 * @param isOpen whether an editor shows a file, and so asks for it by itself
 */
export function pulls(
  now: () => Reports,
  related: () => boolean,
  isOpen: (path: string) => boolean,
): Pulls {
  // what an earlier run of the server told is none of this one's
  const run = Date.now().toString(36);
  let last = 0;
  const ids = new Map<string, { readonly text: string; readonly id: string }>();
  const idAt = (path: string, report: FileReport) => {
    if (report.text === nothing.text) return none;
    const known = ids.get(path);
    if (known?.text === report.text) return known.id;
    const id = `${run} ${++last}`;
    ids.set(path, { text: report.text, id });
    return id;
  };
  const brought = new Map<string, string>();
  let waiting: Waiting | undefined;
  let ofWorkspace = false;

  const end = () => {
    waiting?.end();
    waiting = undefined;
  };
  const changed = () => {
    if (waiting === undefined) return;
    const items = differing(now(), waiting.has);
    if (items.length > 0) waiting.tell(items);
  };

  return {
    ofWorkspace: () => ofWorkspace,
    document: ({ textDocument, previousResultId }) => {
      const reports = now();
      const path = pathOf(textDocument.uri);
      const report = reports.get(path) ?? nothing;
      const id = idAt(path, report);
      const own: lsp.DocumentDiagnosticReport =
        id === previousResultId ? { kind: "unchanged", resultId: id } : full(report, id);
      if (!related()) return own;
      const others = differing(reports, brought).filter(it => !isOpen(pathOf(it.uri)));
      if (others.length === 0) return own;
      const relatedDocuments = Object.fromEntries(
        others.map(({ uri, version: _, ...rest }) => [uri, rest]),
      );
      return { ...own, relatedDocuments };
    },
    workspace: ({ previousResultIds }, cancelled, parts) => {
      ofWorkspace = true;
      end();
      return new Promise(answer => {
        const has = new Map(previousResultIds.map(it => [pathOf(it.uri), it.value]));
        const mine: Waiting = {
          has,
          tell: items => {
            if (parts) parts.report({ items });
            else {
              waiting = undefined;
              answer({ items });
            }
          },
          end: () => answer({ items: [] }),
        };
        waiting = mine;
        cancelled.onCancellationRequested(() => {
          if (waiting === mine) end();
        });
        changed();
      });
    },
    changed,
    end,
  };

  /** The files of which somebody has another list, who then has this one. */
  function differing(reports: Reports, has: Map<string, string>) {
    const items: lsp.WorkspaceFullDocumentDiagnosticReport[] = [];
    const put = (path: string, report: FileReport) => {
      const id = idAt(path, report);
      if ((has.get(path) ?? none) === id) return;
      has.set(path, id);
      items.push({ ...full(report, id), uri: uriOf(path), version: null });
    };
    for (const [path, report] of reports) put(path, report);
    for (const path of [...has.keys()]) if (!reports.has(path)) put(path, nothing);
    return items;
  }
}

/** The identity of a list without findings, whoever told it. */
const none = "none";

const full = ({ items }: FileReport, resultId: string): lsp.FullDocumentDiagnosticReport => ({
  kind: "full",
  resultId,
  items: [...items],
});
