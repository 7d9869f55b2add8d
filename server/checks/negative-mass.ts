import type { Check } from "./check";

export const negativeMass: Check = {
  code: "negative-mass",
  severity: "error",
  explain:
    "A mass or an amount is below zero: what is taken away is removed, not written with a minus.",
  example: `
part spar calculated 2 lb - 3 lb at FS 120
//                   ^^^^^^^^^^^ error[negative-mass]: this mass is negative
`,
};
