import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import type { SecondMoments } from "../model/body";
import type { Place } from "../model/env";
import type { Part } from "../model/part";
import {
  add,
  addAll,
  addProduct,
  addProduct3,
  centred,
  doubled,
  type Exact,
  rounded,
} from "./exact";
import { balanceOf, oneSide, placed } from "./weight";

/**
 * Mass (kg), first moments (kg m) and ∫xx dm … ∫yz dm (kg m²) about the datum, the centreline and WL 0, of
 * the mass that has all three coordinates and a known shape; `lacks` is the mass that has not.
 */
export interface MassMoments {
  readonly mass: Exact;
  readonly fs: Exact;
  readonly bl: Exact;
  readonly wl: Exact;
  readonly xx: Exact;
  readonly yy: Exact;
  readonly zz: Exact;
  readonly xy: Exact;
  readonly xz: Exact;
  readonly yz: Exact;
  readonly lacks: Exact;
}

/** kg m² about a point, in FS, BL, WL axes; products are +∫xy dm. */
export interface Inertia {
  readonly Ixx: number;
  readonly Iyy: number;
  readonly Izz: number;
  readonly Ixy: number;
  readonly Ixz: number;
  readonly Iyz: number;
}

/** How an assembly's mass lies: basic, growth on top of it, reserves. */
export interface MomentsOf {
  readonly basic: MassMoments;
  readonly growth: MassMoments;
  readonly reserve: MassMoments;
}

/** Of both sides where the assembly is mirrored. */
export const momentsOf = memo((assembly: Assembly): MomentsOf => {
  const { basic, growth, reserve } = oneSideMoments(assembly);
  return assembly.mirrored
    ? { basic: pair(basic), growth: pair(growth), reserve: pair(reserve) }
    : { basic, growth, reserve };
});

/** Of the right-hand one alone where the assembly is mirrored. */
export const oneSideMoments = memo((assembly: Assembly): MomentsOf => {
  const sum = noMoments();
  for (const member of assembly.members) {
    if (member.kind === "assembly") mergeMomentsOf(sum, momentsOf(member));
    else if (member.kind === "part" || member.kind === "ballast") {
      const { mass, growth, place, mirrored } = member;
      if (mass === undefined) continue;
      putMoments(sum.basic, mass, place, ownSecond(member, mass), mirrored);
      if (growth !== 0) putMoments(sum.growth, growth, place, ownSecond(member, growth), mirrored);
    } else if (member.kind === "reserve" && member.mass !== undefined) {
      const here = placed(balanceOf(oneSide(assembly).basic, 0));
      putMoments(sum.reserve, member.mass, member.place ?? here, undefined, false);
    }
  }
  const governed = assembly.weighed?.mass;
  if (governed === undefined) return sum;
  const at = placed(balanceOf(oneSide(assembly).basic, 0));
  return {
    basic: weighedMoments(sum.basic, governed, at),
    growth: nothing(),
    reserve: assembly.scales ? nothing() : sum.reserve,
  };
});

/** Weighed as a whole: the inertia of the parts scales with the mass; as much of it is not known. */
export function weighedMoments(parts: MassMoments, mass: number, at: Place): MassMoments {
  const whole = nothing();
  const [known, lacking] = [rounded(parts.mass), rounded(parts.lacks)];
  const without = lacking === 0 ? 0 : (mass * lacking) / (known + lacking);
  if (without > 0) add(whole.lacks, without);
  if (known === 0 && lacking > 0) return whole;
  const rest = mass - without;
  const own = known > 0 ? scaledSecond(about(parts, centre(parts)), rest / known) : undefined;
  putMoments(whole, rest, at, own, false);
  return whole;
}

export const predictedMoments = memo(({ basic, growth, reserve }: MomentsOf): MassMoments => {
  const sum = nothing();
  for (const it of [basic, growth, reserve]) mergeMoments(sum, it);
  return sum;
});

/** About its own CG, of a part's pieces that weigh this much together; growth lies as the pieces do. */
export function ownSecond(part: Part, mass: number): SecondMoments | undefined {
  const { body } = part;
  if (body === undefined) return undefined;
  if (body.perKg) return scaledSecond(body.second, mass);
  return scaledSecond(body.second, part.mass ? (part.qty * mass) / part.mass : part.qty);
}

