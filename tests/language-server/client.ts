import { fork, spawn } from "node:child_process";
import { basename, extname } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { vi } from "vitest";
import {
  CancellationTokenSource,
  createMessageConnection,
  IPCMessageReader,
  IPCMessageWriter,
  type MessageConnection,
  ProgressType,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-jsonrpc/node";
import type { BudgetAnswer, BudgetQuestion } from "../../server/edges/budget-answer";
import type { NewAnswer, NewQuestion } from "../../server/edges/new-answer";
import type { ReadingAnswer, ReadingQuestion, ShopAnswer } from "../../server/edges/weigh-answer";
import { filesOn, type Server, worker } from "./worker";

const built = (name: string) => fileURLToPath(new URL(`../../dist/${name}`, import.meta.url));

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Diagnostic {
  readonly code?: string;
  readonly message: string;
  readonly severity: number;
  readonly tags?: readonly number[];
  readonly codeDescription?: { readonly href: string };
  readonly relatedInformation?: readonly {
    readonly message: string;
    readonly location: { readonly uri: string; readonly range: Diagnostic["range"] };
  }[];
  readonly range: { readonly start: Position; readonly end: Position };
}

export interface Sym {
  readonly name: string;
  readonly detail: string;
  readonly range: Diagnostic["range"];
  readonly children: readonly Sym[];
}

interface Tokens {
  readonly resultId: string;
  readonly data?: readonly number[];
  readonly edits?: readonly {
    readonly start: number;
    readonly deleteCount: number;
    readonly data?: readonly number[];
  }[];
}

interface Edit {
  readonly range: Diagnostic["range"];
  readonly newText: string;
}

interface Fix {
  readonly title: string;
  readonly diagnostics: readonly Diagnostic[];
  readonly edit: {
    readonly changes: Readonly<Record<string, readonly Edit[]>>;
  };
}

export interface Why {
  readonly uri: string;
  readonly path: string;
  readonly text: string;
  readonly links: readonly {
    readonly line: number;
    readonly from: number;
    readonly to: number;
    readonly target: { readonly uri: string; readonly range: Diagnostic["range"] };
  }[];
}

export interface Hint {
  readonly position: Position;
  readonly label: readonly {
    readonly value: string;
    readonly location?: { readonly uri: string; readonly range: Diagnostic["range"] };
  }[];
}

export interface Lens {
  readonly range: Diagnostic["range"];
  readonly command?: {
    readonly title: string;
    readonly command: string;
    readonly arguments?: readonly { readonly uri: string; readonly path: string }[];
  };
}

export interface Report {
  readonly kind: "full" | "unchanged";
  readonly resultId: string;
  readonly uri?: string;
  readonly items?: readonly Diagnostic[];
  readonly relatedDocuments?: Readonly<Record<string, Report>>;
}

/** How the built server is started: by itself as editors do, through the command line, in a browser. */
export type Over = "stdio" | "ipc" | "poise lsp" | "worker";

export interface Setup {
  readonly folders: readonly string[];
  readonly over?: Over;
  readonly exclude?: readonly string[];
  /** The revision that lines are compared with. */
  readonly base?: string;
  /** It shows how long a judgement took. */
  readonly tellsTime?: boolean;
  /** Files are in a file system that only the editor can read. */
  readonly elsewhere?: boolean;
  /** Hovers may hold a link to how a figure comes about. */
  readonly linksWhy?: boolean;
  /** It can be asked to ask again. */
  readonly refreshes?: boolean;
  /** What its list of completions shows. */
  readonly list?: object;
  /** What else it says it can do. */
  readonly textDocument?: object;
  readonly workspace?: object;
}

/** An editor of few words: speaks to the built server, and keeps what it is told. */
export async function editor(setup: Setup) {
  const { folders, over = "stdio", exclude = [], linksWhy = false, refreshes = false } = setup;
  const { list = {} } = setup;
  const { tellsTime = false, elsewhere = over === "worker" } = setup;
  const { server, connection } = started(over);
  const lists = new Map<string, readonly Diagnostic[]>();
  const sent: string[] = [];
  const statuses: { readonly roots: readonly Record<string, unknown>[] }[] = [];
  const log: string[] = [];
  const watchers: Watcher[] = [];
  const told: string[] = [];
  connection.onNotification("textDocument/publishDiagnostics", ({ uri, diagnostics }) => {
    lists.set(uri, diagnostics);
    sent.push(`${uri.split("/").at(-1)} ${diagnostics.length}`);
  });
  connection.onNotification("poise/status", status => void statuses.push(status));
  const refreshed: string[] = [];
  for (const what of ["inlayHint", "codeLens", "diagnostic"])
    connection.onRequest(`workspace/${what}/refresh`, () => {
      refreshed.push(what);
      return null;
    });
  const took: number[] = [];
  connection.onNotification("poise/judged", ({ ms }) => void took.push(ms));
  let changes = 0;
  connection.onNotification("poise/changed", () => void changes++);
  connection.onNotification("window/logMessage", ({ message }) => void log.push(message));
  connection.onRequest("client/registerCapability", ({ registrations }) => {
    for (const { registerOptions } of registrations)
      watchers.push(...(registerOptions?.watchers ?? []));
    return null;
  });
  const place = elsewhere ? "hangar://bay" : "file://";
  const pathOf = (uri: string) => fileURLToPath(uri.replace(place, "file://"));
  const reads: string[] = [];
  filesOn(connection, pathOf, reads);
  connection.listen();
  const hrefOf = (path: string) => pathToFileURL(path).href.replace("file://", place);
  const folderOf = (path: string) => ({ uri: hrefOf(path), name: path });
  const { capabilities } = await connection.sendRequest<{
    readonly capabilities: Readonly<Record<string, unknown>>;
  }>("initialize", {
    processId: null,
    capabilities: {
      workspace: {
        workspaceFolders: true,
        didChangeWatchedFiles: { dynamicRegistration: true },
        ...(refreshes && {
          inlayHint: { refreshSupport: true },
          codeLens: { refreshSupport: true },
          diagnostics: { refreshSupport: true },
        }),
        ...setup.workspace,
      },
      textDocument: { completion: { completionItem: list }, ...setup.textDocument },
    },
    rootUri: null,
    workspaceFolders: folders.map(folderOf),
    initializationOptions: { exclude, linksWhy, tellsTime, base: setup.base },
  });
  await connection.sendNotification("initialized", {});

  const uriOf = (file: string) => (file.startsWith("untitled:") ? file : hrefOf(file));
  const document = (file: string) => ({ textDocument: { uri: uriOf(file) } });
  const symbols = (file: string): Promise<readonly Sym[]> =>
    connection.sendRequest("textDocument/documentSymbol", document(file));
  /** A notification has no answer; what is asked after it is answered after it. */
  const tell = async (method: string, params: object) => {
    await connection.sendNotification(method, params);
    await symbols("/none.poise");
  };
  await symbols("/none.poise");
  return {
    findings: (file: string) =>
      (lists.get(uriOf(file)) ?? []).map(it => `${it.code}: ${it.message}`),
    diagnostics: (file: string) => lists.get(uriOf(file)) ?? [],
    sent,
    /** What the server says it can do. */
    capabilities,
    /** Which files it had read for it, in order. */
    reads,
    statuses,
    log,
    /** Which events on disk the server heard of: those it asked for, once for each time it did. */
    told,
    open: (file: string, text: string) =>
      tell("textDocument/didOpen", {
        textDocument: { uri: uriOf(file), languageId: "poise", version: 1, text },
      }),
    /** Several edits in one message stand one after the other, as an editor sends them. */
    change: (file: string, ...edits: readonly (readonly [Position, Position, string])[]) =>
      tell("textDocument/didChange", {
        textDocument: { uri: uriOf(file), version: 2 },
        contentChanges: edits.map(([start, end, text]) => ({ range: { start, end }, text })),
      }),
    replace: (file: string, text: string) =>
      tell("textDocument/didChange", {
        textDocument: { uri: uriOf(file), version: 2 },
        contentChanges: [{ text }],
      }),
    close: (file: string) => tell("textDocument/didClose", document(file)),
    onDisk: (...changes: readonly (readonly [file: string, what: keyof typeof changeTypes])[]) => {
      const heard = changes.flatMap(([file, what]) =>
        watchers.filter(it => watches(it, file, what)).map(() => [file, what] as const),
      );
      told.push(...heard.map(([file, what]) => `${basename(file)} ${what}`));
      return tell("workspace/didChangeWatchedFiles", {
        changes: heard.map(([file, what]) => ({ uri: uriOf(file), type: changeTypes[what] })),
      });
    },
    folders: (added: readonly string[], removed: readonly string[]) =>
      tell("workspace/didChangeWorkspaceFolders", {
        event: { added: added.map(folderOf), removed: removed.map(folderOf) },
      }),
    hover: async (file: string, position: Position) => {
      const params = { ...document(file), position };
      const found = await connection.sendRequest<{ contents: { value: string } } | null>(
        "textDocument/hover",
        params,
      );
      return found?.contents.value ?? "";
    },
    definition: async (file: string, position: Position) => {
      const params = { ...document(file), position };
      const found = await connection.sendRequest<(Diagnostic & { uri: string }) | null>(
        "textDocument/definition",
        params,
      );
      return found && `${found.uri.split("/").at(-1)}:${found.range.start.line}`;
    },
    /** The quick fixes at a place, each with the text it puts there. */
    fixes: async (file: string, start: Position, end = start) => {
      const diagnostics = lists.get(uriOf(file)) ?? [];
      const params = { ...document(file), range: { start, end }, context: { diagnostics } };
      const found = await connection.sendRequest<readonly Fix[]>("textDocument/codeAction", params);
      return found.map(({ title, diagnostics: of, edit }) => ({
        title,
        ends: of.map(it => it.code),
        edits: edit.changes[uriOf(file)] ?? [],
      }));
    },
    /** The edits that format a file, or the lines from one row up to another. */
    format: (file: string, from?: number, to?: number) =>
      connection.sendRequest<readonly Edit[]>(
        `textDocument/${from === undefined ? "formatting" : "rangeFormatting"}`,
        {
          ...document(file),
          options: { tabSize: 4, insertSpaces: false },
          range: { start: { line: from, character: 0 }, end: { line: to, character: 0 } },
        },
      ),
    folds: (file: string) =>
      connection.sendRequest<unknown>("textDocument/foldingRange", document(file)),
    selections: (file: string, ...positions: readonly Position[]) =>
      connection.sendRequest<unknown>("textDocument/selectionRange", {
        ...document(file),
        positions,
      }),
    links: (file: string) =>
      connection.sendRequest<readonly { readonly target: string }[]>(
        "textDocument/documentLink",
        document(file),
      ),
    /** What an editor asks for that is not sent findings. */
    pull: (file: string, previousResultId?: string) =>
      connection.sendRequest<Report>("textDocument/diagnostic", {
        ...document(file),
        previousResultId,
      }),
    /** Of all files; with a token what comes later is a part of the answer. */
    pullAll: (has: readonly Report[], told?: (items: readonly Report[]) => void) => {
      const cancel = new CancellationTokenSource();
      const token = `all ${Math.random()}`;
      if (told)
        connection.onProgress(
          new ProgressType<{ items: readonly Report[] }>(),
          token,
          ({ items }) => told(items),
        );
      const answer = connection.sendRequest<{ readonly items: readonly Report[] }>(
        "workspace/diagnostic",
        {
          previousResultIds: has.map(({ uri, resultId }) => ({ uri, value: resultId })),
          ...(told && { partialResultToken: token }),
        },
        cancel.token,
      );
      return { answer, cancel: () => cancel.cancel() };
    },
    content: async (uri: string) =>
      (await connection.sendRequest<{ text: string }>("workspace/textDocumentContent", { uri }))
        .text,
    /** What stands behind each row, from one row to another. */
    hints: async (file: string, from = 0, to = 1000) => {
      const range = { start: { line: from, character: 0 }, end: { line: to, character: 0 } };
      const params = { ...document(file), range };
      return connection.sendRequest<readonly Hint[]>("textDocument/inlayHint", params);
    },
    /** Each filled in, as an editor does with those that come into view. */
    lenses: async (file: string) => {
      const found = await connection.sendRequest<readonly Lens[]>(
        "textDocument/codeLens",
        document(file),
      );
      return Promise.all(found.map(it => connection.sendRequest<Lens>("codeLens/resolve", it)));
    },
    /** What the server asked this editor to ask for again. */
    refreshed,
    configure: (settings: object) =>
      tell("workspace/didChangeConfiguration", { settings: { poise: settings } }),
    /** Five numbers a word; since an earlier answer only what is new. */
    tokens: (file: string, since?: string) =>
      connection.sendRequest<Tokens>(
        `textDocument/semanticTokens/full${since === undefined ? "" : "/delta"}`,
        { ...document(file), previousResultId: since },
      ),
    tokensIn: (file: string, start: Position, end: Position) =>
      connection.sendRequest<Tokens>("textDocument/semanticTokens/range", {
        ...document(file),
        range: { start, end },
      }),
    /** Any other question about a document. */
    ask: <T>(method: string, file: string, params: object = {}) =>
      connection.sendRequest<T>(`textDocument/${method}`, { ...document(file), ...params }),
    resolve: <T>(what: string, item: T) => connection.sendRequest<T>(`${what}/resolve`, item),
    why: (file: string, about: Position | string) =>
      connection.sendRequest<Why | null>("poise/why", {
        uri: uriOf(file),
        ...(typeof about === "string" ? { path: about } : { position: about }),
      }),
    shop: (file: string, airframe?: string) =>
      connection.sendRequest<ShopAnswer | null>("poise/shop", {
        uri: uriOf(file),
        ...(airframe !== undefined && { airframe }),
      }),
    reading: (file: string, question: Omit<ReadingQuestion, "uri">) =>
      connection.sendRequest<ReadingAnswer | null>("poise/reading", {
        uri: uriOf(file),
        ...question,
      }),
    budget: (question: BudgetQuestion = {}) =>
      connection.sendRequest<BudgetAnswer>("poise/budget", question),
    begun: (question: NewQuestion) => connection.sendRequest<NewAnswer>("poise/new", question),
    /** How long each judgement took, for an editor that wants to know. */
    took,
    /** How often it was told that what it shows may have changed. */
    changes: () => changes,
    symbols,
    /** Any other question, with its answer as it comes. */
    request: <Answer>(method: string, params: object) =>
      connection.sendRequest<Answer>(method, params),
    stop: async () => {
      const ended = new Promise<number | null>(done => server.once("exit", done));
      await connection.sendRequest("shutdown");
      await connection.sendNotification("exit");
      const status = await ended;
      connection.dispose();
      return status;
    },
  };
}

/** Until it holds, as long as a busy machine takes. */
export const holds = (tried: () => void) => vi.waitFor(tried, 30_000);

const changeTypes = { created: 1, changed: 2, deleted: 3 } as const;
const kinds = { created: 1, changed: 2, deleted: 4 } as const;

interface Watcher {
  readonly globPattern: string;
  /** A sum of kinds; without it, all three. */
  readonly kind?: number;
}

function watches({ globPattern, kind = 7 }: Watcher, file: string, what: keyof typeof kinds) {
  const named = globPattern === "**" || globPattern === `**/*${extname(file)}`;
  return named && (kind & kinds[what]) !== 0;
}

function started(over: Over): { server: Server; connection: MessageConnection } {
  if (over === "worker") return worker(built("server-worker.js"));
  if (over === "ipc") {
    const server = fork(built("server.js"), ["--node-ipc"], { execArgv: [], silent: true });
    const [reader, writer] = [new IPCMessageReader(server), new IPCMessageWriter(server)];
    return { server, connection: createMessageConnection(reader, writer) };
  }
  const args = over === "stdio" ? [built("server.js")] : [built("poise.js"), "lsp"];
  const server = spawn(process.execPath, [...args, "--stdio"], {
    stdio: ["pipe", "pipe", "inherit"],
  });
  const reader = new StreamMessageReader(server.stdout);
  return {
    server,
    connection: createMessageConnection(reader, new StreamMessageWriter(server.stdin)),
  };
}
