import { commands, type Disposable, type ExtensionContext, window, workspace } from "vscode";
import { budgetView } from "./budget";
import { newAircraft } from "./new-aircraft";
import { type Library, languageServer } from "./server";
import { statusItems } from "./status";
import { trying } from "./trial";
import { weighing } from "./weigh";
import { whyDocuments } from "./why";

/** What VS Code calls. It is the same wherever it runs, but for how the server is started and for `more`. */
export function extension(
  load: () => Promise<Library>,
  more: (context: ExtensionContext) => readonly Disposable[] = () => [],
) {
  let stop: (() => Promise<void>) | undefined;
  return {
    /** Returns before the server is up: opening a file never waits for it. */
    activate(context: ExtensionContext): void {
      const log = window.createOutputChannel("Poise", { log: true });
      const status = statusItems();
      const why = whyDocuments(question => server.ask("poise/why", question));
      const budget = budgetView((method, params) => server.ask(method, params));
      const pictureChanged = () => {
        why.refresh();
        budget.refresh();
      };
      const server = languageServer(context, load, log, {
        ...status,
        serverIs: state => {
          status.serverIs(state);
          if (state === "running") pictureChanged();
        },
        pictureChanged,
      });
      stop = server.stop;

      context.subscriptions.push(
        ...more(context),
        log,
        status,
        why,
        budget,
        commands.registerCommand("poise.why", why.show),
        commands.registerCommand("poise.weigh", weighing(server.ask, context.workspaceState)),
        commands.registerCommand("poise.try", trying(server.ask, why.show)),
        commands.registerCommand("poise.new", newAircraft(server.ask)),
        commands.registerCommand("poise.budget.why", why.show),
        commands.registerCommand("poise.restart", server.restart),
        commands.registerCommand("poise.log", () => log.show()),
        workspace.onDidChangeConfiguration(change => {
          if (["poise.files.exclude", "poise.base"].some(it => change.affectsConfiguration(it)))
            void server.restart();
        }),
        workspace.onDidGrantWorkspaceTrust(() => void server.restart()),
        workspace.onDidChangeWorkspaceFolders(({ added }) => {
          if (added.some(it => !server.knows(it.uri.scheme))) void server.restart();
        }),
      );
      void commands.executeCommand("setContext", "poise.active", true);
      void server.start();
    },
    deactivate: (): Promise<void> | undefined => stop?.(),
  };
}
