import { extension } from "./extension";

/** In a browser the language server is a worker. */
export const { activate, deactivate } = extension(
  async () => (await import("./browser-client")).newClient,
);
