import type { Check } from "./check";
import { brokenBy, requirementsOf } from "./requirement";

export const requirementFailed: Check = {
  code: "requirement-failed",
  severity: "error",
  explain:
    "A requirement does not hold. Both sides are shown; the text behind it says why it is there.",
  example: `
aircraft kite { units lb, in }
part airframe weighed 900 lb at FS 100
require mass(airframe) <= 880 lb "promised in the brochure"
//      ^^^^^^^^^^^^^^^^^^^^^^^^ error[requirement-failed]: 900 lb is not <= 880 lb: promised in the brochure
`,

  *root(root) {
    for (const { basic } of requirementsOf(root)) {
      if (!(basic.holds === false)) continue;
      yield { ...brokenBy(basic), subject: basic.text };
    }
  },
};
