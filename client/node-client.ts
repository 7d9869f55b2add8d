import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import type { NewClientIn } from "./server";

export const newClient: NewClientIn = context => options => {
  const module = context.asAbsolutePath("dist/server.js");
  const server = { module, transport: TransportKind.ipc };
  return { client: new LanguageClient("poise", "Poise", server, options), end: () => {} };
};
