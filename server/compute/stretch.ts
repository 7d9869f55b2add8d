import type { Envelope, Row } from "../model/envelope";
import { exceeds, same } from "../quantity/compare";
import { type Limit, limitsAt } from "./limit-lines";
import { type Breach, breachAt, hasRowsAt, weightBreachesOf, weightsAt } from "./limits";
import type { Stage } from "./stages";

/**
 * A state by its sums: kg, and kg m about the datum and the centreline. A CG is of the mass that has a
 * place, `fsMass` and `blMass`; where that is zero, nothing is said of it.
 */
export interface Sums {
  readonly mass: number;
  readonly fsMoment: number;
  readonly fsMass: number;
  readonly blMoment: number;
  readonly blMass: number;
}

/** Where a stretch is outside: shares of it, from 0 to 1. */
export interface Leaving {
  readonly code: Breach["code"];
  /** Where it is on the line for the last time before it is outside for the first. */
  readonly first: number;
  /** Where it is farthest outside, and by how much there. At a step: on the narrower side of it. */
  readonly worst: number;
  readonly breach: Breach;
}

/**
 * Where what is between two states leaves an envelope, exactly; one entry a code. All sums run straight
 * from the one to the other, as along a burn between two rows of a tank, or along an edge of a polygon
 * of weights and moments. The tolerances are those of a state (`breachesOf`), and so is what `kind`
 * asks for: the takeoff weight of "after", the landing weight of "landing".
 */
export function leavingsOf(
  from: Sums,
  to: Sums,
  envelope: Envelope,
  kind: Stage["kind"],
): readonly Leaving[] {
  const found = new Map<Breach["code"], Leaving>();
  const mass = linear(from.mass, to.mass);
  const weights = cuts({ n: mass, d: one }, weightsAt(kind, envelope));
  for (const code of ["above-weight-limit", "below-weight-limit"] as const)
    note(found, weights, t =>
      weightBreachesOf(at(mass, t), kind, envelope).find(it => it.code === code),
    );
  if (kind === "ramp") return [...found.values()];

  const fs = centre(from.fsMoment, from.fsMass, to.fsMoment, to.fsMass);
  const bl = centre(from.blMoment, from.blMass, to.blMoment, to.blMass);
  const weight = { n: mass, d: one };
  const inRows = (t: number) => hasRowsAt(at(mass, t), kind, envelope);
  if (fs) judge(found, fs, weight, envelope.rows, "cg", inRows, weights);
  if (bl) judge(found, bl, weight, envelope.lateral, "lateral");
  if (bl && fs) judge(found, bl, fs, envelope.lateralByStation, "lateral");
  return [...found.values()];
}

/**
 * The shares, from 0 to 1, at which a state on its way between two others meets a limit: what is
 * forbidden about it changes nowhere else.
 */
export function meetingsOf(
  from: Sums,
  to: Sums,
  envelope: Envelope,
  kind: Stage["kind"],
): readonly number[] {
  const weight = { n: linear(from.mass, to.mass), d: one };
  const found = [...cuts(weight, weightsAt(kind, envelope))];
  if (kind === "ramp") return found;
  const fs = centre(from.fsMoment, from.fsMass, to.fsMoment, to.fsMass);
  const bl = centre(from.blMoment, from.blMass, to.blMoment, to.blMass);
  if (fs) found.push(...meetings(fs, weight, envelope.rows));
  if (bl) found.push(...meetings(bl, weight, envelope.lateral));
  if (bl && fs) found.push(...meetings(bl, fs, envelope.lateralByStation));
  return found;
}

function meetings(arm: Ratio, key: Ratio, rows: readonly Row[]): readonly number[] {
  const ends = cuts(
    key,
    rows.flatMap(row => row.key ?? []),
  );
  const inner = ends.slice(1).flatMap((v, i) => {
    const u = ends[i]!;
    const pivot = value(key, (u + v) / 2);
    return limitsAt(rows, pivot)
      .flatMap(limit => crossings(arm, key, limit, pivot))
      .filter(t => t >= u && t <= v);
  });
  return [...ends, ...inner];
}

/** A figure that runs straight with t: what it is at 0, and its change to 1. */
type Linear = readonly [at0: number, change: number];
const linear = (from: number, to: number): Linear => [from, to - from];
const one: Linear = [1, 0];
const at = ([at0, change]: Linear, t: number) => at0 + change * t;

/** A moment over a mass, or a weight over 1. */
interface Ratio {
  readonly n: Linear;
  readonly d: Linear;
}
const value = ({ n, d }: Ratio, t: number) => at(n, t) / at(d, t);

