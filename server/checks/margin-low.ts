import { exceeds } from "../quantity/compare";
import { show, showNumber } from "../quantity/show";
import { predictedMass } from "./budget-at-risk";
import type { Check } from "./check";

export const marginLow: Check = {
  code: "margin-low",
  severity: "info",
  explain:
    "The predicted mass fits the budget, and less is left than the margin asked for on the same line. The percentage is of the budget.",
  example: `
assembly wing budget 40 lb margin 5% {
//                   ^^^^^ info[margin-low]: wing has 1 lb left, 2.5 % of its budget; 5 % is asked for
  part spar calculated 39 lb at FS 120
}
`,

  *member(member) {
    if (!("budget" in member) || member.budget?.margin === undefined) return;
    const { mass: limit, unit, at, margin } = member.budget;
    const predicted = predictedMass(member);
    if (predicted === undefined || limit === 0 || exceeds(predicted, limit)) return;
    const left = limit - predicted;
    if (!exceeds(margin * limit, left)) return;
    const percent = (x: number) => `${showNumber(100 * x)} %`;
    yield {
      at,
      message: `${member.name || "the aircraft"} has ${show(left, unit)} left, ${percent(left / limit)} of its budget; ${percent(margin)} is asked for`,
      subject: member.path,
    };
  },
};