/** Adds a mass at a place, lying about it as `own` says (a point where it says nothing). */
export function putMoments(
  sum: MassMoments,
  mass: number,
  { fs, bl, wl }: Place,
  own: SecondMoments | undefined,
  mirrored: boolean,
): void {
  const times = mirrored ? 2 : 1;
  if (
    fs === undefined ||
    bl === undefined ||
    wl === undefined ||
    (own && Object.values(own).some(it => it === undefined))
  ) {
    add(sum.lacks, times * mass);
    return;
  }
  const m = times * mass;
  add(sum.mass, m);
  addProduct(sum.fs, m, fs);
  addProduct(sum.wl, m, wl);
  const even: readonly (readonly [Exact, number, number, number | undefined])[] = [
    [sum.xx, fs, fs, own?.xx],
    [sum.yy, bl, bl, own?.yy],
    [sum.zz, wl, wl, own?.zz],
    [sum.xz, fs, wl, own?.xz],
  ];
  for (const [into, x, y, about] of even) {
    addProduct3(into, m, x, y);
    if (about) add(into, times * about);
  }
  if (mirrored) return;
  // what turns its sign with BL cancels over the two sides of a pair
  addProduct(sum.bl, m, bl);
  addProduct3(sum.xy, m, fs, bl);
  if (own?.xy) add(sum.xy, own.xy);
  addProduct3(sum.yz, m, bl, wl);
  if (own?.yz) add(sum.yz, own.yz);
}

/**
 * Moments and products about a point; null where nothing has a place. Parallel axes: J. Steiner's
 * theorem, in its tensor form (any textbook of mechanics; from memory).
 */
export function inertiaAbout(sum: MassMoments, point: Place): Inertia | null {
  if (sum.mass.length === 0) return null;
  const { xx, yy, zz, xy, xz, yz } = about(sum, point);
  return { Ixx: yy + zz, Iyy: xx + zz, Izz: xx + yy, Ixy: xy, Ixz: xz, Iyz: yz };
}

type Known = { readonly [K in keyof SecondMoments]: number };

function about(sum: MassMoments, { fs = 0, bl = 0, wl = 0 }: Place): Known {
  const { mass } = sum;
  return {
    xx: centred(sum.xx, sum.fs, sum.fs, mass, fs, fs),
    yy: centred(sum.yy, sum.bl, sum.bl, mass, bl, bl),
    zz: centred(sum.zz, sum.wl, sum.wl, mass, wl, wl),
    xy: centred(sum.xy, sum.fs, sum.bl, mass, fs, bl),
    xz: centred(sum.xz, sum.fs, sum.wl, mass, fs, wl),
    yz: centred(sum.yz, sum.bl, sum.wl, mass, bl, wl),
  };
}

function centre(sum: MassMoments): Place {
  const mass = rounded(sum.mass);
  return { fs: rounded(sum.fs) / mass, bl: rounded(sum.bl) / mass, wl: rounded(sum.wl) / mass };
}

export function nothing(): MassMoments {
  return {
    ...{ mass: [], fs: [], bl: [], wl: [], xx: [], yy: [], zz: [], xy: [], xz: [], yz: [] },
    lacks: [],
  };
}

export function mergeMoments(into: MassMoments, other: MassMoments): void {
  for (const key of keys) addAll(into[key], other[key]);
}

/** Takes away what was put in before, exactly. */
export function subtractMoments(from: MassMoments, other: MassMoments): void {
  for (const key of keys) for (const x of other[key]) add(from[key], -x);
}

const keys = ["mass", "fs", "bl", "wl", "xx", "yy", "zz", "xy", "xz", "yz", "lacks"] as const;

function noMoments(): MomentsOf {
  return { basic: nothing(), growth: nothing(), reserve: nothing() };
}

function mergeMomentsOf(into: MomentsOf, other: MomentsOf): void {
  mergeMoments(into.basic, other.basic);
  mergeMoments(into.growth, other.growth);
  mergeMoments(into.reserve, other.reserve);
}

function pair(sum: MassMoments): MassMoments {
  const twice = { ...sum };
  for (const key of keys) twice[key] = doubled(sum[key]);
  return { ...twice, bl: [], xy: [], yz: [] };
}

function scaledSecond(second: SecondMoments, by: number): SecondMoments {
  const of = (it: number | undefined) => (it === undefined ? undefined : it * by);
  return {
    ...{ xx: of(second.xx), yy: of(second.yy), zz: of(second.zz) },
    ...{ xy: of(second.xy), xz: of(second.xz), yz: of(second.yz) },
  };
}