/** Where one end has no mass at all, the CG of the other holds as far as there is any. */
function centre(n0: number, d0: number, n1: number, d1: number): Ratio | undefined {
  if (d0 === 0 && d1 === 0) return undefined;
  if (d0 === 0) return { n: [n1, 0], d: [d1, 0] };
  if (d1 === 0) return { n: [n0, 0], d: [d0, 0] };
  return { n: linear(n0, n1), d: linear(d0, d1) };
}

/** One arm against limits whose key is a weight or another arm: between two keys each is straight. */
function judge(
  found: Map<Breach["code"], Leaving>,
  arm: Ratio,
  key: Ratio,
  rows: readonly Row[],
  axis: "cg" | "lateral",
  wanted: (t: number) => boolean = () => true,
  more: readonly number[] = [],
): void {
  if (rows.length === 0) return;
  const keys = rows.flatMap(row => row.key ?? []);
  const ends = [...new Set([...cuts(key, keys), ...more])].sort((a, b) => a - b);
  for (let i = 1; i < ends.length; i++) {
    const [u, v] = [ends[i - 1]!, ends[i]!];
    const middle = (u + v) / 2;
    if (!wanted(middle)) continue;
    const pivot = value(key, middle);
    for (const limit of limitsAt(rows, pivot, axis)) {
      const breachHere = (t: number) =>
        breachAt(limit, value(arm, t), limit.x + limit.slope * (value(key, t) - pivot));
      const inner = (t: number) => t > u && t < v;
      const tops = extremum(arm, key, limit).filter(inner);
      // outside nowhere if not at an end or an extremum
      if (![u, ...tops, v].some(breachHere)) continue;
      const turns = [...tops, ...crossings(arm, key, limit, pivot).filter(inner)];
      note(found, [u, ...turns.sort((a, b) => a - b), v], breachHere);
    }
  }
}

/** Between two of these places what is outside only grows, only shrinks or is nothing. */
function note(
  found: Map<Breach["code"], Leaving>,
  places: readonly number[],
  breachHere: (t: number) => Breach | undefined,
): void {
  places.forEach((t, i) => {
    const breach = breachHere(t);
    if (breach === undefined) return;
    const { code } = breach;
    // outside here and not at the place before: it left on the way, and there it was on the line
    const left = i > 0 && !breachHere(places[i - 1]!) ? places[i - 1]! : t;
    const known = found.get(code);
    const first = Math.min(left, known?.first ?? 1);
    if (known && known.breach.by >= breach.by) found.set(code, { ...known, first });
    else found.set(code, { code, first, worst: t, breach });
  });
}

/** 0, where the ratio passes a key, and 1. A key within rounding of an end is that end. */
function cuts(key: Ratio, keys: readonly number[]): readonly number[] {
  const [a, b] = [value(key, 0), value(key, 1)];
  const [low, high] = [Math.min(a, b), Math.max(a, b)];
  const between = keys
    .filter(k => exceeds(k, low) && exceeds(high, k) && !same(low, high))
    .map(k => -(key.n[0] - k * key.d[0]) / (key.n[1] - k * key.d[1]));
  return [...new Set([0, ...between.filter(t => t > 0 && t < 1), 1])].sort((a, b) => a - b);
}

/**
 * Arm N/D on the line x + slope (n/d - pivot): (N - x D) d = slope (n - pivot d) D, a quadratic in t.
 * Taken about the pivot, a key between, so that nothing large cancels.
 */
function crossings(arm: Ratio, key: Ratio, { x, slope }: Limit, pivot: number): readonly number[] {
  const off = less(arm, x);
  const past = less(key, pivot);
  const [c, b, a] = product(off, key.d).map(
    (it, i) => it - slope * product(past, arm.d)[i]!,
  ) as unknown as [number, number, number];
  const square = b * b - 4 * a * c;
  if (square < 0) return [];
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(square)) / 2;
  return [q / a, c / q].filter(Number.isFinite);
}

/**
 * Where N/D - slope n/d has no slope: (N'D - ND') / D² = slope (n'd - nd') / d², in which both brackets
 * are constant. So d / D = r, their root, and both are straight in t.
 */
function extremum(arm: Ratio, key: Ratio, { slope }: Limit): readonly number[] {
  const r = Math.sqrt((slope * bracket(key)) / bracket(arm));
  const t = (r * arm.d[0] - key.d[0]) / (key.d[1] - r * arm.d[1]);
  return Number.isFinite(t) ? [t] : [];
}

const less = ({ n, d }: Ratio, times: number): Linear => [n[0] - times * d[0], n[1] - times * d[1]];
const product = (a: Linear, b: Linear) =>
  [a[0] * b[0], a[0] * b[1] + a[1] * b[0], a[1] * b[1]] as const;
const bracket = ({ n, d }: Ratio) => n[1] * d[0] - n[0] * d[1];
