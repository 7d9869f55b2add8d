import type { Check } from "./check";

export const waiverUnused: Check = {
  code: "waiver-unused",
  severity: "warning",
  explain:
    "A `waive` accepts a finding that is not there: it was mended, the waiver names it wrongly, or it is one that is not waived.",
  example: `
aircraft kite { units lb, in }
part airframe weighed 900 lb at FS 100
waive over-budget of airframe "accepted for the prototype"
//    ^^^^^^^^^^^ warning[waiver-unused]: there is no over-budget of airframe to waive
`,
};
