import type { Amount, Clause, Point, Span, Statement } from "../../grammar/tree";
import { over } from "../checks/show";
import { partsOf } from "../compute/parts-inside";
import { balanceOf, basicBalance, oneSide, predictedBalance } from "../compute/weight";
import type { Budget } from "../model/asked";
import type { Assembly, Member } from "../model/assembly";
import { clauseOf, clausesOf } from "../model/clauses";
import type { Place } from "../model/env";
import { evaluate, type Setting } from "../model/evaluate";
import { contentsMass, type Spot, spotAt } from "../model/loading";
import { noSums, type Part } from "../model/part";
import type { Root } from "../model/root";
import { exceeds, same } from "../quantity/compare";
import { MASS, PLAIN, VOLUME } from "../quantity/dimension";
import type { Quantity } from "../quantity/quantity";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";
import type { HintPart } from "./hints";
import type { MemberIn } from "./standing";

export const hintKinds = ["sums", "totals", "stations", "sides"] as const;
export type HintKind = (typeof hintKinds)[number];

/** Something that a statement comes to. */
export interface Figure {
  readonly kind: HintKind;
  /** What it stands at the end of the row of. */
  readonly behind: Span;
  readonly parts: readonly HintPart[];
}

/**
 * Of an assembly its predicted mass, of a part with pieces or an expression what that comes to, and what
 * both leave of their budgets. Of one side, as budgets are. A sum with something unknown is a floor.
 */
export function massFigures(root: Root, member: Member): readonly Figure[] {
  if (member.kind === "assembly") return sumOf(member);
  return member.kind === "part" || member.kind === "ballast" ? totalOf(root, member) : [];
}

function sumOf(assembly: Assembly): readonly Figure[] {
  const { head, budget, core, mirrored, weighed } = assembly;
  const weight = oneSide(assembly);
  const [basic, predicted] = [basicBalance(weight), predictedBalance(weight)];
  const { unknown } = weight;
  if (predicted.mass === 0 && unknown === 0) return [];
  const unit = budget?.unit ?? core.units.mass;
  const grows = !same(basic.mass, predicted.mass);
  const [growth, reserves] = [weight.growth, weight.reserve].map(it => balanceOf(it, 0).mass);
  const sum = [
    `basic ${show(basic.mass, unit)}${weighed ? ", weighed as a whole" : ""}`,
    `growth ${show(growth!, unit)}`,
    ...(reserves === 0 ? [] : [`reserves ${show(reserves!, unit)}`]),
    `predicted ${show(predicted.mass, unit)}`,
  ];
  const words = [grows ? " predicted" : "", mirrored ? " each side" : ""].join("");
  const spent = budget && leftOf(budget, predicted.mass, unknown > 0);
  const mass = spent?.is ?? show(predicted.mass, unit);
  const parts: HintPart[] = [
    {
      text: `${unknown > 0 ? "at least" : "="} ${mass}${words}`,
      refers: head.path,
      tooltip: sum.join(", "),
    },
  ];
  if (unknown > 0) {
    const lacking = partsOf(assembly).find(it => it.mass === undefined);
    parts.push({
      text: ` (${unknown} without a mass)`,
      refers: lacking?.head.path,
      tooltip: "Incomplete: the figure is a floor.",
    });
  }
  if (spent) parts.push(spent.part);
  return [{ kind: "sums", behind: head, parts }];
}

function totalOf(root: Root, part: Part): readonly Figure[] {
  const { head, governing, mass, growth, budget, mirrored, qty } = part;
  if (mass === undefined || governing?.mass === undefined) return [];
  const { figure } = governing.clause;
  // to be compared with the sum it goes into, whatever one piece is given in
  const unit = root.units.mass;
  const written = figure?.kind === "quantity" && same(mass, governing.mass * governing.pieces);
  const each = mirrored ? " each side" : "";
  const parts: HintPart[] = [];
  if (!written)
    parts.push({
      text: `= ${show(mass, unit)}${each}`,
      refers: governing.clause,
      tooltip:
        qty === 1
          ? `${governing.basis} ${show(mass, unit)}`
          : `${showNumber(qty)} × ${show(governing.mass, part.unit)} ${governing.basis}`,
    });
  if (budget) {
    const predicted = mass + growth;
    const spent = leftOf(budget, predicted, false);
    const said = `${spent.is} predicted${written ? each : ""}`;
    const tooltip = `basic ${show(mass, unit)}, growth ${show(growth, unit)}`;
    if (growth > 0)
      parts.push({ text: `${written ? "= " : ", "}${said}`, refers: head.path, tooltip });
    const { part } = spent;
    parts.push(parts.length > 0 ? part : { ...part, text: part.text.slice(", ".length) });
  }
  return parts.length === 0 ? [] : [{ kind: written ? "sums" : "totals", behind: head, parts }];
}

/** Of the predicted mass: the two figures and what is between them fit each other as shown. */
function leftOf(
  { mass, unit, at }: Budget,
  predicted: number,
  floor: boolean,
): { readonly is: string; readonly part: HintPart } {
  const { is, by, limit } = over(predicted, mass, unit);
  const isOver = exceeds(predicted, mass);
  const least = floor ? (isOver ? "at least " : "at most ") : "";
  return {
    is,
    part: {
      text: `, ${least}${by} ${isOver ? "over" : "left"}`,
      refers: at,
      tooltip: `of a budget of ${limit}`,
    },
  };
}

