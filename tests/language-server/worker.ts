import { EventEmitter } from "node:events";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { createContext, Script } from "node:vm";
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  createMessageConnection,
  type DataCallback,
  Emitter,
  type Message,
  type MessageConnection,
} from "vscode-jsonrpc";

/** What a test needs to know of a process or of what stands for one. */
export type Server = Pick<EventEmitter, "once">;

/** The built worker with what a browser gives to one, and nothing of Node. */
export function worker(file: string): { server: Server; connection: MessageConnection } {
  const server = new EventEmitter();
  const toEditor = new Emitter<Message>();
  const self = {
    onmessage: (_: { readonly data: unknown }) => {},
    addEventListener: () => {},
    postMessage: (message: Message) => later(() => toEditor.fire(structuredClone(message))),
  };
  const web = {
    atob,
    btoa,
    clearTimeout,
    console,
    crypto,
    performance,
    queueMicrotask,
    setTimeout,
  };
  const context = createContext({ ...web, TextDecoder, TextEncoder, self });
  new Script(readFileSync(file, "utf8"), { filename: file }).runInContext(context);
  class Reader extends AbstractMessageReader {
    listen = (callback: DataCallback) => toEditor.event(callback);
  }
  class Writer extends AbstractMessageWriter {
    async write(message: Message) {
      later(() => self.onmessage({ data: structuredClone(message) }));
      if ("method" in message && message.method === "exit") later(() => server.emit("exit", 0));
    }
    end() {}
  }
  return { server, connection: createMessageConnection(new Reader(), new Writer()) };
}

type Content = { readonly base64: string } | { readonly none: string };

function later(step: () => void): void {
  setTimeout(step, 0);
}

/** Answers for files as the extension does; @param reads is told of each that is read */
export function filesOn(
  connection: MessageConnection,
  pathOf: (uri: string) => string,
  reads: string[],
): void {
  connection.onRequest<Content, unknown>("poise/read", ({ uri }: { uri: string }) => {
    reads.push(uri);
    try {
      return { base64: readFileSync(pathOf(uri)).toString("base64") };
    } catch {
      return { none: "missing" };
    }
  });
  connection.onRequest("poise/list", ({ uri }: { uri: string }) =>
    readdirSync(pathOf(uri)).map(name => {
      const inside = `${uri}/${pathToFileURL(`/${name}`).pathname.slice(1)}`;
      return { uri: inside, folder: statSync(pathOf(inside)).isDirectory() };
    }),
  );
}
