import { memo } from "../memo";
import type { Assembly, Member } from "../model/assembly";
import type { Place } from "../model/env";
import { add, addAll, addProduct, doubled, type Exact, rounded } from "./exact";

/** Masses (kg) and their moments (kg m) about the datum, the centreline and WL 0. */
export interface Totals {
  readonly mass: Exact;
  readonly fs: Exact;
  readonly bl: Exact;
  readonly wl: Exact;
  /** The part of the mass whose FS, BL or WL is unknown. */
  readonly lacksFs: Exact;
  readonly lacksBl: Exact;
  readonly lacksWl: Exact;
}

/** What something weighs, in the terms of mass-properties control. */
export interface Weight {
  readonly basic: Totals;
  readonly growth: Totals;
  readonly reserve: Totals;
  /** How many parts have no mass: a total with any is a floor. */
  readonly unknown: number;
  /** How many of them are there and not understood: nothing is said of a CG by what is left over. */
  readonly broken: number;
  /** The CG of a weighed assembly rests on parts of which some have no mass or no FS. */
  readonly vague: Vague;
}

/** Whether a CG rests on a whole that was weighed, and of whose parts some have no mass or no place there. */
export interface Vague {
  readonly fs: boolean;
  readonly bl: boolean;
  readonly wl: boolean;
}
const certain: Vague = { fs: false, bl: false, wl: false };
const doubt: Vague = { fs: true, bl: true, wl: true };
const either = (a: Vague, b: Vague): Vague =>
  a === certain ? b : { fs: a.fs || b.fs, bl: a.bl || b.bl, wl: a.wl || b.wl };

/**
 * A mass and its centre, rounded once. A CG is of the mass that has a place: null if none has.
 * `complete`: every part has its mass and its FS.
 */
export interface Balance {
  readonly mass: number;
  readonly fs: number | null;
  readonly bl: number | null;
  readonly wl: number | null;
  readonly complete: boolean;
  /** Every part has its mass: else this one is a floor. */
  readonly massKnown: boolean;
  /** Every part has its mass and its BL; its WL. */
  readonly blComplete: boolean;
  readonly wlComplete: boolean;
}

/**
 * An assembly's weight, of both sides where it is mirrored; kg and m in the aircraft's axes.
 * Parts without a mass add nothing and are counted in `unknown`.
 */
export const weightOf = memo((assembly: Assembly): Weight => {
  const sum = oneSide(assembly);
  return assembly.mirrored ? both(sum) : sum;
});

/** Of the right-hand one alone where an assembly is mirrored. */
export const oneSide = memo((assembly: Assembly): Weight => {
  const basic = none();
  const growth = none();
  const reserve = none();
  const unplaced: number[] = [];
  let broken = assembly.broken ? 1 : 0;
  let unknown = broken;
  let vague = certain;
  for (const member of assembly.members) {
    if (member.kind === "assembly") {
      const inside = weightOf(member);
      merge(basic, inside.basic);
      merge(growth, inside.growth);
      merge(reserve, inside.reserve);
      unknown += inside.unknown;
      broken += inside.broken;
      vague = either(vague, inside.vague);
    } else if (member.kind === "part" || member.kind === "ballast") {
      if (member.broken) broken++;
      if (member.broken || member.mass === undefined) unknown++;
      if (member.mass !== undefined) {
        put(basic, member.mass, member.place, member.mirrored);
        if (member.growth !== 0) put(growth, member.growth, member.place, member.mirrored);
      }
    } else if (member.kind === "reserve" && member.broken) {
      broken++;
      unknown++;
    } else if (member.kind === "reserve" && member.mass !== undefined) {
      if (member.place) put(reserve, member.mass, member.place, false);
      else unplaced.push(member.mass);
    }
  }
  if (assembly.doubtful) vague = doubt;
  const { scales } = assembly;
  const governed = assembly.weighed?.mass;
  const whole = governed === undefined ? basic : wholeOf(assembly, basic, governed);
  // a reserve without a place of its own acts where its assembly's CG is
  const rests = (own: boolean, lacks: Exact) => unknown > 0 || own || lacks.length > 0;
  const here = placed(balanceOf(whole, 0));
  for (const mass of unplaced) put(reserve, mass, here, false);
  return governed === undefined
    ? { basic, growth, reserve, unknown, broken, vague }
    : {
        basic: whole,
        growth: none(),
        reserve: scales ? none() : reserve,
        unknown: 0,
        broken: 0,
        vague: {
          fs: scales
            ? assembly.doubtful || scales.vague.fs
            : assembly.weighedFs === undefined && rests(vague.fs, basic.lacksFs),
          bl: scales ? assembly.doubtful || scales.vague.bl : rests(vague.bl, basic.lacksBl),
          wl: rests(vague.wl, basic.lacksWl),
        },
      };
});

/** basic + growth + reserves. */
export const predictedOf = memo((weight: Weight): Totals => {
  const sum = none();
  merge(sum, weight.basic);
  merge(sum, weight.growth);
  merge(sum, weight.reserve);
  return sum;
});

