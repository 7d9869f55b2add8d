import type { Span } from "../../grammar/tree";
import { memo } from "../memo";
import type { Assembly, Member } from "../model/assembly";
import { exceeds } from "../quantity/compare";
import { show } from "../quantity/show";
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
    const items = member.members.flatMap(allocations);
    const given = items.reduce((sum, it) => sum + it.mass, 0);
    if (!exceeds(given, limit)) return;
    const shown = over(given, limit, unit);
    const who = member.name || "the aircraft";
    yield {
      at,
      message: `the budgets inside ${who} come to ${shown.is}, ${shown.by} over its own of ${shown.limit}`,
      related: told(items, at).map(({ at, what, mass }) => ({
        at,
        message: `${what} ${show(mass, unit)}`,
      })),
      subject: member.path,
    };
  },
};

const hasBudgets = (member: Member) => member.kind === "assembly" && budgetsInside(member);

const budgetsInside: (assembly: Assembly) => boolean = memo((assembly: Assembly): boolean =>
  assembly.members.some(it => ("budget" in it && it.budget !== undefined) || hasBudgets(it)),
);

/** What has no budget of its own is told by the heaviest few and the rest of it in one. */
function told(items: readonly Allocation[], at: Span): readonly Allocation[] {
  const heavy = items.filter(it => !it.isBudget && it.mass > 0).sort((a, b) => b.mass - a.mass);
  const named = new Set(heavy.length > FEW + 1 ? heavy.slice(0, FEW) : heavy);
  const others = heavy.filter(it => !named.has(it));
  const rest = others.reduce((sum, it) => sum + it.mass, 0);
  return [
    ...items.filter(it => it.isBudget || named.has(it)),
    ...(others.length > 0
      ? [{ at, what: `${others.length} more without a budget are`, mass: rest, isBudget: false }]
      : []),
  ];
}

const FEW = 5;

interface Allocation {
  readonly at: Span;
  readonly what: string;
  /** kg, of both sides. */
  readonly mass: number;
  readonly isBudget: boolean;
}

function allocations(member: Member): readonly Allocation[] {
  const at = member.head.path ?? member.head;
  if (member.kind === "reserve")
    return [{ at, what: `the reserve ${member.path}`, mass: member.mass ?? 0, isBudget: true }];
  if (!("budget" in member)) return [];
  const sides = member.mirrored ? 2 : 1;
  const both = member.mirrored ? ", both sides," : "";
  if (member.budget)
    return [
      {
        at: member.budget.at,
        what: `the budget of ${member.path}${both}`,
        mass: sides * member.budget.mass,
        isBudget: true,
      },
    ];
  if (hasBudgets(member) && member.kind === "assembly")
    return member.members.flatMap(allocations).map(it => ({ ...it, mass: sides * it.mass }));
  const mass = sides * (predictedMass(member) ?? 0);
  return [
    {
      at,
      what: `${member.path} has no budget and is predicted${both} to weigh`,
      mass,
      isBudget: false,
    },
  ];
}
