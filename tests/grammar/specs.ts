import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { positionsOf, type Source } from "../../grammar/source";
import type { Fault, Item } from "../../grammar/tree";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** Every build spec of the tests and the examples, by its path. */
export const specs: ReadonlyMap<string, string> = new Map(
  ["tests/fixtures/amphibian", "examples"].flatMap(folder =>
    readdirSync(`${root}/${folder}`, { recursive: true, encoding: "utf8" })
      .filter(file => file.endsWith(".poise"))
      .map(
        file => [`${folder}/${file}`, readFileSync(`${root}/${folder}/${file}`, "utf8")] as const,
      ),
  ),
);

export function faultsOf(source: Source): readonly Fault[] {
  return [...source.braceFaults, ...source.lines.flatMap(line => line.faults)];
}

/** The tree and the faults as text, without the identity of their lines: what an edit may not change. */
export function contentOf(source: Source): string {
  const at = (fault: Fault) => ({ message: fault.message, ...positionsOf(source, fault.at) });
  const hide = (key: string, value: unknown) => (key === "line" ? undefined : value);
  const places = (items: readonly Item[]): unknown =>
    items.map(it => [positionsOf(source, it.head), places(it.items)]);
  return JSON.stringify([source.items, places(source.items), faultsOf(source).map(at)], hide);
}
