import type { Check } from "./check";

export const waiverExpired: Check = {
  code: "waiver-expired",
  severity: "warning",
  explain: "A `waive` is past its date: the finding counts again.",
  example: `
aircraft kite { units lb, in }
part airframe budget 880 lb weighed 900 lb at FS 100
//                   ^^^^^^ error[over-budget]: airframe weighs 900 lb, 20 lb over its budget of 880 lb
waive over-budget of airframe until 2020-01-31 "accepted for the prototype"
//                                  ^^^^^^^^^^ warning[waiver-expired]: this waiver ended on 2020-01-31
`,
};
