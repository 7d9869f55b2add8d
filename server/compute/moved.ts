import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import type { Place } from "../model/env";
import { after, mirror, type Row, type Turn, turnAbout, turned } from "./turn";
import { balanceOf, basicBalance, merge, none, oneSide, placed, put, type Totals } from "./weight";

/** The assemblies that are swung, and on which side; left is the mirror image of right. */
export type Swung = ReadonlyMap<Assembly, "RH" | "LH" | "both">;
export type Side = "RH" | "LH" | undefined;

/** Why a word cannot be meant, or cannot be told yet. */
export type NoTurn = { readonly impossible: string } | { readonly unknown: string };

/** basic, growth and reserves of something, each where it lies. */
export interface Sum {
  readonly basic: Totals;
  readonly growth: Totals;
  readonly reserve: Totals;
}

/**
 * How an assembly's swing moves it, of the right-hand one: the word says which way its CG sets off, else
 * the right-hand rule holds. Undefined: it has none.
 */
export function swingTurn(assembly: Assembly): Turn | NoTurn | undefined {
  return assembly.swing && turnOf(assembly);
}

const turnOf = memo((assembly: Assembly): Turn | NoTurn => {
  const swing = assembly.swing!;
  const { hinge, axis, toward } = swing;
  if (toward === undefined) return turnAbout(hinge, axis, swing.angle);
  const { fs, bl, wl } = basicBalance(oneSide(assembly));
  const outward = Math.abs(bl ?? 0) < 1e-9 ? 0 : Math.sign(bl!);
  const way: Row = {
    forward: [-1, 0, 0] as const,
    aft: [1, 0, 0] as const,
    up: [0, 0, 1] as const,
    down: [0, 0, -1] as const,
    inboard: [0, -outward, 0] as const,
    outboard: [0, outward, 0] as const,
  }[toward];
  // (axis × arm) · way: only what the arm has across the hinge and the way needs to be known
  const across = cross(way, axis);
  let along = 0;
  for (const [i, x] of [fs, bl, wl].entries()) {
    const factor = across[i]!;
    if (factor === 0) continue;
    if (x === null)
      return { unknown: `${assembly.path} has no CG yet: which way it swings cannot be told` };
    along += factor * (x - hinge[i]!);
  }
  if (Math.abs(along) <= 1e-9)
    return { impossible: `about this hinge ${assembly.path} cannot set off ${toward}` };
  return turnAbout(hinge, axis, Math.sign(along) * swing.angle);
});

/** The two sides of something mirrored, or the one of something else, each with what moves it. */
export function* sidesOf(
  assembly: Assembly,
  outer: Turn,
  side: Side,
  swung: Swung,
): Iterable<readonly [Turn, Side]> {
  const sides: readonly (readonly [Turn, Side])[] = assembly.mirrored
    ? [
        [outer, "RH"],
        [after(outer, mirror), "LH"],
      ]
    : [[outer, side]];
  const which = swung.get(assembly);
  const own = which && swingTurn(assembly);
  for (const [turn, at] of sides)
    yield own && "m" in own && (which === "both" || which === at)
      ? [after(turn, own), at]
      : [turn, at];
}

/**
 * An assembly put through a motion, with what swings inside it: kg and m in the aircraft's axes, both
 * sides of what is mirrored. A place that hangs on an unknown coordinate is unknown.
 */
export function movedSum(assembly: Assembly, outer: Turn, side: Side, swung: Swung): Sum {
  const sum: Sum = { basic: none(), growth: none(), reserve: none() };
  for (const [turn, at] of sidesOf(assembly, outer, side, swung))
    mergeSum(sum, movedSide(assembly, turn, at, swung));
  return sum;
}

export function movedSide(assembly: Assembly, turn: Turn, side: Side, swung: Swung): Sum {
  const { sum, unplaced } = movedParts(assembly, turn, side, swung);
  const { weighed } = assembly;
  let { basic } = sum;
  if (weighed?.mass !== undefined) {
    basic = none();
    put(basic, weighed.mass, wholePlace(assembly, turn, side, sum.basic), false);
  }
  const here = placed(balanceOf(basic, 0));
  for (const mass of unplaced) put(sum.reserve, mass, here, false);
  return { basic, growth: weighed?.mass === undefined ? sum.growth : none(), reserve: sum.reserve };
}

/** A whole weighed without a moment lies where its parts do; with one it moves as they do. */
function wholePlace(assembly: Assembly, turn: Turn, side: Side, parts: Totals): Place {
  const now = placed(balanceOf(parts, 0));
  if (assembly.weighedFs === undefined) return now;
  const { bl, wl } = placed(balanceOf(oneSide(assembly).basic, 0));
  const whole = turned(turn, { fs: assembly.weighedFs, bl: bl ?? 0, wl });
  const drawn = placed(balanceOf(movedParts(assembly, turn, side, new Map()).sum.basic, 0));
  const shifted = (key: keyof Place) => {
    const [at, from, to] = [whole[key], drawn[key], now[key]];
    return at === undefined || from === undefined || to === undefined ? at : at + (to - from);
  };
  return { fs: shifted("fs"), bl: shifted("bl"), wl: shifted("wl") };
}

function movedParts(
  assembly: Assembly,
  turn: Turn,
  side: Side,
  swung: Swung,
): { readonly sum: Sum; readonly unplaced: readonly number[] } {
  const sum: Sum = { basic: none(), growth: none(), reserve: none() };
  const unplaced: number[] = [];
  for (const member of assembly.members) {
    if (member.kind === "assembly") mergeSum(sum, movedSum(member, turn, side, swung));
    else if (member.kind === "reserve") {
      if (member.mass === undefined) continue;
      if (member.place) put(sum.reserve, member.mass, turned(turn, member.place), false);
      else unplaced.push(member.mass);
    } else if ((member.kind === "part" || member.kind === "ballast") && member.mass !== undefined)
      for (const place of placesOf(member.place, member.mirrored, turn)) {
        put(sum.basic, member.mass, place, false);
        if (member.growth !== 0) put(sum.growth, member.growth, place, false);
      }
  }
  return { sum, unplaced };
}

export function holdsSwung(assembly: Assembly, swung: Swung): boolean {
  return (
    swung.has(assembly) ||
    assembly.members.some(it => it.kind === "assembly" && holdsSwung(it, swung))
  );
}

/** Where a piece lies once moved: a mirrored one's left side too. */
export function placesOf(place: Place, mirrored: boolean, turn: Turn): readonly Place[] {
  const right = turned(turn, place);
  return mirrored ? [right, turned(after(turn, mirror), place)] : [right];
}

function mergeSum(into: Sum, other: Sum): void {
  merge(into.basic, other.basic);
  merge(into.growth, other.growth);
  merge(into.reserve, other.reserve);
}

function cross([a, b, c]: Row, [x, y, z]: Row): Row {
  return [b * z - c * y, c * x - a * z, a * y - b * x];
}
