import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { extension } from "./extension";

/** Where there is Node, the language server is a child process. */
export const { activate, deactivate } = extension((context, options) => {
  const module = context.asAbsolutePath("dist/server.js");
  const server = { module, transport: TransportKind.ipc };
  return { client: new LanguageClient("poise", "Poise", server, options), end: () => {} };
});
