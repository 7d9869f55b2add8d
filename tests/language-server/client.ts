import { type ChildProcess, spawn } from "node:child_process";
import { fileURLToPath, pathToFileURL } from "node:url";
import {
  createMessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-jsonrpc/node";

const poise = fileURLToPath(new URL("../../dist/poise.js", import.meta.url));

export interface Diagnostic {
  readonly code: string;
  readonly message: string;
  readonly severity: number;
  readonly range: { readonly start: { readonly line: number; readonly character: number } };
}

/** An editor of few words: speaks to the built server over standard input and output. */
export async function editor(...folders: string[]) {
  const server: ChildProcess = spawn(process.execPath, [poise, "lsp", "--stdio"]);
  const connection = createMessageConnection(
    new StreamMessageReader(server.stdout!),
    new StreamMessageWriter(server.stdin!),
  );
  const lists = new Map<string, readonly Diagnostic[]>();
  const sent: string[] = [];
  connection.onNotification("textDocument/publishDiagnostics", ({ uri, diagnostics }) => {
    lists.set(uri, diagnostics);
    sent.push(`${uri.split("/").at(-1)} ${diagnostics.length}`);
  });
  connection.onRequest("client/registerCapability", () => null);
  connection.listen();
  const workspaceFolders = folders.map(folder => ({
    uri: pathToFileURL(folder).href,
    name: folder,
  }));
  await connection.sendRequest("initialize", {
    processId: null,
    capabilities: {},
    rootUri: null,
    workspaceFolders,
  });
  await connection.sendNotification("initialized", {});

  const uriOf = (file: string) => pathToFileURL(file).href;
  /** Everything sent before it is answered first: requests and notifications keep their order. */
  const settled = () =>
    connection.sendRequest("textDocument/documentSymbol", {
      textDocument: { uri: "file:///none.poise" },
    });
  const tell = async (method: string, params: object) => {
    await connection.sendNotification(method, params);
    await settled();
  };
  await settled();
  return {
    findings: (file: string) =>
      (lists.get(uriOf(file)) ?? []).map(it => `${it.code}: ${it.message}`),
    sent,
    open: (file: string, text: string) =>
      tell("textDocument/didOpen", {
        textDocument: { uri: uriOf(file), languageId: "poise", version: 1, text },
      }),
    change: (
      file: string,
      start: { line: number; character: number },
      end: typeof start,
      text: string,
    ) =>
      tell("textDocument/didChange", {
        textDocument: { uri: uriOf(file), version: 2 },
        contentChanges: [{ range: { start, end }, text }],
      }),
    close: (file: string) => tell("textDocument/didClose", { textDocument: { uri: uriOf(file) } }),
    onDisk: (file: string, type: 1 | 2 | 3) =>
      tell("workspace/didChangeWatchedFiles", { changes: [{ uri: uriOf(file), type }] }),
    ask: <T>(method: string, file: string, line: number, character: number): Promise<T> =>
      connection.sendRequest(`textDocument/${method}`, {
        textDocument: { uri: uriOf(file) },
        position: { line, character },
      }),
    symbols: (
      file: string,
    ): Promise<
      readonly {
        name: string;
        detail: string;
        children: readonly { name: string; detail: string }[];
      }[]
    > =>
      connection.sendRequest("textDocument/documentSymbol", { textDocument: { uri: uriOf(file) } }),
    stop: async () => {
      await connection.sendRequest("shutdown");
      await connection.sendNotification("exit");
      connection.dispose();
      server.kill();
    },
  };
}
