import type { Basis, Clause, RecordClause } from "../../grammar/tree";
import { memo } from "../memo";
import type { Assembly, Member } from "../model/assembly";
import type { Off, Place, Spread } from "../model/env";
import type { Part } from "../model/part";
import type { MassRecord } from "../model/records";
import type { Let } from "../model/scope";
import { add, addAll, addProduct, addProduct3, centred, type Exact, rounded } from "./exact";
import { overBy } from "./normal";
import { type Balance, balanceOf, basicBalance, oneSide, placed } from "./weight";

/**
 * How far off a sum of basic masses may be, from errors that are independent of each other, each shared by
 * all it speaks for. First order (JCGM 100:2008, 5.1.2): of one error of e kg at x m, e² goes into the
 * variance of the mass and e²(x − CG)² ÷ mass² into that of the CG.
 */
export interface Errors {
  /** Σ e² of errors nobody shares beyond the pieces of one record, kg². */
  readonly mass: Exact;
  readonly fs: Axis;
  readonly bl: Axis;
  readonly wl: Axis;
  /** What each let with a spread and each common error brings, one spread of it: kg, kg m. */
  readonly shared: ReadonlyMap<Source, Shared>;
}

/**
 * Of what an airframe has as one side apart: a record's own error is kept by the record until the other
 * side, which may rest on it too, is added.
 */
interface Open extends Errors {
  readonly records: Map<RecordClause, Shared>;
  readonly shared: Map<Source, Shared>;
}

/** What more than one record may owe an error to: a let, or a basis where its spread has a common part. */
export type Source = Let | Common;
export interface Common {
  readonly kind: "common";
  readonly basis: Basis;
  readonly said: Clause;
}

/** Of the mass whose place on an axis is known: Σ e², Σ e² x, Σ e² x². */
interface Axis {
  readonly e: Exact;
  readonly ex: Exact;
  readonly exx: Exact;
}

interface Shared {
  readonly mass: Exact;
  readonly fs: { readonly e: Exact; readonly ex: Exact };
  readonly bl: { readonly e: Exact; readonly ex: Exact };
  readonly wl: { readonly e: Exact; readonly ex: Exact };
}

/** One standard deviation of a mass (kg) and of its CG (m; null where there is no CG). */
export interface Deviation {
  readonly mass: number;
  readonly fs: number | null;
  readonly bl: number | null;
  readonly wl: number | null;
}

/** Of an assembly's basic mass and CG: of the right-hand one where it is mirrored. */
export const deviationOf = memo(
  (assembly: Assembly): Deviation =>
    deviation(oneSideErrors(assembly), basicBalance(oneSide(assembly))),
);

/** @param about the mass and the CG the errors are of: fluids, which have none, may be in it */
export function deviation(errors: Errors, about: Balance): Deviation {
  const axis = (key: "fs" | "bl" | "wl") => {
    const c = about[key];
    if (c === null || about.mass === 0) return null;
    const { e, ex, exx } = errors[key];
    let variance = centred(exx, ex, ex, e, c, c);
    for (const it of errors.shared.values())
      variance += (rounded(it[key].ex) - c * rounded(it[key].e)) ** 2;
    return Math.sqrt(Math.max(0, variance)) / about.mass;
  };
  let variance = rounded(errors.mass);
  for (const it of errors.shared.values()) variance += rounded(it.mass) ** 2;
  return { mass: Math.sqrt(variance), fs: axis("fs"), bl: axis("bl"), wl: axis("wl") };
}

/**
 * How likely an assembly comes out over its budget: normal about basic + growth, reserves unspent.
 * Undefined without a budget, without any spread, or where a mass is unknown.
 */
export function chanceOver(assembly: Assembly): number | undefined {
  const weight = oneSide(assembly);
  const { mass } = deviationOf(assembly);
  if (assembly.budget === undefined || mass === 0 || weight.unknown > 0) return undefined;
  const expected = basicBalance(weight).mass + balanceOf(weight.growth, 0).mass;
  return overBy((assembly.budget.mass - expected) / mass);
}

/** Of both sides where the assembly is mirrored: a record speaks for both, and so does its error. */
export const errorsOf = memo((assembly: Assembly): Errors => {
  const errors = closed(openErrors(assembly));
  return assembly.mirrored ? paired(errors) : errors;
});

export const oneSideErrors = memo((assembly: Assembly): Errors => closed(openErrors(assembly)));

const openErrors = memo((assembly: Assembly): Open => {
  const sum = noErrors();
  const { weighed } = assembly;
  const apart = assembly.core.side !== undefined;
  if (assembly.scales) {
    for (const { mass, place } of assembly.scales.errors) putOwn(sum, mass, place);
    return sum;
  }
  if (weighed?.mass !== undefined) {
    // weighed as a whole: what its parts were thought to be no longer counts
    const at = placed(basicBalance(oneSide(assembly)));
    putRecord(sum, weighed, assembly.core.spread.weighed, 1, at, false, apart);
    return sum;
  }
  for (const member of assembly.members) putMember(sum, member, apart);
  return apart ? sum : closed(sum);
});

/** With nothing kept by its record any more: no other side is to come. */
function closed(errors: Open): Open {
  if (errors.records.size === 0) return errors;
  const sum = noErrors();
  mergeErrors(sum, { ...errors, records: new Map() });
  for (const it of errors.records.values()) {
    const e = rounded(it.mass);
    addProduct(sum.mass, e, e);
    for (const key of axes) {
      const [e, ex] = [rounded(it[key].e), rounded(it[key].ex)];
      addProduct(sum[key].e, e, e);
      addProduct(sum[key].ex, e, ex);
      addProduct(sum[key].exx, ex, ex);
    }
  }
  return sum;
}

