import type { Assembly } from "../model/assembly";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import { brokenIn, type Condition, courseBy, firstBroken, statesOf } from "./courses";
import { type Flight, flightsOf } from "./flights";
import type { Breach } from "./limits";
import { type Distance, distancesOf } from "./nearest";
import { aroundOf, heavier, type Response } from "./response";
import { basicBalance, oneSide } from "./weight";

/** What more mass at a place does; masses are kg in all, of both sides where there are two. */
export interface Sensitivity {
  /** kg of predicted mass for each kg here: growth comes on top. */
  readonly grows: number;
  /** The state nearest to a CG limit. */
  readonly nearest: Nearest | undefined;
  /** How much more fits, and what breaks beyond that; undefined: nothing that is judged breaks. */
  readonly room: Room | undefined;
}

export interface Nearest extends Distance {
  /** m of the distance for each kg here. */
  readonly change: number;
}

export interface Room {
  readonly mass: number;
  readonly breaks:
    | { readonly budget: Part | Assembly }
    | { readonly condition: Condition; readonly breach: Breach };
}

/**
 * Exact: mass added at a place enters each weight and each moment straight, so that a budget is met by a
 * difference and a limit by a quadratic. Undefined where the place is not known, or where something
 * around it is weighed as a whole. Budgets of basic masses, and every state of every loading, are looked
 * at: a weight that is over already leaves no room, a CG that is outside already has its own finding
 * and is passed over.
 */
export function sensitivityOf(root: Root, member: Part | Assembly): Sensitivity | undefined {
  const response = heavier(root, member, null);
  if (response === undefined) return undefined;
  const flights = flightsOf(root);
  const rooms = [...budgetRooms(root, member)];
  for (const flight of flights) rooms.push(...roomIn(root, flight, member));
  return {
    grows: 1 + growthShare(member),
    nearest: nearestOf(root, flights, member),
    room: rooms.reduce<Room | undefined>(
      (least, it) => (least && least.mass <= it.mass ? least : it),
      undefined,
    ),
  };
}

function growthShare(member: Part | Assembly): number {
  if (member.kind !== "assembly") return member.mass ? member.growth / member.mass : 0;
  const { basic, growth } = oneSide(member);
  const sum = (terms: readonly number[]) => terms.reduce((a, b) => a + b, 0);
  return sum(basic.mass) === 0 ? 0 : sum(growth.mass) / sum(basic.mass);
}

/** Of its own budget and those around it; a budget is of one side. */
function* budgetRooms(root: Root, member: Part | Assembly): Iterable<Room> {
  const around = aroundOf(root, member);
  const holders: readonly (Part | Assembly)[] = [...around, member];
  let mirrored = false;
  for (const holder of holders) {
    mirrored ||= holder.mirrored;
    if (holder.budget === undefined) continue;
    const mass =
      holder.kind === "assembly" ? basicBalance(oneSide(holder)).mass : (holder.mass ?? 0);
    const left = Math.max(0, holder.budget.mass - mass) * (mirrored ? 2 : 1);
    yield { mass: left, breaks: { budget: holder } };
  }
}

function* roomIn(root: Root, flight: Flight, member: Part | Assembly): Iterable<Room> {
  const most = mostOf(root, flight);
  const course = courseBy(flight, it => heavier(root, member, it), most);
  if (course === undefined) return;
  const heavy = course.from.flatMap(condition =>
    brokenIn(condition, condition.sums).flatMap(breach =>
      breach.code === "above-weight-limit" ? { condition, breach } : [],
    ),
  );
  if (heavy[0]) yield { mass: 0, breaks: heavy[0] };
  const broken = new Set<string>();
  for (const { states } of flight.verdicts)
    for (const { basic } of states)
      for (const { code } of [...basic.breaches, ...basic.excursions]) broken.add(code);
  const first = firstBroken(course, (_, code) => !broken.has(code));
  if (first) {
    const { condition, breach } = first;
    yield { mass: first.share * most, breaks: { condition, breach } };
  }
}

/** Twice what flies: whatever has a limit has met it by then. */
function mostOf(root: Root, { stages, verdicts }: Flight): number {
  const limits = verdicts.flatMap(({ envelope }) =>
    [envelope.ramp, envelope.takeoff, envelope.landing, envelope.zero_fuel].map(
      it => it?.mass ?? 0,
    ),
  );
  const masses = stages.map(({ basic }) => basic.mass);
  return 2 * Math.max(basicBalance(oneSide(root.aircraft)).mass, ...masses, ...limits);
}

function nearestOf(
  root: Root,
  flights: readonly Flight[],
  member: Part | Assembly,
): Nearest | undefined {
  const responses = new Map<string | null, Response | undefined>();
  const responseIn = (configuration: string | null) => {
    if (!responses.has(configuration))
      responses.set(configuration, heavier(root, member, configuration));
    return responses.get(configuration);
  };
  const states = flights.flatMap(it => statesOf(it).from);
  const edge = nearestEdge(states, it => responseIn(it) !== undefined);
  if (edge === undefined) return undefined;
  const by = responseIn(edge.condition.verdict.configuration)!;
  return { ...edge, change: changeAt(edge, by) };
}

/** Of states the one nearest to a forward or aft CG limit, among the configurations that count. */
export function nearestEdge(
  states: readonly Condition[],
  counts: (configuration: string | null) => boolean,
): Distance | undefined {
  let nearest: Distance | undefined;
  for (const found of distancesOf(states)) {
    if (!counts(found.condition.verdict.configuration)) continue;
    if (nearest === undefined || found.distance < nearest.distance) nearest = found;
  }
  return nearest;
}

/** m more inside a limit for each unit of a response. */
export function changeAt({ condition, limit }: Distance, by: Response): number {
  const { fsMass, fsMoment } = condition.sums;
  const fs = fsMoment / fsMass;
  return limit.out * (limit.slope * by.mass - (by.fs - fs * by.mass) / fsMass);
}
