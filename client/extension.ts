import { commands, type ExtensionContext, window, workspace } from "vscode";
import { languageServer } from "./server";
import { statusItems } from "./status";
import { weighing } from "./weigh";
import { whyDocuments } from "./why";

let stop: (() => Promise<void>) | undefined;

/** Returns before the server is up: opening a file never waits for it. */
export function activate(context: ExtensionContext): void {
  const log = window.createOutputChannel("Poise", { log: true });
  const status = statusItems();
  const why = whyDocuments(question => server.ask("poise/why", question));
  const server = languageServer(context.asAbsolutePath("dist/server.js"), log, {
    ...status,
    serverIs: state => {
      status.serverIs(state);
      if (state === "running") why.refresh();
    },
    pictureChanged: why.refresh,
  });
  stop = server.stop;

  context.subscriptions.push(
    log,
    status,
    why,
    commands.registerCommand("poise.why", why.show),
    commands.registerCommand("poise.weigh", weighing(server.ask, context.workspaceState)),
    commands.registerCommand("poise.restart", server.restart),
    commands.registerCommand("poise.log", () => log.show()),
    workspace.onDidChangeConfiguration(change => {
      if (change.affectsConfiguration("poise.files.exclude")) void server.restart();
    }),
  );
  void server.start();
}

export function deactivate(): Promise<void> | undefined {
  return stop?.();
}
