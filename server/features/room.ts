import { when } from "../checks/show";
import { lossesOf } from "../compute/assembly-remedies";
import type { Breach } from "../compute/limits";
import { aroundOf } from "../compute/response";
import { type Nearest, type Room, sensitivityOf } from "../compute/sensitivity";
import type { Assembly } from "../model/assembly";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import { show } from "../quantity/show";
import type { Unit } from "../quantity/units";
import { rounded } from "./amend";

/**
 * Two lines on what more mass here does: what one unit of it costs the aircraft's margin and the loading
 * that is nearest to a CG limit, and how much fits until what breaks.
 * And what would have to go where a budget is exceeded, for mass cannot be edited away.
 */
export function roomLines(root: Root, member: Part | Assembly, unit: Unit): readonly string[] {
  const found = sensitivityOf(root, member);
  const lines = member.kind === "assembly" ? lossLines(root, member) : [];
  if (found === undefined) return lines;
  const { nearest, room, grows } = found;
  const sides = member.mirrored || aroundOf(root, member).some(it => it.mirrored) ? " in all" : "";
  const costs: string[] = [];
  if (root.aircraft.budget)
    costs.push(`${show(grows * unit.factor, unit)} off the aircraft's margin`);
  if (nearest) costs.push(nearestText(nearest, unit, root));
  if (costs.length > 0) lines.push(`1 ${unit.name} more${sides}: ${costs.join("; ")}`);
  if (room) lines.push(roomText(room, sides, unit));
  return lines;
}

function nearestText(nearest: Nearest, unit: Unit, root: Root): string {
  const { condition, limit, distance, change } = nearest;
  const { length } = root.units;
  const by = change * unit.factor;
  const moved = `${fine(Math.abs(by), length)} ${by < 0 ? "nearer to" : "farther from"}`;
  const now = `${show(Math.abs(distance), length)} ${distance < 0 ? "outside" : "inside"}`;
  return `${whoIs(condition)} ${moved} ${limit.what} (${now})`;
}

/** Two significant digits: a pound moves a CG by thousandths. */
function fine(value: number, unit: Unit): string {
  return show(Number((value / unit.factor).toPrecision(2)) * unit.factor, unit);
}

function roomText({ mass, breaks }: Room, sides: string, unit: Unit): string {
  const then = "budget" in breaks ? budgetText(breaks.budget) : breachText(breaks);
  if (mass === 0) return `no room for more: ${then}`;
  return `room for ${show(mass, unit)} more${sides}, then ${then}`;
}

const budgetText = (of: Part | Assembly) =>
  `${of.path || "the aircraft"} is over its budget of ${show(of.budget!.mass, of.budget!.unit)}`;

function breachText({ condition, breach }: Extract<Room["breaks"], { condition: unknown }>) {
  return `${whoIs(condition)} is ${ways[breach.code]} ${breach.what}`;
}

/** On which side of a limit it is: "aft of the aft limit". */
export const ways: Readonly<Record<Breach["code"], string>> = {
  "cg-forward": "forward of",
  "cg-aft": "aft of",
  "cg-lateral": "outside",
  "above-weight-limit": "over",
  "below-weight-limit": "under",
};

/** "two_up_full wheels_up at takeoff" */
export function whoIs({ flight, verdict, stage }: Nearest["condition"]): string {
  const { configuration } = verdict;
  return [flight.loading.name, configuration, when(stage)].filter(Boolean).join(" ");
}

function lossLines(root: Root, assembly: Assembly): string[] {
  const losses = lossesOf(root, assembly);
  if (losses.length === 0) return [];
  const unit = assembly.budget?.unit ?? root.units.mass;
  const each = losses.map(({ part, by, bothSides }) => {
    const side = bothSides ? " on each side" : "";
    return `${part.path} ${show(rounded(0, by, unit, 0), unit)}${side}`;
  });
  const list = each.length > 1 ? `${each.slice(0, -1).join(", ")} or ${each.at(-1)}` : each[0];
  return [`to be predicted within its budget, one of these must lose: ${list}`];
}
