import * as lsp from "vscode-languageserver";
import { definition } from "../features/definition";
import { folding } from "../features/folding";
import { formatting } from "../features/format";
import { hover } from "../features/hover";
import { links } from "../features/links";
import { selection } from "../features/selection";
import { outline } from "../features/symbols";
import { judge } from "../judge";
import type { Project } from "../project";
import { actionKinds, actionsAnswer, chosenEdit, editorEdits } from "./action-answers";
import type { BaseFor, BaseHolder } from "./base";
import { codePage } from "./code-pages";
import {
  completionAnswer,
  completionDocs,
  completionProvider,
  editorList,
} from "./completion-answers";
import { findingAnswers } from "./finding-answers";
import { globs } from "./globs";
import { hintAnswer, hintsWanted } from "./hint-answers";
import { filledLens, type LensData, lensAnswer } from "./lens-answers";
import {
  highlightAnswer,
  prepareRenameAnswer,
  referencesAnswer,
  renameAnswer,
} from "./name-answers";
import { answerOwn } from "./own-requests";
import { statusBoard } from "./publish";
import { refresher } from "./refresh";
import { signatureAnswer, signatureOptions } from "./signature-answers";
import { containsAnswer, isInAnswer, preparedAnswer, symbolAnswer } from "./thing-answers";
import { foldOf, linkOf, locationOf, rangeOf, selectionOf, symbolOf, textEditOf } from "./to-lsp";
import { tokenAnswers, tokenLegend } from "./token-answers";
import { pathOf, uriOf } from "./uris";
import { whyLink } from "./why-answer";
import { type DiskFor, type Workspace, workspace } from "./workspace";

/**
 * Serves one editor: one picture of the workspace behind every answer, judged anew after each change.
 * What differs where there is no Node (the connection, the disk) is handed in.
 */
