import type { Connection } from "vscode-languageserver";
import type { Content, Editor, Entry } from "./asked-disk";

/** Asks the editor at the other end of a connection for its files. */
export function editorAt(connection: Connection): Editor {
  return {
    read: question => connection.sendRequest<Content>("poise/read", question),
    list: question => connection.sendRequest<readonly Entry[]>("poise/list", question),
  };
}
