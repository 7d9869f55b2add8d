import type { Span } from "../../grammar/tree";
import { predictedMass } from "../checks/budget-at-risk";
import { basicMass } from "../checks/over-budget";
import { over } from "../checks/show";
import { sharesOf } from "../compute/shares";
import { deviationOf, deviationOfPiece } from "../compute/spread";
import { oneSide } from "../compute/weight";
import { endOf } from "../features/symbols";
import { memo } from "../memo";
import type { Assembly, Member } from "../model/assembly";
import type { Part } from "../model/part";
import type { Reserve } from "../model/reserve";
import type { Root } from "../model/root";
import { exceeds } from "../quantity/compare";
import { show } from "../quantity/show";
import type { Unit } from "../quantity/units";

/** One thing of an aircraft with what it weighs and may weigh: of one side where there are two. */
export interface BudgetRow {
  readonly kind: "aircraft" | "assembly" | "part" | "reserve";
  readonly path: string;
  readonly title: string;
  readonly sides: 1 | 2;
  readonly basic: string;
  readonly predicted: string;
  /** One standard deviation of the basic mass, where anything says it. */
  readonly spread: string | undefined;
  readonly budget: Budgeted | undefined;
  /** How much of the basic mass is estimated, from 0 to 1. */
  readonly guessed: number;
  /** Every mass in it is known. */
  readonly complete: boolean;
  readonly at: Span;
  /** From the start of the first to the end of the second. */
  readonly whole: readonly [Span, Span];
  readonly inside: readonly BudgetRow[];
  /** Parts that are left out below, and their predicted mass of one side of this. */
  readonly more: { readonly count: number; readonly predicted: string } | undefined;
}

export interface Budgeted {
  readonly budget: string;
  /** Over as it stands; over once growth and reserves are in; neither. */
  readonly verdict: "over" | "at-risk" | "within";
  /** By how much it is over, or how much is left of what is predicted. */
  readonly by: string;
  /** Of the budget: what is there, and what will be. Above 1 where it is over. */
  readonly basicShare: number;
  readonly predictedShare: number;
}

/** Heaviest first, least margin first, most uncertain first, or as the files have it. */
export const orders = ["mass", "margin", "spread", "written"] as const;
export type Order = (typeof orders)[number];

/** Beside assemblies so many parts are listed in each; the first ones in the order asked for. */
const MOST_PARTS = 20;

/** The aircraft with everything in it. */
export function budgetTree(root: Root, order: Order): BudgetRow {
  return rowOf({ kind: "aircraft", member: root.aircraft, title: root.title ?? root.name }, order)
    .row;
}

interface Named {
  readonly kind: BudgetRow["kind"];
  readonly member: Assembly | Part | Reserve;
  readonly title: string;
}

/** With what it is ordered by: kg of all sides as predicted, kg of one side. */
interface Weighed {
  readonly row: BudgetRow;
  readonly mass: number;
  readonly margin: number;
  readonly spread: number;
}

/** What an edit does not reach keeps its row. */
const known: Readonly<Record<Order, (member: Named["member"]) => Weighed>> = {
  mass: memo(member => rowOf(named(member)!, "mass")),
  margin: memo(member => rowOf(named(member)!, "margin")),
  spread: memo(member => rowOf(named(member)!, "spread")),
  written: memo(member => rowOf(named(member)!, "written")),
};

