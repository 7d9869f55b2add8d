import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { listOf } from "../../grammar/lines";
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
  return [...source.braceFaults, ...listOf(source.lines).flatMap(line => line.faults)];
}

/**
 * The lines, the tree and the faults as text, without the identity of their lines: what an edit may
 * not change.
 */
export function contentOf(source: Source): string {
  const at = (fault: Fault) => ({ message: fault.message, ...positionsOf(source, fault.at) });
  const unseen = ["line", "file", "rank", "faults", "pieces"];
  const hide = (key: string, value: unknown) => (unseen.includes(key) ? undefined : value);
  const places = (items: readonly Item[]): unknown =>
    items.map(it => [positionsOf(source, it.head), places(it.items)]);
  const { items, faulty } = source;
  const lines = listOf(source.lines);
  const wrong = faulty.map(line => lines.indexOf(line));
  return JSON.stringify([lines, items, places(items), faultsOf(source).map(at), wrong], hide);
}
