import type { Check } from "./check";
import { brokenBy, requirementsOf } from "./requirement";

export const requirementAtRisk: Check = {
  code: "requirement-at-risk",
  severity: "warning",
  explain:
    "A requirement holds with the masses as they stand, and does not once growth and reserves are in.",
  example: `
aircraft kite { units lb, in growth calculated 10% }
part airframe calculated 900 lb at FS 100
require mass(airframe) <= 950 lb "promised in the brochure"
//      ^^^^^^^^^^^^^^^^^^^^^^^^ warning[requirement-at-risk]: 990 lb is not <= 950 lb once growth and reserves are in: promised in the brochure
`,

  *root(root) {
    for (const { basic, predicted } of requirementsOf(root)) {
      if (!(basic.holds !== false && predicted.holds === false)) continue;
      yield { ...brokenBy(predicted, " once growth and reserves are in"), subject: predicted.text };
    }
  },
};
