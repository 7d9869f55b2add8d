import type { Budget } from "../../model/asked";
import type { Root } from "../../model/root";
import { exceeds } from "../../quantity/compare";
import { show } from "../../quantity/show";
import { massText, percent } from "./figures";
import type { Step } from "./lines";

/** What may be spent, what is left of it, and what was asked to be left; masses in kg. */
export function budgetSteps(
  root: Root,
  budget: Budget | undefined,
  basic: number,
  predicted: number,
  floor: boolean,
): readonly Step[] {
  if (budget === undefined) return [];
  const left = budget.mass - predicted;
  const share = budget.mass === 0 ? "" : `, ${percent(left / budget.mass)} of the budget`;
  const same = budget.unit.name === root.units.mass.name;
  const written = show(budget.mass, budget.unit);
  const [most, spent] = [massText(root, budget.mass), massText(root, predicted)];
  const over = exceeds(basic, budget.mass)
    ? "basic"
    : exceeds(predicted, budget.mass)
      ? "predicted"
      : "";
  return [
    ["budget", same ? written : `${written} = ${most}`, budget.at],
    ["margin", `${most} − ${spent} = ${massText(root, left)}${share}`],
    ...(budget.margin === undefined
      ? []
      : [["asked", `${percent(budget.margin)} of the budget`, budget.at] as const]),
    ...(over ? [["over", `${over} exceeds the budget`] as const] : []),
    ...(floor ? [["at most", "something in it has no mass: less is left than this"] as const] : []),
  ];
}
