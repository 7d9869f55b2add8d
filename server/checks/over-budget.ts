import { basicBalance, massOfMember, oneSide } from "../compute/weight";
import type { Related } from "../findings";
import type { Assembly, Member } from "../model/assembly";
import { exceeds } from "../quantity/compare";
import { show } from "../quantity/show";
import type { Check } from "./check";
import { over } from "./show";

/** A budget is broken by basic masses alone: growth to come has a warning of its own. */
export const overBudget: Check = {
  code: "over-budget",
  severity: "error",
  explain:
    "An assembly or a part weighs more than the budget written on it, growth and reserves not counted. The heaviest things in it are named beside the finding. Of something mirrored, the budget and the figure are of one side.",
  example: `
assembly wing budget 40 lb {
//                   ^^^^^ error[over-budget]: wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb
  part spar calculated 30 lb at FS 120
  part skin calculated 12.5 lb at FS 125
}
`,

  *member(member) {
    if (!("budget" in member) || member.budget === undefined) return;
    const { mass: limit, unit, at } = member.budget;
    const mass = basicMass(member);
    if (mass === undefined || !exceeds(mass, limit)) return;
    const shown = over(mass, limit, unit);
    yield {
      at,
      message: `${member.name || "the aircraft"} weighs ${shown.is}, ${shown.by} over its budget of ${shown.limit}`,
      related: member.kind === "assembly" ? heaviest(member) : [],
      subject: member.path,
    };
  },
};

/** kg of one side, as budgets are; undefined where nothing is known. */
export function basicMass(member: Member): number | undefined {
  if (member.kind === "assembly") return basicBalance(oneSide(member)).mass;
  return member.kind === "part" || member.kind === "ballast" ? member.mass : undefined;
}

/** The three heaviest things directly in an assembly, each where it is declared. */
export function heaviest(assembly: Assembly): readonly Related[] {
  return assembly.members
    .map(member => ({ member, mass: massOfMember(member) }))
    .filter(({ mass }) => mass > 0)
    .sort((a, b) => b.mass - a.mass)
    .slice(0, 3)
    .map(({ member, mass }) => ({
      at: member.head.path ?? member.head,
      message: `${member.name} weighs ${show(mass, assembly.budget?.unit ?? assembly.core.units.mass)}`,
    }));
}
