import type { Assembly } from "../model/assembly";
import type { Place } from "../model/env";
import {
  type MassMoments,
  mergeMoments,
  momentsOf,
  nothing,
  ownSecond,
  putMoments,
  subtractMoments,
  weighedMoments,
} from "./inertia";
import { holdsSwung, movedSide, placesOf, type Side, type Swung, sidesOf } from "./moved";
import { after, mirror, still, type Turn, turnedSecond } from "./turn";
import { balanceOf, placed } from "./weight";

/** What swinging changes in how the basic masses of an assembly lie that does not swing itself. */
export function movedMomentsChange(assembly: Assembly, swung: Swung): MassMoments {
  const change = nothing();
  for (const member of assembly.members) {
    if (member.kind !== "assembly" || !holdsSwung(member, swung)) continue;
    mergeMoments(change, movedMoments(member, still, undefined, swung));
    subtractMoments(change, momentsOf(member).basic);
  }
  return change;
}

/** How an assembly's basic masses lie, put through a motion; both sides of what is mirrored. */
function movedMoments(assembly: Assembly, outer: Turn, side: Side, swung: Swung): MassMoments {
  const sum = nothing();
  for (const [turn, at] of sidesOf(assembly, outer, side, swung))
    mergeMoments(sum, movedSideMoments(assembly, turn, at, swung));
  return sum;
}

function movedSideMoments(assembly: Assembly, turn: Turn, side: Side, swung: Swung): MassMoments {
  const sum = nothing();
  for (const member of assembly.members)
    if (member.kind === "assembly") mergeMoments(sum, movedMoments(member, turn, side, swung));
    else if ((member.kind === "part" || member.kind === "ballast") && member.mass !== undefined) {
      const { mass } = member;
      const own = ownSecond(member, mass);
      const one = (place: Place, way: Turn) =>
        putMoments(sum, mass, place, own && turnedSecond(way, own), false);
      const [right, left] = placesOf(member.place, member.mirrored, turn);
      one(right!, turn);
      if (left) one(left, after(turn, mirror));
    }
  const governed = assembly.weighed?.mass;
  if (governed === undefined) return sum;
  const at = placed(balanceOf(movedSide(assembly, turn, side, swung).basic, 0));
  return weighedMoments(sum, governed, at);
}
