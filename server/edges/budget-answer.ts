import type { Range } from "vscode-languageserver";
import { rootWith } from "../features/place";
import { type JudgedRoot, judge } from "../judge";
import type { Project } from "../project";
import { type BudgetRow, budgetTree, type Order, orders } from "../views/budget";
import { rangeOf } from "./to-lsp";
import { pathOf, uriOf } from "./uris";

/** What an editor asks: the aircraft with a key, else the one a document belongs to, else the first. */
export interface BudgetQuestion {
  readonly root?: string;
  readonly uri?: string;
  readonly order?: string;
}

export interface BudgetAnswer {
  /** Every design, and every airframe of it. */
  readonly roots: readonly {
    readonly key: string;
    readonly title: string;
    readonly airframe: string | null;
    /** Basic, with unusable and operating fluids; as weighed where the airframe was. */
    readonly emptyWeight: string;
  }[];
  /** The key of the one that is shown; null where there is none. */
  readonly shown: string | null;
  readonly tree: BudgetEntry | null;
}

/** A row, and where in the files it stands. */
export interface BudgetEntry extends Omit<BudgetRow, "at" | "whole" | "inside"> {
  readonly uri: string;
  /** Of its name. */
  readonly range: Range;
  /** Of all of it. */
  readonly whole: Range;
  readonly inside: readonly BudgetEntry[];
}

export function budgetAnswer(project: Project, question: BudgetQuestion): BudgetAnswer {
  const { roots } = judge(project);
  const own = question.uri === undefined ? undefined : rootWith(project, pathOf(question.uri));
  const shown =
    roots.find(it => keyOf(it) === question.root) ?? roots.find(it => it.root === own) ?? roots[0];
  const order = orders.find(it => it === question.order) ?? "mass";
  return {
    roots: roots.map(it => ({
      key: keyOf(it),
      title: it.root.title ?? it.name,
      airframe: it.airframe === undefined ? null : (it.root.airframe?.title ?? it.airframe),
      emptyWeight: it.emptyWeight,
    })),
    shown: shown ? keyOf(shown) : null,
    tree: shown ? treeOf(project, shown, order) : null,
  };
}

function keyOf({ root, airframe }: JudgedRoot): string {
  return `${uriOf(root.reach.file)}#${airframe ?? ""}`;
}

function treeOf(project: Project, { root }: JudgedRoot, order: Order): BudgetEntry {
  const entry = ({ at, whole: [first, last], inside, ...row }: BudgetRow): BudgetEntry => ({
    ...row,
    uri: uriOf(at.line.file),
    range: rangeOf(project, at),
    whole: { start: rangeOf(project, first).start, end: rangeOf(project, last).end },
    inside: inside.map(entry),
  });
  return entry(budgetTree(root, order));
}
