import type { Member } from "../model/assembly";
import { isSide } from "../model/edits";
import type { Side } from "../model/env";
import type { Root } from "../model/root";

/** What a path from the aircraft means; `RH` and `LH` stand right after what is mirrored. */
export interface MemberAt {
  readonly member: Member;
  readonly side: "RH" | "LH" | undefined;
  /** It, or what it stands in, is mirrored and the path names no side: both are meant. */
  readonly pair: boolean;
}

export function memberAt(root: Root, path: string): MemberAt | undefined {
  return membersAt(root, path)[0];
}

/**
 * The same, of a path without a side both sides where an airframe has them read apart: the right-hand
 * one first.
 */
export function membersAt(root: Root, path: string): readonly MemberAt[] {
  if (path === root.name) return [{ member: root.aircraft, side: undefined, pair: false }];
  return inside(root.aircraft, path.split("."), undefined, false);
}

function inside(
  at: Member,
  [word, ...rest]: readonly string[],
  side: Side | undefined,
  pair: boolean,
): readonly MemberAt[] {
  if (word === undefined) return [{ member: at, side, pair: pair && side === undefined }];
  const mirrored = at.kind !== "reserve" && at.mirrored;
  if (isSide(word) && mirrored && side === undefined) return inside(at, rest, word, pair);
  if (at.kind !== "assembly") return [];
  const [own, ...further] = rest;
  return at.members
    .filter(it => it.name === word)
    .flatMap(it => {
      const apart = "side" in it ? it.side : undefined;
      if (apart === undefined)
        return inside(it, rest, side, pair || (it.kind !== "reserve" && it.mirrored));
      if (!isSide(own)) return inside(it, rest, side, pair);
      return own === apart ? inside(it, further, side, pair) : [];
    });
}
