import { type LogOutputChannel, workspace } from "vscode";
import {
  type BaseLanguageClient,
  type LanguageClientOptions,
  RevealOutputChannelOn,
  State,
} from "vscode-languageclient";
import { answerFiles } from "./files";
import type { Listener, NewClient, Running } from "./server";
import type { Root, ServerState } from "./status-text";

/** A client that is not started yet, and tells the listener of its server. */
export function connected(
  newClient: NewClient,
  schemes: readonly string[],
  log: LogOutputChannel,
  listener: Listener,
): Running {
  const { client, end } = newClient(optionsFor(schemes, log));
  listenTo(client, log, listener);
  answerFiles(client);
  return { client, end, isUp: () => client.state === State.Running };
}

function optionsFor(schemes: readonly string[], log: LogOutputChannel): LanguageClientOptions {
  return {
    documentSelector: schemes.map(scheme => ({ scheme, language: "poise" })),
    initializationOptions: {
      exclude: workspace.getConfiguration("poise").get<string[]>("files.exclude", []),
      linksWhy: true,
      // git is asked only where the user trusts the folder: a repository may have settings that run programs
      base: workspace.isTrusted
        ? workspace.getConfiguration("poise").get<string>("base", "HEAD").trim()
        : "",
      tellsTime: true,
    },
    synchronize: { configurationSection: "poise" },
    // a text of the author's own may stand in a hover: of all commands, only this one runs from it
    markdown: { isTrusted: { enabledCommands: ["poise.why"] } },
    outputChannel: log,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
  };
}

function listenTo(client: BaseLanguageClient, log: LogOutputChannel, listener: Listener): void {
  client.onDidChangeState(({ newState }) => {
    log.info(`The language server is ${stateNames[newState]}.`);
    listener.serverIs(stateNames[newState]);
  });
  client.onNotification("poise/status", ({ roots }: { roots: readonly Root[] }) =>
    listener.rootsAre(roots),
  );
  client.onNotification("poise/judged", ({ ms }: { ms: number }) => listener.judgedIn(ms));
  client.onNotification("poise/changed", () => listener.pictureChanged());
}

const stateNames = {
  [State.Stopped]: "stopped",
  [State.Starting]: "starting",
  [State.Running]: "running",
  [State.StartFailed]: "stopped",
} as const satisfies Record<State, ServerState>;
