import type { Axis, Clause, ClauseOf, InertiaName } from "../../grammar/tree";
import { INERTIA, LENGTH } from "../quantity/dimension";
import { clauseOf } from "./clauses";
import type { Place } from "./env";
import type { Setting } from "./evaluate";
import { figure } from "./figures";

/**
 * How a mass lies about a point: ∫x² dm, ∫xy dm … with x along FS (aft), y along BL (right) and z along
 * WL (up). It turns and adds as a plain matrix; the moments of inertia are Ixx = yy + zz and so on, the
 * products Ixy = +xy. kg m²; of a body of one kg: m².
 */
export interface SecondMoments {
  readonly xx: number | undefined;
  readonly yy: number | undefined;
  readonly zz: number | undefined;
  readonly xy: number | undefined;
  readonly xz: number | undefined;
  readonly yz: number | undefined;
}

/** About its own CG, of one piece: by its mass, or whatever that is. */
export type Body =
  | { readonly perKg: boolean; readonly second: SecondMoments; readonly clause: Clause }
  /** A point. */
  | undefined;

/** What a piece's clauses say of its shape; a fault where no body could be so. */
export function bodyOf(
  clauses: readonly Clause[],
  ends: { readonly start: Place; readonly end: Place } | undefined,
  setting: Setting,
): Body {
  const inertia = clauseOf(clauses, "inertia");
  if (inertia) {
    const second = secondOfInertia(inertia, setting) ?? unknown;
    return { perKg: false, second, clause: inertia };
  }
  const shape = clauseOf(clauses, "shape");
  if (shape) {
    const second = secondOfShape(shape, setting) ?? unknown;
    return { perKg: true, second, clause: shape };
  }
  const span = clauseOf(clauses, "span");
  return span && ends && { perKg: true, second: secondOfLine(ends.start, ends.end), clause: span };
}

/** Something is wrong with what was written: no point in its place, but nothing known. */
const none = undefined;
const unknown: SecondMoments = { xx: none, yy: none, zz: none, xy: none, xz: none, yz: none };

/** Spread evenly along a straight line: a twelfth of its length squared, along it. */
function secondOfLine(a: Place, b: Place): SecondMoments {
  const along = (one: keyof Place, other: keyof Place) => {
    const [a1, b1, a2, b2] = [a[one], b[one], a[other], b[other]];
    if (a1 === undefined || b1 === undefined || a2 === undefined || b2 === undefined)
      return undefined;
    return ((b1 - a1) * (b2 - a2)) / 12;
  };
  return {
    xx: along("fs", "fs"),
    yy: along("bl", "bl"),
    zz: along("wl", "wl"),
    xy: along("fs", "bl"),
    xz: along("fs", "wl"),
    yz: along("bl", "wl"),
  };
}

function secondOfInertia(clause: ClauseOf<"inertia">, setting: Setting): SecondMoments | undefined {
  const said = new Map<InertiaName, number>();
  for (const { name, value } of clause.terms) {
    const term = figure(value, INERTIA, name, setting)?.value;
    if (term === undefined) return undefined;
    if (said.has(name)) {
      setting.report("declared-twice", value ?? clause, `${name} stands here twice`);
      return undefined;
    }
    said.set(name, term);
  }
  const moments = (["Ixx", "Iyy", "Izz"] as const).map(name => said.get(name));
  const [x, y, z] = moments;
  if (x === undefined || y === undefined || z === undefined) {
    setting.report("syntax", clause, "an inertia names Ixx, Iyy and Izz");
    return undefined;
  }
  const second = {
    xx: (y + z - x) / 2,
    yy: (x + z - y) / 2,
    zz: (x + y - z) / 2,
    xy: said.get("Ixy") ?? 0,
    xz: said.get("Ixz") ?? 0,
    yz: said.get("Iyz") ?? 0,
  };
  const why = impossible(second);
  if (why === undefined) return second;
  setting.report("inertia-impossible", clause, why);
  return undefined;
}

/**
 * A body is made of mass, so none of its ∫x² dm is negative, about whatever axes: no moment of inertia is
 * above the sum of the other two (H. Goldstein, Classical Mechanics, chapter 5; from memory), and no
 * product above what its two axes allow.
 */
function impossible({
  xx,
  yy,
  zz,
  xy,
  xz,
  yz,
}: { [K in keyof SecondMoments]-?: number }): string | undefined {
  const least = -1e-9;
  const size = Math.abs(xx) + Math.abs(yy) + Math.abs(zz);
  for (const [value, one, others] of [
    [xx, "Ixx", "Iyy and Izz"],
    [yy, "Iyy", "Ixx and Izz"],
    [zz, "Izz", "Ixx and Iyy"],
  ] as const)
    if (value < least * size)
      return `no body has this inertia: ${one} is above the sum of ${others}`;
  const minors = [xx * yy - xy * xy, xx * zz - xz * xz, yy * zz - yz * yz];
  const all = xx * minors[2]! - xy * (xy * zz - yz * xz) + xz * (xy * yz - yy * xz);
  if (minors.some(minor => minor < least * size ** 2) || all < least * size ** 3)
    return "no body has this inertia: its products are larger than its moments allow";
  return undefined;
}

/** Solid and even, about its centre, along the axis named (any table of moments of inertia; from memory). */
function secondOfShape(clause: ClauseOf<"shape">, setting: Setting): SecondMoments | undefined {
  const { shape, along } = clause;
  if (shape === undefined) return undefined;
  const sizes = clause.sizes.map(size => figure(size, LENGTH, "a size", setting)?.value);
  const wanted = wantedSizes[shape];
  if (clause.sizes.length !== wanted.length) {
    setting.report("syntax", clause, `a ${shape} is given by its ${wanted.join(", ")}`);
    return undefined;
  }
  const [a, b, c] = sizes;
  if (a === undefined || sizes.some(size => size === undefined)) return undefined;
  if (sizes.some(size => size! < 0)) {
    setting.report("out-of-range", clause, "a size is not negative");
    return undefined;
  }
  const of = (xx: number, yy: number, zz: number): SecondMoments => ({
    xx,
    yy,
    zz,
    xy: 0,
    xz: 0,
    yz: 0,
  });
  if (shape === "box") return of((a * a) / 12, (b! * b!) / 12, (c! * c!) / 12);
  if (shape === "sphere") return of((a * a) / 20, (a * a) / 20, (a * a) / 20);
  if (along === undefined) {
    setting.report("syntax", clause, `a ${shape} lies along FS, BL or WL: write along and which`);
    return undefined;
  }
  const bore = shape === "tube" ? b! : 0;
  const length = shape === "tube" ? c! : b!;
  if (bore > a) {
    setting.report("out-of-range", clause, "a tube is wider outside than inside");
    return undefined;
  }
  const across = (a * a + bore * bore) / 16;
  const lengthwise = (length * length) / 12;
  const on = (axis: Axis) => (axis === along ? lengthwise : across);
  return of(on("FS"), on("BL"), on("WL"));
}

const wantedSizes = {
  box: ["length along FS", "width along BL", "height along WL"],
  cylinder: ["diameter", "length"],
  tube: ["outer diameter", "inner diameter", "length"],
  sphere: ["diameter"],
} as const;
