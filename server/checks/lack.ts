import type { Span } from "../../grammar/tree";
import type { Member } from "../model/assembly";

/** Something without which nothing is known, and what it has not. */
export interface Lack {
  readonly at: Span;
  readonly why: string;
}

export const isStation = ({ kind }: Member) => kind === "tank" || kind === "seat" || kind === "bay";
export const lacksMass = (member: Member) => "mass" in member && member.mass === undefined;

/** An assembly is asked for what is inside it. */
export function lacksPlace(member: Member, axis: "fs" | "bl" | "wl"): boolean {
  if (member.kind === "assembly" || member.kind === "reserve") return false;
  const rows = "filled" in member ? member.filled : [];
  return rows.length > 0
    ? rows.some(it => it.place[axis] === undefined)
    : member.place[axis] === undefined;
}

/** The first thing that lacks it, in the order of the text. A whole that was weighed has its mass whatever its parts lack. */
export function firstLack(
  members: readonly Member[],
  lacks: (member: Member) => boolean,
  what: string,
): Lack | undefined {
  for (const member of members) {
    if (lacks(member))
      return { at: member.head.path ?? member.head, why: `${member.path} ${what}` };
    const whole = member.kind === "assembly" && member.weighed?.mass !== undefined;
    if (member.kind !== "assembly" || (whole && lacks === lacksMass)) continue;
    const inside = firstLack(
      member.members.filter(it => !isStation(it)),
      lacks,
      what,
    );
    if (inside) return inside;
  }
  return undefined;
}
