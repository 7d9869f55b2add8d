import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import { massInAll } from "./response";

/** Every part and ballast inside. */
export const partsOf = memo((assembly: Assembly): readonly Part[] =>
  assembly.members.flatMap(it =>
    it.kind === "assembly" ? partsOf(it) : it.kind === "part" || it.kind === "ballast" ? [it] : [],
  ),
);

/** Those that weigh most, both sides counted, the heaviest first. */
export function heaviestOf(root: Root, parts: readonly Part[], most: number): readonly Part[] {
  const masses = new Map(parts.map(it => [it, massInAll(root, it)]));
  return [...parts].sort((a, b) => masses.get(b)! - masses.get(a)!).slice(0, most);
}