function rowOf({ kind, member, title }: Named, order: Order): Weighed {
  const sides = "mirrored" in member && member.mirrored ? 2 : 1;
  const basic = basicMass(member);
  // held back: predicted, and nothing of it is there
  const predicted = member.kind === "reserve" ? member.mass : predictedMass(member);
  const budget = "budget" in member ? member.budget : undefined;
  const unit = budget?.unit ?? unitOf(member);
  const shown = (mass: number | undefined) => (mass === undefined ? "?" : show(mass, unit));
  const spread = spreadOf(member);
  const { rows, more } = member.kind === "assembly" ? inside(member, order, unit) : nothing;
  const row: BudgetRow = {
    kind,
    path: member.path,
    title,
    sides,
    basic: member.kind === "reserve" ? show(0, unit) : shown(basic),
    predicted: shown(predicted),
    spread: spread === 0 ? undefined : show(spread, unit),
    budget: budget && budgeted(basic, predicted, budget.mass, unit),
    guessed: guessedIn(member),
    complete: member.kind === "assembly" ? oneSide(member).unknown === 0 : predicted !== undefined,
    at: member.head.path ?? member.head,
    whole: [member.head, endOf(member.item)],
    inside: rows,
    more,
  };
  const margin = budget && predicted !== undefined ? budget.mass - predicted : Infinity;
  return { row, mass: sides * (predicted ?? 0), margin, spread };
}

const nothing = { rows: [], more: undefined };

function inside(assembly: Assembly, order: Order, unit: Unit) {
  const members = assembly.members.flatMap(it => named(it)?.member ?? []);
  const all = members.map(known[order]).sort(by[order]);
  const isPart = ({ row }: Weighed) => row.kind === "part";
  const shownParts = new Set(all.filter(isPart).slice(0, MOST_PARTS));
  const left = new Set(all.filter(it => isPart(it) && !shownParts.has(it)));
  const rows = all.filter(it => !left.has(it)).map(it => it.row);
  const mass = [...left].reduce((sum, it) => sum + it.mass, 0);
  return {
    rows,
    more: left.size === 0 ? undefined : { count: left.size, predicted: show(mass, unit) },
  };
}

/** Equal ones stay as they are written. */
const by: Record<Order, (a: Weighed, b: Weighed) => number> = {
  mass: (a, b) => b.mass - a.mass,
  margin: (a, b) => (a.margin === b.margin ? b.mass - a.mass : a.margin - b.margin),
  spread: (a, b) => b.spread - a.spread || b.mass - a.mass,
  written: () => 0,
};

function named(member: Member): Named | undefined {
  const title = member.head.title?.text ?? member.name;
  switch (member.kind) {
    case "reserve":
      return { kind: "reserve", member, title };
    case "assembly":
    case "part":
    case "ballast": {
      const kind = member.kind === "assembly" ? "assembly" : "part";
      return { kind, member, title: member.side ? `${title}, ${member.side}` : title };
    }
    default:
      return undefined;
  }
}

function budgeted(
  basic: number | undefined,
  predicted: number | undefined,
  budget: number,
  unit: Unit,
): Budgeted {
  const [is, willBe] = [basic ?? 0, predicted ?? 0];
  const shares = { basicShare: share(is, budget), predictedShare: share(willBe, budget) };
  const verdict = exceeds(is, budget) ? "over" : exceeds(willBe, budget) ? "at-risk" : "within";
  // one rule of rounding for all three, and that of the findings
  const shown = over(verdict === "over" ? is : willBe, budget, unit);
  return { budget: shown.limit, verdict, by: shown.by, ...shares };
}

function share(mass: number, budget: number): number {
  if (budget > 0) return mass / budget;
  return mass > 0 ? 1 : 0;
}

/** kg of one side, one standard deviation. */
function spreadOf(member: Named["member"]): number {
  if (member.kind === "assembly") return deviationOf(member).mass;
  return member.kind === "reserve" ? 0 : deviationOfPiece(member) * member.qty;
}

function guessedIn(member: Named["member"]): number {
  if (member.kind === "reserve") return 0;
  if (member.kind !== "assembly") return isGuess(member) ? 1 : 0;
  const shares = sharesOf(member);
  const all = Object.values(shares).reduce((sum, it) => sum + it, 0);
  return all === 0 ? 0 : shares.estimated / all;
}

const isGuess = ({ governing }: Part) => governing?.basis === "estimated";

const unitOf = (member: Named["member"]): Unit =>
  member.kind === "assembly" ? member.core.units.mass : member.unit;
