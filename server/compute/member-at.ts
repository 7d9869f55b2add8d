import type { Assembly } from "../model/assembly";
import type { Root } from "../model/root";

/** What a path from the aircraft means; `RH` and `LH` stand right after what is mirrored. */
export function memberAt(
  root: Root,
  path: string,
): { member: Assembly["members"][number]; side: "RH" | "LH" | undefined } | undefined {
  if (path === root.name) return { member: root.aircraft, side: undefined };
  let at: Assembly["members"][number] = root.aircraft;
  let side: "RH" | "LH" | undefined;
  for (const word of path.split(".")) {
    const mirrored = at.kind !== "reserve" && at.mirrored;
    if ((word === "RH" || word === "LH") && mirrored && side === undefined) {
      side = word;
      continue;
    }
    if (at.kind !== "assembly") return undefined;
    const next: Assembly["members"][number] | undefined = at.members.find(it => it.name === word);
    if (next === undefined) return undefined;
    at = next;
  }
  return { member: at, side };
}
