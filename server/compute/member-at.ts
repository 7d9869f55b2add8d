import type { Assembly, Member } from "../model/assembly";
import type { Root } from "../model/root";

/** What a path from the aircraft means; `RH` and `LH` stand right after what is mirrored. */
export interface MemberAt {
  readonly member: Member;
  readonly side: "RH" | "LH" | undefined;
  /** It, or what it stands in, is mirrored and the path names no side: both are meant. */
  readonly pair: boolean;
}

export function memberAt(root: Root, path: string): MemberAt | undefined {
  if (path === root.name) return { member: root.aircraft, side: undefined, pair: false };
  let at: Assembly["members"][number] = root.aircraft;
  let side: "RH" | "LH" | undefined;
  let pair = false;
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
    pair ||= at.kind !== "reserve" && at.mirrored;
  }
  return { member: at, side, pair: pair && side === undefined };
}
