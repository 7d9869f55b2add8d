import { type ExtensionContext, type LogOutputChannel, workspace } from "vscode";
import type { BaseLanguageClient, LanguageClientOptions } from "vscode-languageclient";
import type { Root, ServerState } from "./status-text";

/** What the editor wants to hear of the server. */
export interface Listener {
  serverIs(state: ServerState): void;
  rootsAre(roots: readonly Root[]): void;
  /** Everything was judged anew, and it took so long. */
  judgedIn(ms: number): void;
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
export type NewClient = (options: LanguageClientOptions) => Ended;

/** What is loaded once the extension is active, for the client's library is large. */
export interface Library {
  readonly clientIn: (context: ExtensionContext) => NewClient;
  readonly connected: typeof import("./connect").connected;
}

interface Ended {
  readonly client: BaseLanguageClient;
  readonly end: () => void;
}
export interface Running extends Ended {
  readonly isUp: () => boolean;
}

/**
 * The language server, wherever it runs. Its troubles go to the log; the log never opens by itself.
 * Starting and stopping queue up, so that restarting twice in a row leaves one server.
 */
export function languageServer(
  context: ExtensionContext,
  load: () => Promise<Library>,
  log: LogOutputChannel,
  listener: Listener,
): LanguageServer {
  let running: Running | undefined;
  let schemes: readonly string[] = [];
  let last: Promise<void> = Promise.resolve();

  const inTurn = (step: () => Promise<void>) => () => {
    last = last.then(step).catch(error => log.error(error));
    return last;
  };

  // A new client for each start: one that failed to start or crashed cannot be trusted to stop.
  const up = async () => {
    schemes = schemesNow();
    const { connected, clientIn } = await load();
    running = connected(clientIn(context), schemes, log, listener);
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
      return running?.isUp() ? running.client.sendRequest(method, params) : undefined;
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