export function serve(connection: lsp.Connection, diskFor: DiskFor, baseFor?: BaseFor): void {
  let folders: string[] = [];
  let edits = editorEdits({});
  let list = editorList({});
  let watches = false;
  let changesFolders = false;
  let linksWhy = false;
  let tellsTime = false;
  let showsFigures = false;
  let hinted = hintsWanted(undefined);
  let baseName = "";
  let base: BaseHolder | undefined;
  let can: lsp.WorkspaceClientCapabilities | undefined;
  const showStatus = statusBoard(
    status => void connection.sendNotification("poise/status", status),
  );

  const askAgain = (what: "inlayHint" | "codeLens" | "diagnostics") => () => {
    const method = what === "diagnostics" ? "diagnostic" : what;
    if (can?.[what]?.refreshSupport)
      connection.sendRequest(`workspace/${method}/refresh`).catch(() => {});
  };
  const findings = findingAnswers(
    path => files.isOpen(path),
    params => void connection.sendDiagnostics(params),
    askAgain("diagnostics"),
  );
  const stale = {
    hints: refresher(askAgain("inlayHint")),
    lenses: refresher(askAgain("codeLens")),
  };
  const forget = (uri: string) => {
    for (const it of [...Object.values(stale), findings]) it.forget(uri);
  };

  const words = tokenAnswers();
  let last: Project | undefined;
  const judged = () => {
    if (!disk.settled()) return;
    const project = files.project();
    // a change on disk that the picture had already, or that is none of ours
    if (project === last) return;
    last = project;
    const began = performance.now();
    const judgement = judge(project);
    const ms = performance.now() - began;
    findings.changed(project);
    showStatus(judgement);
    if (tellsTime) void connection.sendNotification("poise/judged", { ms });
    if (showsFigures) void connection.sendNotification("poise/changed");
    for (const it of Object.values(stale)) it.changed();
  };
  /** With what lines are compared, if there is anything. */
  const compare = () => {
    base?.stop();
    base = baseName === "" ? undefined : baseFor?.(folders, baseName, anotherBase);
  };
  /** A fault of ours costs one answer, never the server. */
  const anotherBase = () => {
    askAgain("inlayHint")();
    askAgain("codeLens")();
  };

  const guarded =
    <P, R>(answer: (params: P) => R, otherwise: R) =>
    (params: P): R => {
      try {
        return answer(params);
      } catch (error) {
        connection.console.error(`Poise failed, please report it: ${(error as Error).stack}`);
        return otherwise;
      }
    };

  const disk = diskFor(
    guarded((paths: readonly string[]) => {
      files.refresh(paths);
      judged();
    }, undefined),
  );
  let files: Workspace = workspace(disk, () => false);

  connection.onInitialize(({ capabilities, workspaceFolders, rootUri, initializationOptions }) => {
    const exclude: unknown = initializationOptions?.exclude;
    linksWhy = initializationOptions?.linksWhy === true;
    tellsTime = initializationOptions?.tellsTime === true;
    const named: unknown = initializationOptions?.base;
    baseName = typeof named === "string" ? named : "";
    const patterns = Array.isArray(exclude) ? exclude.filter(it => typeof it === "string") : [];
    files = workspace(disk, globs(patterns));
    const uris = workspaceFolders?.map(it => it.uri) ?? (rootUri ? [rootUri] : []);
    folders = uris.map(pathOf);
    watches = capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration === true;
    changesFolders = capabilities.workspace?.workspaceFolders === true;
    edits = editorEdits(capabilities);
    list = editorList(capabilities);
    can = capabilities.workspace;
    return {
      capabilities: {
        textDocumentSync: { openClose: true, change: lsp.TextDocumentSyncKind.Incremental },
        hoverProvider: true,
        completionProvider,
        definitionProvider: true,
        referencesProvider: true,
        documentHighlightProvider: true,
        renameProvider: { prepareProvider: true },
        signatureHelpProvider: signatureOptions,
        documentSymbolProvider: true,
        workspaceSymbolProvider: true,
        callHierarchyProvider: true,
        documentFormattingProvider: true,
        documentRangeFormattingProvider: true,
        foldingRangeProvider: true,
        selectionRangeProvider: true,
        documentLinkProvider: {},
        semanticTokensProvider: { legend: tokenLegend, full: { delta: true }, range: true },
        inlayHintProvider: true,
        codeActionProvider: { codeActionKinds: actionKinds, resolveProvider: edits.asksLater },
        codeLensProvider: { resolveProvider: true },
        ...findings.agree(capabilities),
      },
      serverInfo: { name: "poise" },
    };
  });

  connection.onInitialized(
    guarded(() => {
      if (watches)
        connection.client
          .register(lsp.DidChangeWatchedFilesNotification.type, {
            // a folder that goes takes its files along, and only the folder is told
            watchers: [
              { globPattern: "**/*.poise", kind: lsp.WatchKind.Create | lsp.WatchKind.Change },
              { globPattern: "**", kind: lsp.WatchKind.Delete },
            ],
          })
          .catch(error => connection.console.warn(`The editor watches no files: ${error}`));
      if (changesFolders)
        connection.workspace.onDidChangeWorkspaceFolders(
          guarded(({ added, removed }) => {
            const gone = removed.map(it => pathOf(it.uri));
            folders = [
              ...folders.filter(it => !gone.includes(it)),
              ...added.map(it => pathOf(it.uri)),
            ];
            files.setFolders(folders);
            compare();
            judged();
          }, undefined),
        );
      files.setFolders(folders);
      compare();
      judged();
    }, undefined),
  );

  connection.onDidOpenTextDocument(
    guarded(({ textDocument: { uri, text } }) => {
      files.open(pathOf(uri), text);
      judged();
      findings.shown();
    }, undefined),
  );
  connection.onDidChangeTextDocument(
    guarded(({ textDocument: { uri }, contentChanges }) => {
      files.change(pathOf(uri), contentChanges);
      forget(uri);
      judged();
    }, undefined),
  );
  connection.onDidCloseTextDocument(
    guarded(({ textDocument: { uri } }) => {
      files.close(pathOf(uri));
      words.forget(uri);
      forget(uri);
      judged();
      findings.shown();
    }, undefined),
  );
  connection.onDidChangeWatchedFiles(
    guarded(({ changes }) => disk.look(changes.map(it => pathOf(it.uri))), undefined),
  );

  connection.onHover(
    guarded(({ textDocument, position }): lsp.Hover | null => {
      const project = files.project();
      const found = hover(project, pathOf(textDocument.uri), position);
      if (found === undefined) return null;
      const link = linksWhy ? whyLink(project, textDocument.uri, position) : "";
      const contents = { kind: lsp.MarkupKind.Markdown, value: found.markdown + link };
      return { contents, range: rangeOf(project, found.at) };
    }, null),
  );
  connection.onDefinition(
    guarded(({ textDocument, position }): lsp.Location | null => {
      const project = files.project();
      const found = definition(project, pathOf(textDocument.uri), position);
      if (found === undefined) return null;
      if ("at" in found) return locationOf(project, found.at);
      const start = { line: 0, character: 0 };
      return { uri: uriOf(found.file), range: { start, end: start } };
    }, null),
  );
  connection.onSignatureHelp(guarded(params => signatureAnswer(files.project(), params), null));
  connection.onCompletion(guarded(params => completionAnswer(files.project(), params, list), null));
  connection.onCompletionResolve(item =>
    guarded(() => completionDocs(files.project(), item, list), item)(undefined),
  );
  connection.onReferences(guarded(params => referencesAnswer(files.project(), params), []));
  connection.onDocumentHighlight(guarded(params => highlightAnswer(files.project(), params), []));
  connection.onPrepareRename(guarded(params => prepareRenameAnswer(files.project(), params), null));
  connection.onRenameRequest(guarded(params => renameAnswer(files.project(), params, edits), null));
  connection.onCodeAction(
    guarded((params): lsp.CodeAction[] => actionsAnswer(files.project(), params, edits), []),
  );
  connection.onCodeActionResolve(action => {
    const edit = guarded(
      () => chosenEdit(files.project(), action.data, edits),
      "it failed, please report it",
    )(undefined);
    if (typeof edit !== "string") return { ...action, edit };
    connection.window.showWarningMessage(`Nothing was changed: ${edit}.`);
    return action;
  });
  connection.onDocumentSymbol(
    guarded(({ textDocument }): lsp.DocumentSymbol[] => {
      const project = files.project();
      return outline(project, pathOf(textDocument.uri)).map(it => symbolOf(project, it));
    }, []),
  );

  connection.onWorkspaceSymbol(
    guarded(({ query }): lsp.SymbolInformation[] => symbolAnswer(files.project(), query), []),
  );
  const { callHierarchy } = connection.languages;
  callHierarchy.onPrepare(guarded(params => preparedAnswer(files.project(), params), null));
  callHierarchy.onIncomingCalls(guarded(params => isInAnswer(files.project(), params), []));
  callHierarchy.onOutgoingCalls(guarded(params => containsAnswer(files.project(), params), []));

  connection.onDocumentFormatting(
    guarded(({ textDocument }): lsp.TextEdit[] => {
      return formatting(files.project(), pathOf(textDocument.uri)).map(textEditOf);
    }, []),
  );
  connection.onDocumentRangeFormatting(
    guarded(({ textDocument, range }): lsp.TextEdit[] => {
      return formatting(files.project(), pathOf(textDocument.uri), range).map(textEditOf);
    }, []),
  );

  connection.onFoldingRanges(
    guarded(({ textDocument }): lsp.FoldingRange[] => {
      return folding(files.project(), pathOf(textDocument.uri)).map(foldOf);
    }, []),
  );
  connection.onSelectionRanges(
    guarded(({ textDocument, positions }): lsp.SelectionRange[] => {
      const project = files.project();
      return positions.map(it => selectionOf(selection(project, pathOf(textDocument.uri), it), it));
    }, []),
  );
  connection.onDocumentLinks(
    guarded(({ textDocument }): lsp.DocumentLink[] => {
      const project = files.project();
      return links(project, pathOf(textDocument.uri)).map(it => linkOf(project, it));
    }, []),
  );

  const { semanticTokens, diagnostics } = connection.languages;
  semanticTokens.on(
    guarded(({ textDocument: { uri } }) => words.whole(files.project(), uri), { data: [] }),
  );
  semanticTokens.onDelta(
    guarded(
      ({ textDocument: { uri }, previousResultId }) =>
        words.since(files.project(), uri, previousResultId),
      { data: [] },
    ),
  );
  semanticTokens.onRange(
    guarded(({ textDocument: { uri }, range }) => words.some(files.project(), uri, range), {
      data: [],
    }),
  );

  diagnostics.on(guarded(findings.document, { kind: "full", items: [] }));
  diagnostics.onWorkspace((params, cancelled, _, parts) =>
    guarded(
      () => findings.workspace(params, cancelled, parts),
      Promise.resolve({ items: [] }),
    )(undefined),
  );
  connection.onShutdown(() => {
    findings.end();
    base?.stop();
  });
  connection.workspace.textDocumentContent.on(({ uri }) => ({ text: codePage(uri) }));

  connection.onDidChangeConfiguration(
    guarded(({ settings }) => {
      hinted = hintsWanted(settings?.poise?.inlayHints);
      askAgain("inlayHint")();
    }, undefined),
  );
  const hintsIn = guarded(
    (params: lsp.InlayHintParams) => hintAnswer(files.project(), params, hinted, base?.now()),
    [],
  );
  connection.languages.inlayHint.on(params => {
    const now = hintsIn(params);
    stale.hints.told(params.textDocument.uri, now, () => hintsIn(params));
    return now;
  });

  connection.onCodeLens(
    guarded(
      ({ textDocument }): lsp.CodeLens[] => lensAnswer(files.project(), textDocument.uri),
      [],
    ),
  );
  connection.onCodeLensResolve(lens => {
    const fill = guarded(() => filledLens(files.project(), lens, linksWhy, base?.now()), lens);
    const now = fill(undefined);
    const { uri, key } = lens.data as LensData;
    stale.lenses.told(uri, now.command, () => fill(undefined).command, key);
    return now;
  });

  answerOwn(connection, guarded, {
    project: () => files.project(),
    shown: () => {
      showsFigures = true;
    },
  });

  connection.listen();
}
