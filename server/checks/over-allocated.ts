import { memo } from "../memo";
import type { Assembly, Member } from "../model/assembly";
import { exceeds } from "../quantity/compare";
import { predictedMass } from "./budget-at-risk";
import type { Check } from "./check";
import { over } from "./show";

export const overAllocated: Check = {
  code: "over-allocated",
  severity: "warning",
  explain:
    "The budgets given out inside an assembly, the predicted masses of what has none, and its reserves come to more than its own budget. Of something mirrored inside, both sides count.",
  example: `
assembly wing budget 40 lb {
//                   ^^^^^ warning[over-allocated]: the budgets inside wing come to 44 lb, 4 lb over its own of 40 lb
  assembly left_panel budget 22 lb { part spar calculated 12 lb at FS 120 }
  assembly right_panel budget 22 lb { part spar calculated 12 lb at FS 120 }
}
`,

  *member(member) {
    if (member.kind !== "assembly" || member.budget === undefined || !hasBudgets(member)) return;
    const { mass: limit, unit, at } = member.budget;
    const given = member.members.reduce((sum, it) => sum + allocated(it), 0);
    if (!exceeds(given, limit)) return;
    const shown = over(given, limit, unit);
    const who = member.name || "the aircraft";
    yield {
      at,
      message: `the budgets inside ${who} come to ${shown.is}, ${shown.by} over its own of ${shown.limit}`,
      related: member.members.flatMap(it =>
        "budget" in it && it.budget
          ? [{ at: it.budget.at, message: `the budget of ${it.name}` }]
          : [],
      ),
      subject: member.path,
    };
  },
};

const hasBudgets = (member: Member) => member.kind === "assembly" && budgetsInside(member);

const budgetsInside: (assembly: Assembly) => boolean = memo((assembly: Assembly): boolean =>
  assembly.members.some(it => ("budget" in it && it.budget !== undefined) || hasBudgets(it)),
);

function allocated(member: Member): number {
  if (member.kind === "reserve") return member.mass ?? 0;
  if (!("budget" in member)) return 0;
  const sides = member.mirrored ? 2 : 1;
  if (member.budget) return sides * member.budget.mass;
  if (hasBudgets(member) && member.kind === "assembly")
    return sides * member.members.reduce((sum, it) => sum + allocated(it), 0);
  return sides * (predictedMass(member) ?? 0);
}
