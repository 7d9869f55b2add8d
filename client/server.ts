import { type LogOutputChannel, workspace } from "vscode";
import {
  type BaseLanguageClient,
  type LanguageClientOptions,
  RevealOutputChannelOn,
  State,
} from "vscode-languageclient";
import { answerFiles } from "./files";
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
  /** Waits for a server that is starting; undefined where it does not run. */
  ask<Answer>(method: string, params: object): Promise<Answer | undefined>;
  /** Whether files of a scheme are aircraft to it. */
  knows(scheme: string): boolean;
}

/** A client with a server to itself, and what ends that server once the client is done with it. */
export type NewClient = (options: LanguageClientOptions) => {
  readonly client: BaseLanguageClient;
  readonly end: () => void;
};

/**
 * The language server, wherever it runs. Its troubles go to the log; the log never opens by itself.
 * Starting and stopping queue up, so that restarting twice in a row leaves one server.
 */
export function languageServer(
  newClient: NewClient,
  log: LogOutputChannel,
  listener: Listener,
): LanguageServer {
  let running: ReturnType<NewClient> | undefined;
  let schemes: readonly string[] = [];
  let last: Promise<void> = Promise.resolve();

  const inTurn = (step: () => Promise<void>) => () => {
    last = last.then(step).catch(error => log.error(error));
    return last;
  };

  // A new client for each start: one that failed to start or crashed cannot be trusted to stop.
  const up = async () => {
    schemes = schemesNow();
    running = newClient(optionsFor(schemes, log));
    listenTo(running.client, log, listener);
    answerFiles(running.client);
    await running.client.start();
  };
  const down = async () => {
    const old = running;
    running = undefined;
    await old?.client.dispose().catch(error => log.warn(error));
    old?.end();
    listener.serverIs("stopped");
  };

  return {
    start: inTurn(up),
    stop: inTurn(down),
    ask: async (method, params) => {
      await last;
      return running?.client.state === State.Running
        ? running.client.sendRequest(method, params)
        : undefined;
    },
    knows: scheme => schemes.includes(scheme),
    restart: inTurn(async () => {
      await down();
      await up();
    }),
  };
}

/** Not every scheme: the old side of a diff is no second aircraft. */
function schemesNow(): readonly string[] {
  const folders = workspace.workspaceFolders ?? [];
  return [...new Set(["file", "untitled", ...folders.map(it => it.uri.scheme)])];
}

function optionsFor(schemes: readonly string[], log: LogOutputChannel): LanguageClientOptions {
  return {
    documentSelector: schemes.map(scheme => ({ scheme, language: "poise" })),
    initializationOptions: {
      exclude: workspace.getConfiguration("poise").get<string[]>("files.exclude", []),
      linksWhy: true,
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
  client.onNotification("poise/changed", () => listener.pictureChanged());
}

const stateNames = {
  [State.Stopped]: "stopped",
  [State.Starting]: "starting",
  [State.Running]: "running",
  [State.StartFailed]: "stopped",
} as const satisfies Record<State, ServerState>;
