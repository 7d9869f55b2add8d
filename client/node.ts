import { extension } from "./extension";

/** Where there is Node, the language server is a child process. */
export const { activate, deactivate } = extension(() => import("./node-client"));
