import { dimension } from "../quantity/dimension";
import type { Unit, UnitsBeyond } from "../quantity/units";

/** What is asked of server/edges/mathjs-chunk.ts. */
export type UnitChunk = Pick<typeof import("./mathjs-chunk"), "unit">;

/** The units that mathjs knows and the table does not. Loads mathjs at the first question. */
export const unitsBeyond: UnitsBeyond = name => {
  if (!known.has(name)) known.set(name, found(name));
  return known.get(name);
};

/**
 * Where the chunk comes from. Bundled for Node it stands beside the bundle, bundled for a worker in
 * it, and nothing need be said. A test runs unbundled: it imports the chunk its own way and hands it
 * over.
 *
 *     import * as chunk from "../../server/edges/mathjs-chunk";
 *     loadUnitsFrom(() => chunk);
 */
export function loadUnitsFrom(source: () => UnitChunk): void {
  load = source;
  known.clear();
}

// For Node esbuild leaves this `require` alone: .config/build.mjs calls the chunk external.
let load = (): UnitChunk => require("./mathjs.js");

const known = new Map<string, Unit | undefined>();

function found(name: string): Unit | undefined {
  const it = load().unit(name);
  return it && { name, factor: it.factor, dimension: dimension(it.exponents) };
}
