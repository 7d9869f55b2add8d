import type { Assembly } from "../model/assembly";
import type { Place } from "../model/env";
import {
  type Lies,
  lieOf,
  liesOf,
  mergeLies,
  nothing,
  putLie,
  subtractLies,
  weighedLies,
} from "./inertia";
import { holdsSwung, movedSide, placesOf, type Side, type Swung, sidesOf } from "./moved";
import { after, mirror, still, type Turn, turnedLie } from "./turn";
import { balanceOf } from "./weight";

/** What swinging changes in how the basic masses of an assembly lie that does not swing itself. */
export function movedLiesChange(assembly: Assembly, swung: Swung): Lies {
  const change = nothing();
  for (const member of assembly.members) {
    if (member.kind !== "assembly" || !holdsSwung(member, swung)) continue;
    mergeLies(change, movedLies(member, still, undefined, swung));
    subtractLies(change, liesOf(member).basic);
  }
  return change;
}

/** How an assembly's basic masses lie, put through a motion; both sides of what is mirrored. */
export function movedLies(assembly: Assembly, outer: Turn, side: Side, swung: Swung): Lies {
  const sum = nothing();
  for (const [turn, at] of sidesOf(assembly, outer, side, swung))
    mergeLies(sum, movedSideLies(assembly, turn, at, swung));
  return sum;
}

function movedSideLies(assembly: Assembly, turn: Turn, side: Side, swung: Swung): Lies {
  const sum = nothing();
  for (const member of assembly.members)
    if (member.kind === "assembly") mergeLies(sum, movedLies(member, turn, side, swung));
    else if ((member.kind === "part" || member.kind === "ballast") && member.mass !== undefined) {
      const { mass } = member;
      const own = lieOf(member, mass);
      const one = (place: Place, way: Turn) =>
        putLie(sum, mass, place, own && turnedLie(way, own), false);
      const [right, left] = placesOf(member.place, member.mirrored, turn);
      one(right!, turn);
      if (left) one(left, after(turn, mirror));
    }
  const governed = assembly.weighed?.mass;
  if (governed === undefined) return sum;
  const { fs, bl, wl } = balanceOf(movedSide(assembly, turn, side, swung).basic, 0);
  const at = { fs: fs ?? undefined, bl: bl ?? undefined, wl: wl ?? undefined };
  return weighedLies(sum, governed, at);
}
