import { type LogOutputChannel, workspace } from "vscode";
import {
  LanguageClient,
  RevealOutputChannelOn,
  State,
  TransportKind,
} from "vscode-languageclient/node";
import type { Root, ServerState } from "./status-text";

/** What the editor wants to hear of the server. */
export interface Listener {
  serverIs(state: ServerState): void;
  rootsAre(roots: readonly Root[]): void;
  pictureChanged(): void;
}

export interface LanguageServer {
  start(): Promise<void>;
  stop(): Promise<void>;
  restart(): Promise<void>;
  /** Undefined where the server does not run. */
  ask<Answer>(method: string, params: object): Promise<Answer | undefined>;
}

/**
 * The language server as a child process. Its troubles go to the log; the log never opens by itself.
 * Starting and stopping queue up, so that restarting twice in a row leaves one server.
 */
export function languageServer(
  module: string,
  log: LogOutputChannel,
  listener: Listener,
): LanguageServer {
  let client: LanguageClient | undefined;
  let last: Promise<void> = Promise.resolve();

  const inTurn = (step: () => Promise<void>) => () => {
    last = last.then(step).catch(error => log.error(error));
    return last;
  };

  // A new client for each start: one that failed to start or crashed cannot be trusted to stop.
  const up = async () => {
    client = newClient(module, log, listener);
    await client.start();
  };
  const down = async () => {
    const old = client;
    client = undefined;
    await old?.dispose().catch(error => log.warn(error));
    listener.serverIs("stopped");
  };

  return {
    start: inTurn(up),
    stop: inTurn(down),
    ask: async (method, params) =>
      client?.state === State.Running ? client.sendRequest(method, params) : undefined,
    restart: inTurn(async () => {
      await down();
      await up();
    }),
  };
}

function newClient(module: string, log: LogOutputChannel, listener: Listener): LanguageClient {
  const client = new LanguageClient(
    "poise",
    "Poise",
    { module, transport: TransportKind.ipc },
    {
      // Not every scheme: the old side of a diff is no second aircraft.
      documentSelector: ["file", "untitled"].map(scheme => ({ scheme, language: "poise" })),
      initializationOptions: {
        exclude: workspace.getConfiguration("poise").get<string[]>("files.exclude", []),
        linksWhy: true,
      },
      synchronize: { configurationSection: "poise" },
      // a text of the author's own may stand in a hover: of all commands, only this one runs from it
      markdown: { isTrusted: { enabledCommands: ["poise.why"] } },
      outputChannel: log,
      revealOutputChannelOn: RevealOutputChannelOn.Never,
    },
  );
  client.onDidChangeState(({ newState }) => {
    log.info(`The language server is ${stateNames[newState]}.`);
    listener.serverIs(stateNames[newState]);
  });
  client.onNotification("poise/status", ({ roots }: { roots: readonly Root[] }) =>
    listener.rootsAre(roots),
  );
  client.onNotification("poise/changed", () => listener.pictureChanged());
  return client;
}

const stateNames = {
  [State.Stopped]: "stopped",
  [State.Starting]: "starting",
  [State.Running]: "running",
  [State.StartFailed]: "stopped",
} as const satisfies Record<State, ServerState>;
