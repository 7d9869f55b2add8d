import type { Loading } from "../model/loading";
import type { Root } from "../model/root";
import { type Flight, flightOf, flightsOf, type Verdict } from "./flights";
import { type Breach, breachesOf } from "./limits";
import type { Response } from "./response";
import { fuelsOf, type Stage } from "./stages";
import { leavingsOf, meetingsOf, type Sums } from "./stretch";

/** A state that an envelope judges: at the end of a stage, or at a point of the path that leads to it. */
export interface Condition {
  readonly flight: Flight;
  readonly verdict: Verdict;
  readonly stage: Stage;
  readonly sums: Sums;
}

/** What a change does to a set of states: each runs straight from what it is to what it becomes. */
export interface Course {
  readonly from: readonly Condition[];
  readonly to: readonly Sums[];
  /** Neighbours on a path, by their index: what is between them is flown too. */
  readonly stretches: readonly (readonly [number, number])[];
}

/** Every state of a flight, with basic masses. */
export function statesOf(flight: Flight): Omit<Course, "to"> {
  const from: Condition[] = [];
  const stretches: (readonly [number, number])[] = [];
  for (const verdict of flight.verdicts)
    for (const { stage } of verdict.states) {
      from.push({ flight, verdict, stage, sums: stage.sums });
      stage.path?.points.forEach((point, i) => {
        if (i > 0) stretches.push([from.length - 1, from.length]);
        from.push({ flight, verdict, stage, sums: point.basic });
      });
    }
  return { from, stretches };
}

/** Each state shifted by a response, so many kg or m of it; undefined where the response is not known. */
export function courseBy(
  flight: Flight,
  responseIn: (configuration: string | null) => Response | undefined,
  amount: number,
): Course | undefined {
  const states = statesOf(flight);
  const responses = new Map<string | null, Response | undefined>();
  for (const { configuration } of flight.verdicts)
    if (!responses.has(configuration)) responses.set(configuration, responseIn(configuration));
  if ([...responses.values()].includes(undefined)) return undefined;
  const to = states.from.map(({ sums, verdict }) =>
    shifted(sums, responses.get(verdict.configuration)!, amount),
  );
  return { ...states, to };
}

/**
 * A loading with one amount changed, from one figure to another between which every state runs straight.
 * Read within, for at an end two corners of a path may fall together.
 */
export function courseBetween(
  holding: (amount: number) => Loading,
  [from, to]: readonly [number, number],
  root: Root,
): Course {
  const fuels = fuelsOf(flightsOf(root).map(it => it.loading));
  const at = (share: number) =>
    statesOf(flightOf(holding(from + share * (to - from)), root, fuels));
  const [a, b] = [at(0.25), at(0.75)];
  if (a.from.length !== b.from.length) return { from: [], to: [], stretches: [] };
  const ends = a.from.map(({ sums }, i) => {
    const other = b.from[i]!.sums;
    return [mixed(sums, other, -0.5), mixed(sums, other, 1.5)] as const;
  });
  return {
    from: a.from.map((it, i) => ({ ...it, sums: ends[i]![0] })),
    to: ends.map(([, end]) => end),
    stretches: a.stretches,
  };
}

export function brokenIn({ verdict, stage }: Condition, sums: Sums): readonly Breach[] {
  const { mass, fsMoment, fsMass, blMoment, blMass } = sums;
  const fs = fsMass === 0 ? null : fsMoment / fsMass;
  const bl = blMass === 0 ? null : blMoment / blMass;
  return breachesOf({ mass, fs, bl }, stage.kind, verdict.envelope).filter(it =>
    counts(verdict, it),
  );
}

// what is swung weighs what it weighs: its weight is judged as drawn
const counts = ({ configuration }: Verdict, { code }: Pick<Breach, "code">) =>
  configuration === null || code.startsWith("cg-");

