import { extension } from "./extension";

/** In a browser the language server is a worker. */
export const { activate, deactivate } = extension(() => import("./browser-client"));