export const basicBalance = memo((weight: Weight) =>
  balanceOf(weight.basic, weight.unknown, weight.vague),
);
export const predictedBalance = memo((weight: Weight) =>
  balanceOf(predictedOf(weight), weight.unknown, weight.vague),
);

export function balanceOf(totals: Totals, unknown: number, vague = certain): Balance {
  const mass = rounded(totals.mass);
  const sure = (own: boolean, lacks: Exact) => unknown === 0 && !own && lacks.length === 0;
  return {
    mass,
    fs: centre(totals.fs, totals.mass, totals.lacksFs),
    bl: centre(totals.bl, totals.mass, totals.lacksBl),
    wl: centre(totals.wl, totals.mass, totals.lacksWl),
    massKnown: unknown === 0,
    complete: sure(vague.fs, totals.lacksFs),
    blComplete: sure(vague.bl, totals.lacksBl),
    wlComplete: sure(vague.wl, totals.lacksWl),
  };
}

function centre(moment: Exact, mass: Exact, lacking: Exact): number | null {
  const placed = [...mass];
  for (const x of lacking) add(placed, -x);
  const of = rounded(placed);
  return of === 0 ? null : rounded(moment) / of;
}

export function none(): Totals {
  return { mass: [], fs: [], bl: [], wl: [], lacksFs: [], lacksBl: [], lacksWl: [] };
}

/** Adds a mass at a place; a pair of them lies about the plane of symmetry, so its BL moment is zero. */
export function put(totals: Totals, mass: number, place: Place, pair: boolean): void {
  const all = pair ? 2 * mass : mass;
  add(totals.mass, all);
  if (place.fs === undefined) add(totals.lacksFs, all);
  else addProduct(totals.fs, all, place.fs);
  if (!pair)
    if (place.bl === undefined) add(totals.lacksBl, all);
    else addProduct(totals.bl, all, place.bl);
  if (place.wl === undefined) add(totals.lacksWl, all);
  else addProduct(totals.wl, all, place.wl);
}

export function merge(into: Totals, other: Totals): void {
  for (const key of keys) addAll(into[key], other[key]);
}

/** Takes away what was put in before: exact, so it leaves what was there without it. */
export function subtract(from: Totals, other: Totals): void {
  for (const key of keys) for (const x of other[key]) add(from[key], -x);
}

const keys = ["mass", "fs", "bl", "wl", "lacksFs", "lacksBl", "lacksWl"] as const;

/** Of the right-hand one and the left-hand one together. */
export const both = ({ basic, growth, reserve, unknown, broken, vague }: Weight): Weight => ({
  basic: pair(basic),
  growth: pair(growth),
  reserve: pair(reserve),
  unknown: 2 * unknown,
  broken: 2 * broken,
  vague,
});

function pair(totals: Totals): Totals {
  return {
    mass: doubled(totals.mass),
    fs: doubled(totals.fs),
    bl: [],
    wl: doubled(totals.wl),
    lacksFs: doubled(totals.lacksFs),
    lacksBl: [],
    lacksWl: doubled(totals.lacksWl),
  };
}

/** What was changed inside a weighed assembly after its weighing changes the whole by as much. */
function wholeOf(assembly: Assembly, parts: Totals, mass: number): Totals {
  const { atWeighing, weighedFs, weighedBl } = assembly;
  if (atWeighing === undefined) return asWeighed(parts, mass, weighedFs, weighedBl);
  const before = partsOf(atWeighing);
  const whole = asWeighed(before, mass, weighedFs);
  merge(whole, parts);
  subtract(whole, before);
  return whole;
}

/** The basic sum of what stands in an assembly, of one side, whatever the whole was weighed at. */
function partsOf(assembly: Assembly): Totals {
  return oneSide({ ...assembly, weighed: undefined }).basic;
}

/** A weighed assembly keeps the CG of its parts, unless a moment says where it is. */
function asWeighed(
  parts: Totals,
  mass: number,
  momentFs: number | undefined,
  givenBl?: number,
): Totals {
  const { fs, bl, wl } = placed(balanceOf(parts, 0));
  const whole = none();
  const side = givenBl ?? bl ?? (momentFs === undefined ? undefined : 0);
  put(whole, mass, { fs: momentFs ?? fs, bl: side, wl }, false);
  return whole;
}

/** Where a balance is, as a place: what nothing in it has is unknown. */
export const placed = ({ fs, bl, wl }: Pick<Balance, "fs" | "bl" | "wl">): Place => ({
  fs: fs ?? undefined,
  bl: bl ?? undefined,
  wl: wl ?? undefined,
});

/** kg of everything a member makes, of both sides: of a part its pieces, of an assembly its basic mass. */
export function massOfMember(member: Member): number {
  switch (member.kind) {
    case "assembly":
      return basicBalance(weightOf(member)).mass;
    case "part":
    case "ballast":
      return (member.mass ?? 0) * (member.mirrored ? 2 : 1);
    default:
      return 0;
  }
}
