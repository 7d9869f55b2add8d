import { oneSide, predictedBalance } from "../compute/weight";
import type { Member } from "../model/assembly";
import { exceeds } from "../quantity/compare";
import type { Check } from "./check";
import { basicMass, heaviest } from "./over-budget";
import { over } from "./show";

export const budgetAtRisk: Check = {
  code: "budget-at-risk",
  severity: "warning",
  explain:
    "An assembly or a part is within its budget today, and is over it once growth and reserves are in: the masses it rests on are not mature enough for what is left.",
  example: `
assembly wing budget 40 lb growth calculated 10% {
//                   ^^^^^ warning[budget-at-risk]: wing is predicted at 42.9 lb, 2.9 lb over its budget of 40 lb once growth and reserves are in
  part spar calculated 39 lb at FS 120
}
`,

  *member(member) {
    if (!("budget" in member) || member.budget === undefined) return;
    const { mass: limit, unit, at } = member.budget;
    const [basic, predicted] = [basicMass(member), predictedMass(member)];
    if (basic === undefined || predicted === undefined) return;
    if (exceeds(basic, limit) || !exceeds(predicted, limit)) return;
    const shown = over(predicted, limit, unit);
    const who = member.name || "the aircraft";
    yield {
      at,
      message: `${who} is predicted at ${shown.is}, ${shown.by} over its budget of ${shown.limit} once growth and reserves are in`,
      related: member.kind === "assembly" ? heaviest(member) : [],
      subject: member.path,
    };
  },
};

/** kg of one side, growth and reserves in. */
export function predictedMass(member: Member): number | undefined {
  if (member.kind === "assembly") return predictedBalance(oneSide(member)).mass;
  if (member.kind !== "part" && member.kind !== "ballast") return undefined;
  return member.mass === undefined ? undefined : member.mass + member.growth;
}
