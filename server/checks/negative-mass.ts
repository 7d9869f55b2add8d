import type { Check } from "./check";

export const negativeMass: Check = {
  code: "negative-mass",
  severity: "error",
  explain:
    "A mass or an amount is below zero.",
  example: `
part spar calculated 2 lb - 3 lb at FS 120
//                   ^^^^^^^^^^^ error[negative-mass]: this mass is negative
`,
};
