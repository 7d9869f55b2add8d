import type { RecordClause, Span } from "../../../grammar/tree";
import { recordOfMoment } from "../../model/arm-and-moment";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Part } from "../../model/part";
import type { Root } from "../../model/root";
import { showNumber } from "../../quantity/show";
import { budgetSteps } from "./budget";
import {
  asShown,
  lengthText,
  massText,
  momentText,
  momentUnit,
  onSide,
  placeText,
  valueIn,
  written,
} from "./figures";
import { type Found, piecesOf, scopeOf, serialLine, titled } from "./found";
import { growthStep } from "./growth";
import { bodySteps } from "./inertia";
import { line, type Step, section, type WhyLine } from "./lines";
import { placeSteps } from "./place";
import { recordSteps } from "./records";
import { restsOn } from "./values";

/** A part or a piece of ballast: which record governs, what its pieces weigh, where, and what grows. */
export function partLines(root: Root, found: Found<Part>): readonly WhyLine[] {
  const { member: part, side } = found;
  const { governing, mass } = part;
  const figure = governing?.clause.figure ?? part.head.figure;
  const place = onSide(part.place, side);
  const answer =
    mass === undefined ? "no mass yet" : `${massText(root, mass)} at ${placeText(root, place)}`;
  return [
    line(titled(found), part.head.path),
    line(`  ${answer}`),
    ...serialLine(root, found),
    ...section("Records, of one piece", recordSteps(root, found)),
    ...section("Rests on", figure ? restsOn(root, figure, scopeOf(found)) : []),
    ...section("Mass", massSteps(root, found)),
    ...section("Place", placeSteps(root, found, part.place, momentStep(root, found))),
    ...section("Moment", momentSteps(root, found)),
    ...section("Inertia about its own CG", bodySteps(root, part)),
    ...section(
      "Budget",
      budgetSteps(root, part.budget, mass ?? 0, (mass ?? 0) + part.growth, mass === undefined),
    ),
  ];
}

function massSteps(root: Root, found: Found<Part>): readonly Step[] {
  const { member: part, side } = found;
  const { mass, qty, governing } = part;
  if (mass === undefined) return [["one piece", "unknown: every sum above is a floor", part.head]];
  const clauses = clausesOf(part.item);
  const steps: Step[] = [];
  const piece = massText(root, mass / (qty || 1));
  const source: Span | undefined = governing?.clause ?? part.head.figure;
  if (qty === 1) steps.push(["basic", piece, source]);
  else
    steps.push([
      "basic",
      `${showNumber(qty)} × ${piece} = ${massText(root, mass)}`,
      clauseOf(clauses, "qty") ?? source,
    ]);
  steps.push(...growthStep(root, found, mass));
  if (part.growth > 0)
    steps.push([
      "predicted",
      `${massText(root, mass)} + ${massText(root, part.growth)} = ${massText(root, mass + part.growth)}`,
    ]);
  if (part.mirrored && side === undefined)
    steps.push([
      "both sides",
      `2 × ${massText(root, mass)} = ${massText(root, 2 * mass)}${part.growth > 0 ? `, predicted ${massText(root, 2 * (mass + part.growth))}` : ""}`,
      clauseOf(clauses, "mirrored"),
    ]);
  return steps;
}

/** A moment in place of an arm, or over it. */
function momentStep(root: Root, found: Found<Part>): readonly Step[] {
  const { member: part } = found;
  const clauses = clausesOf(part.item);
  const moment = clauseOf(clauses, "moment");
  if (moment?.value === undefined) return [];
  const value = valueIn(moment.value, scopeOf(found));
  const record: { readonly mass: number | undefined; readonly clause?: RecordClause } | undefined =
    recordOfMoment(clauses, moment, part.records, part.governing);
  if (value === undefined || !record?.mass || part.place.fs === undefined)
    return [["moment", `${written(moment.value)}: gives no FS without a mass`, moment]];
  const about = asShown(moment.value, value.value, momentUnit(root));
  const pieces = piecesOf(found);
  const mass =
    moment.total && pieces !== 1
      ? `(${showNumber(pieces)} × ${massText(root, record.mass)})`
      : massText(root, record.mass);
  return [
    ["moment", `${about} ÷ ${mass} = FS ${lengthText(root, part.place.fs)}; it governs`, moment],
  ];
}

function momentSteps(root: Root, found: Found<Part>): readonly Step[] {
  const { member: part, side } = found;
  const { mass } = part;
  if (mass === undefined) return [];
  const { fs, bl, wl } = onSide(part.place, side);
  const about = (label: string, x: number | undefined): readonly Step[] =>
    x === undefined
      ? []
      : [
          [
            label,
            `${massText(root, mass)} × ${lengthText(root, x)} = ${momentText(root, mass * x)}`,
          ],
        ];
  return [
    ...about("about the datum", fs),
    ...about("about the centerline", bl),
    ...about("about WL 0", wl),
  ];
}