/**
 * The least share of a change, from 0 to 1, at which no state breaks a limit but by the codes in
 * `allowed`. Where a path leaves its envelope between two of its points, its farthest place becomes one
 * more state (E. Remez's exchange), until none does.
 */
export function leastFree(course: Course, allowed: ReadonlySet<string>): number | undefined {
  const bad = (breach: Pick<Breach, "code">) => !allowed.has(breach.code);
  const [from, to] = [[...course.from], [...course.to]];
  for (let round = 0; round < ROUNDS; round++) {
    const meets = from.flatMap((it, i) =>
      meetingsOf(it.sums, to[i]!, it.verdict.envelope, it.stage.kind),
    );
    const share = [...new Set(meets)]
      .sort((a, b) => a - b)
      .find(t => from.every((it, i) => !brokenIn(it, mixed(it.sums, to[i]!, t)).some(bad)));
    if (share === undefined) return undefined;
    if (!exchanged(course, share, bad, from, to)) return share;
  }
  return undefined;
}

/** The first place on the way of a change at which a state breaks a limit that `bad` cares for. */
export function firstBroken(
  course: Course,
  bad: (condition: Condition, code: Breach["code"]) => boolean,
): { readonly share: number; readonly condition: Condition; readonly breach: Breach } | undefined {
  const [from, to] = [[...course.from], [...course.to]];
  for (let round = 0; ; round++) {
    let first: ReturnType<typeof firstBroken>;
    from.forEach((condition, i) => {
      const { verdict, stage } = condition;
      for (const leaving of leavingsOf(condition.sums, to[i]!, verdict.envelope, stage.kind))
        if (
          counts(verdict, leaving) &&
          bad(condition, leaving.code) &&
          (first === undefined || leaving.first < first.share)
        )
          first = { share: leaving.first, condition, breach: leaving.breach };
    });
    const at = first?.share ?? 1;
    const more = exchanged(course, at, (it, condition) => bad(condition, it.code), from, to);
    if (!more || round === ROUNDS) return first;
  }
}

/** An exchange closes in on a smooth extremum by its square: a handful of rounds reach rounding. */
const ROUNDS = 12;

/** Adds the farthest place outside of every stretch at this share of a change; false: there is none. */
function exchanged(
  course: Course,
  share: number,
  bad: (breach: Pick<Breach, "code">, condition: Condition) => boolean,
  from: Condition[],
  to: Sums[],
): boolean {
  const before = from.length;
  for (const [i, j] of course.stretches) {
    const [a, b] = [course.from[i]!, course.from[j]!];
    const now = [mixed(a.sums, course.to[i]!, share), mixed(b.sums, course.to[j]!, share)] as const;
    for (const leaving of leavingsOf(...now, b.verdict.envelope, b.stage.kind)) {
      const { worst } = leaving;
      if (worst === 0 || worst === 1 || !counts(b.verdict, leaving) || !bad(leaving, b)) continue;
      from.push({ ...b, sums: mixed(a.sums, b.sums, worst) });
      to.push(mixed(course.to[i]!, course.to[j]!, worst));
    }
  }
  return from.length > before;
}

function shifted(sums: Sums, by: Response, amount: number): Sums {
  return {
    mass: sums.mass + amount * by.mass,
    fsMoment: sums.fsMoment + amount * by.fs,
    fsMass: sums.fsMass + amount * by.mass,
    blMoment: sums.blMoment + amount * by.bl,
    blMass: sums.blMass + amount * by.mass,
  };
}

function mixed(a: Sums, b: Sums, t: number): Sums {
  const mix = (x: number, y: number) => x + (y - x) * t;
  return {
    mass: mix(a.mass, b.mass),
    fsMoment: mix(a.fsMoment, b.fsMoment),
    fsMass: mix(a.fsMass, b.fsMass),
    blMoment: mix(a.blMoment, b.blMoment),
    blMass: mix(a.blMass, b.blMass),
  };
}
