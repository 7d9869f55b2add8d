import { memo } from "../memo";
import type { Assembly, Member } from "../model/assembly";
import type { Place } from "../model/env";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import { placesOf, type Side, type Swung, sidesOf } from "./moved";
import { configurationsOf } from "./shapes";
import { still, type Turn } from "./turn";
import { basicBalance, massOfMember, oneSide } from "./weight";

/** What one unit of a change adds to every state: kg, and kg m about the datum and the centreline. */
export interface Response {
  readonly mass: number;
  readonly fs: number;
  readonly bl: number;
}

/**
 * A kilogram more of a part in all, or at the CG of an assembly, in a configuration (null: as drawn).
 * Undefined where its place is not known, or where something around it is weighed as a whole: there
 * it would change nothing.
 */
export function heavier(
  root: Root,
  member: Part | Assembly,
  configuration: string | null,
): Response | undefined {
  if (member.kind !== "assembly") return mean(placesIn(root, member, member.place, configuration));
  const { fs, bl, wl } = basicBalance(oneSide(member));
  const cg = { fs: fs ?? undefined, bl: bl ?? undefined, wl: wl ?? undefined };
  return mean(placesIn(root, member, cg, configuration));
}

/** All of a part a meter farther aft. */
export function fartherAft(
  root: Root,
  part: Part,
  configuration: string | null,
): Response | undefined {
  const { fs } = part.place;
  if (fs === undefined) return undefined;
  const at = (place: Place) => mean(placesIn(root, part, place, configuration));
  const [here, there] = [at(part.place), at({ ...part.place, fs: fs + 1 })];
  if (here === undefined || there === undefined) return undefined;
  const mass = massInAll(root, part);
  return { mass: 0, fs: mass * (there.fs - here.fs), bl: mass * (there.bl - here.bl) };
}

/** kg of both sides, where the part is mirrored or stands in something mirrored. */
export function massInAll(root: Root, part: Part): number {
  return massOfMember(part) * (aroundOf(root, part).some(it => it.mirrored) ? 2 : 1);
}

/** The assemblies around a member, the aircraft first; itself is not among them. */
export function aroundOf(root: Root, member: Member): readonly Assembly[] {
  return aroundEach(root.aircraft).get(member) ?? [];
}

// one walk for all: a flat assembly of thousands would be searched for each of its parts
const aroundEach = memo((aircraft: Assembly): ReadonlyMap<Member, readonly Assembly[]> => {
  const found = new Map<Member, readonly Assembly[]>();
  const visit = (assembly: Assembly, around: readonly Assembly[]) => {
    const inside = [...around, assembly];
    for (const member of assembly.members) {
      found.set(member, inside);
      if (member.kind === "assembly") visit(member, inside);
    }
  };
  visit(aircraft, []);
  return found;
});

/** Where each side of a member lies; undefined where it counts for nothing. */
function placesIn(
  root: Root,
  member: Part | Assembly,
  place: Place,
  configuration: string | null,
): readonly Place[] | undefined {
  const around = aroundOf(root, member);
  const chain = member.kind === "assembly" ? [...around, member] : around;
  if (chain.some(it => it.weighed !== undefined)) return undefined;
  const swung: Swung =
    configurationsOf(root).find(it => it.name === configuration)?.swung ?? new Map();
  let spots: readonly (readonly [Turn, Side])[] = [[still, undefined]];
  for (const assembly of chain)
    spots = spots.flatMap(([turn, side]) => [...sidesOf(assembly, turn, side, swung)]);
  const mirrored = member.kind !== "assembly" && member.mirrored;
  return spots.flatMap(([turn]) => placesOf(place, mirrored, turn));
}

function mean(places: readonly Place[] | undefined): Response | undefined {
  if (places === undefined) return undefined;
  let [fs, bl] = [0, 0];
  for (const place of places) {
    if (place.fs === undefined || place.bl === undefined) return undefined;
    fs += place.fs / places.length;
    bl += place.bl / places.length;
  }
  return { mass: 1, fs, bl };
}
