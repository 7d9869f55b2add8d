import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import type { Library } from "./server";

// Bundled by itself as dist/client.js.
export { connected } from "./connect";

export const clientIn: Library["clientIn"] = context => options => {
  const module = context.asAbsolutePath("dist/server.js");
  const server = { module, transport: TransportKind.ipc };
  return { client: new LanguageClient("poise", "Poise", server, options), end: () => {} };
};
