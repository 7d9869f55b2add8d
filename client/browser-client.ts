import { Uri } from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import type { Library } from "./server";

export { connected } from "./connect";

export const clientIn: Library["clientIn"] =
  ({ extensionUri }) =>
  options => {
    const script = Uri.joinPath(extensionUri, "dist/server-worker.js");
    const worker = new Worker(script.toString(true));
    return {
      client: new LanguageClient("poise", "Poise", worker, options),
      // a worker does not end by itself once it was told to
      end: () => worker.terminate(),
    };
  };

declare class Worker {
  constructor(address: string);
  terminate(): void;
}