/** Of everything a member makes, both sides. */
export function errorsOfMember(member: Member): Errors {
  const sum = noErrors();
  putMember(sum, member, false);
  return closed(sum);
}

/** kg, one standard deviation of one piece of a part; 0 where nothing says how far off it may be. */
export function deviationOfPiece(part: Part): number {
  const errors = errorsOfMember(part);
  let variance = rounded(errors.mass);
  for (const it of errors.shared.values()) variance += rounded(it.mass) ** 2;
  const pieces = part.qty * (part.mirrored ? 2 : 1);
  return pieces === 0 ? 0 : Math.sqrt(variance) / pieces;
}

/** @param apart it stands in one side of something whose other one is read apart */
function putMember(sum: Open, member: Member, apart: boolean): void {
  if (member.kind === "assembly") {
    const errors = openErrors(member);
    mergeErrors(sum, member.mirrored ? paired(errors) : errors);
  } else if ((member.kind === "part" || member.kind === "ballast") && member.governing) {
    const { governing, spread, qty, place, mirrored, side } = member;
    putRecord(sum, governing, spread, qty, place, mirrored, apart || side !== undefined);
  }
}

function putRecord(
  sum: Open,
  record: MassRecord,
  rate: Spread,
  pieces: number,
  place: Place,
  mirrored: boolean,
  apart: boolean,
): void {
  if (record.mass === undefined) return;
  const all = mirrored ? 2 * pieces : pieces;
  const at = mirrored ? { ...place, bl: 0 } : place;
  const rated = ({ share, mass }: Off) => share * record.mass! + mass / record.pieces;
  const own = (record.spread ?? rated(rate.own)) * all;
  if (apart && own !== 0) putShared(sum.records, record.clause, own, at);
  else putOwn(sum, own, at);
  for (const { from, by } of record.leans) putShared(sum.shared, from, by * all, at);
  const common = rated(rate.common) * all;
  if (common !== 0 && rate.said)
    putShared(sum.shared, commonOf(rate.said)[record.basis], common, at);
}

/** An error that nothing else shares, of kg at a place. */
function putOwn(sum: Errors, own: number, at: Place): void {
  if (own === 0) return;
  add(sum.mass, own * own);
  for (const key of axes) {
    const x = at[key];
    if (x === undefined) continue;
    add(sum[key].e, own * own);
    addProduct(sum[key].ex, own * own, x);
    addProduct3(sum[key].exx, own * own, x, x);
  }
}

/** What the records of one basis share where it was said, as one thing to be known by. */
const commonOf = memo((said: Clause): Readonly<Record<Basis, Common>> => {
  const of = (basis: Basis): Common => ({ kind: "common", basis, said });
  return {
    estimated: of("estimated"),
    calculated: of("calculated"),
    quoted: of("quoted"),
    weighed: of("weighed"),
  };
});

function putShared<T>(sums: Map<T, Shared>, from: T, mass: number, at: Place): void {
  let it = sums.get(from);
  if (it === undefined) {
    it = noShared();
    sums.set(from, it);
  }
  add(it.mass, mass);
  for (const key of axes) {
    const x = at[key];
    if (x === undefined) continue;
    add(it[key].e, mass);
    addProduct(it[key].ex, mass, x);
  }
}

function mergeErrors(into: Open, other: Open): void {
  addAll(into.mass, other.mass);
  for (const key of axes)
    for (const term of ["e", "ex", "exx"] as const) addAll(into[key][term], other[key][term]);
  mergeShared(into.shared, other.shared);
  mergeShared(into.records, other.records);
}

function mergeShared<T>(into: Map<T, Shared>, other: ReadonlyMap<T, Shared>): void {
  for (const [from, theirs] of other) {
    const it = into.get(from) ?? noShared();
    into.set(from, it);
    addAll(it.mass, theirs.mass);
    for (const key of axes) {
      addAll(it[key].e, theirs[key].e);
      addAll(it[key].ex, theirs[key].ex);
    }
  }
}

/** Nothing is open in it: both sides of it are read together. */
function paired(errors: Open): Open {
  const times = (sum: Exact, n: number) => sum.map(it => n * it);
  const axis = ({ e, ex, exx }: Axis) => ({ e: times(e, 4), ex: times(ex, 4), exx: times(exx, 4) });
  const shared = new Map<Source, Shared>();
  for (const [from, it] of errors.shared)
    shared.set(from, {
      mass: times(it.mass, 2),
      fs: { e: times(it.fs.e, 2), ex: times(it.fs.ex, 2) },
      bl: { e: times(it.bl.e, 2), ex: [] },
      wl: { e: times(it.wl.e, 2), ex: times(it.wl.ex, 2) },
    });
  return {
    mass: times(errors.mass, 4),
    fs: axis(errors.fs),
    // both sides are off together, so the CG of the pair stays in the middle
    bl: { e: times(errors.bl.e, 4), ex: [], exx: [] },
    wl: axis(errors.wl),
    shared,
    records: new Map(),
  };
}

const axes = ["fs", "bl", "wl"] as const;

function noErrors(): Open {
  const axis = () => ({ e: [], ex: [], exx: [] });
  return { mass: [], fs: axis(), bl: axis(), wl: axis(), shared: new Map(), records: new Map() };
}

function noShared(): Shared {
  const axis = () => ({ e: [], ex: [] });
  return { mass: [], fs: axis(), bl: axis(), wl: axis() };
}
