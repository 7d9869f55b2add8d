import type { Clause } from "../../../grammar/tree";
import type { Assembly } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Place } from "../../model/env";
import { middle, placeOf } from "../../model/places";
import type { Root } from "../../model/root";
import type { Scope } from "../../model/scope";
import { onSide, placeText, quiet, written } from "./figures";
import { type Found, scopeOf } from "./found";
import type { Step } from "./lines";

/** A place as it was written, the frames it stands in, and what they add up to in the aircraft. */
export function placeSteps(
  root: Root,
  found: Found,
  place: Place,
  between: readonly Step[] = [],
): readonly Step[] {
  const { member, around, side } = found;
  const own = ownSteps(root, clausesOf(member.item), scopeOf(found));
  // a moment is about the datum, whatever the frame
  const frames = own.length === 0 ? [] : around.flatMap(it => frameStep(root, it));
  const steps = [...own, ...frames, ...between];
  if (steps.length === 0)
    return [["at", "not known: the mass counts, its moment does not", member.head.path]];
  if (frames.length > 0 || between.length > 0)
    steps.push(["in the aircraft", placeText(root, place)]);
  if (side === "LH")
    steps.push(["left-hand", `BL turned: ${placeText(root, onSide(place, side))}`]);
  return steps;
}

function ownSteps(root: Root, clauses: readonly Clause[], scope: Scope): readonly Step[] {
  const { length } = root.units;
  const setting = quiet(scope);
  const at = clauseOf(clauses, "at");
  if (at) return [["at", placeText(root, placeOf(at.point, length, setting)), at]];
  // a tank without a place of its own stands where its unusable does
  const unusable = clauseOf(clauses, "unusable");
  if (unusable?.at)
    return [["at", placeText(root, placeOf(unusable.at, length, setting)), unusable.at]];
  const span = clauseOf(clauses, "span");
  if (span?.end === undefined) return [];
  const [start, end] = [placeOf(span.start, length, setting), placeOf(span.end, length, setting)];
  return [
    ["from", placeText(root, start), span.start],
    ["to", placeText(root, end), span.end],
    [
      "middle",
      `(${written(span.start)} + ${written(span.end)}) ÷ 2 = ${placeText(root, middle(start, end))}`,
      span,
    ],
  ];
}

function frameStep(root: Root, assembly: Assembly): readonly Step[] {
  const at = clauseOf(clausesOf(assembly.item), "at");
  if (at === undefined || assembly === root.aircraft) return [];
  const own = placeOf(at.point, root.units.length, quiet(assembly.scope));
  const origin = { ...own, wl: own.wl ?? 0 };
  return [[`frame of ${assembly.path}`, `+ ${placeText(root, origin)}`, at]];
}