/**
 * Where something lies in the aircraft that is written in a frame of its own, or by its moment: the
 * coordinates that the text does not say, in the unit of stations, of the right-hand one of two.
 */
export function stationFigures(
  { member, around }: MemberIn,
  clauses: readonly Clause[],
): readonly Figure[] {
  const outer = around.at(-1);
  if (outer === undefined) return [];
  const { origin, units } = outer.core;
  const frame = around.findLast(it => clauseOf(clausesOf(it.item), "at"));
  const place = member.kind === "assembly" ? member.core.origin : member.place;
  const figures: Figure[] = [];
  const add = (
    behind: Span,
    text: string | undefined,
    refers: Span | undefined,
    tooltip: string,
  ) => {
    if (text) figures.push({ kind: "stations", behind, parts: [{ text, refers, tooltip }] });
  };
  const within = frame
    ? `In the aircraft: ${frame.path} begins at ${pointText(frame.core.origin, units.length)}.`
    : "";
  for (const clause of clauses) {
    if (clause.kind === "at" && place && frame) {
      const ends = "ends" in member ? member.ends : [place];
      add(
        clause,
        movedText(clause.point, origin, ends, units.length, true),
        frame.head.path,
        within,
      );
    } else if (clause.kind === "filled" && "filled" in member && frame) {
      const row = member.filled.find(it => it.expr === clause.point);
      const text = row && movedText(clause.point, origin, [row.place], units.length, false);
      add(clause, text, frame.head.path, within);
    } else if (clause.kind === "moment" && place?.fs !== undefined && member.kind === "part")
      add(
        clause,
        `FS ${showNumber(place.fs / units.length.factor)}`,
        member.governing?.clause,
        "The moment ÷ the mass it stands with, from the datum.",
      );
  }
  return figures;
}

const axes = [
  ["FS", "fs"],
  ["BL", "bl"],
  ["WL", "wl"],
] as const;

/** Those coordinates that the frame changes; of a place of its own a BL that is not written is one. */
function movedText(
  { coords }: Point,
  origin: Place,
  ends: readonly Place[],
  unit: Unit,
  own: boolean,
): string | undefined {
  const words = axes.flatMap(([axis, key]) => {
    const said = coords.some(it => it.axis === axis && it.value !== undefined);
    if (origin[key] === 0 || !(said || (own && axis === "BL"))) return [];
    const all = ends.flatMap(it => it[key] ?? []);
    if (all.length === 0) return [];
    const [low, high] = [Math.min(...all), Math.max(...all)].map(it =>
      showNumber(it / unit.factor),
    );
    return [`${axis} ${low === high ? low : `${low} .. ${high}`}`];
  });
  return words.length > 0 ? words.join(", ") : undefined;
}

function pointText(place: Place, unit: Unit): string {
  return axes
    .flatMap(([axis, key]) => {
      const x = place[key];
      return x === undefined ? [] : [`${axis} ${showNumber(x / unit.factor)}`];
    })
    .join(", ");
}

/** An amount of something mirrored is of each side: what both come to. */
export function bothSides(root: Root, head: Statement): readonly Figure[] {
  const { kind } = head;
  if (
    kind !== "load" &&
    kind !== "aboard" &&
    kind !== "burn" &&
    kind !== "taxi" &&
    kind !== "release"
  )
    return [];
  const { path, amount } = head;
  if (path === undefined || amount === undefined || amount.sides === "total") return [];
  const setting: Setting = { scope: root.scope, report: () => {}, ask: noSums(() => {}) };
  const spot = spotAt(path, root, setting);
  if (spot === undefined || !spot.station.mirrored || spot.side) return [];
  const each = amountOf(spot, amount, setting);
  if (each === undefined) return [];
  const unit = each.unit ?? (each.dimension === VOLUME ? root.units.volume : root.units.mass);
  const mass = each.dimension === MASS ? undefined : contentsMass(spot.station, each, root);
  const { station } = spot;
  const of = station.fluid ? ` of ${station.fluid.text}` : "";
  const weighs = mass === undefined ? "" : `: ${show(2 * mass, root.units.mass)}${of} in all`;
  const part: HintPart = {
    text: `= ${show(2 * each.value, unit)}${amount.usable ? " usable" : ""}, both sides`,
    refers: station.head.path,
    tooltip: `${station.path} is mirrored, ${show(each.value, unit)} each side${weighs}`,
  };
  return [{ kind: "sides", behind: amount, parts: [part] }];
}

/** Of one side, as it is written or as much as there is room for. */
function amountOf({ station }: Spot, amount: Amount, setting: Setting): Quantity | undefined {
  const full = station.kind === "tank" ? station.holds : station.range?.[1];
  if (amount.full) return full;
  const value = amount.value && evaluate(amount.value, setting);
  if (value?.dimension === MASS || value?.dimension === VOLUME) return value;
  if (value?.dimension !== PLAIN || value.unit?.name !== "%" || !full) return undefined;
  return { ...full, value: full.value * value.value };
}
