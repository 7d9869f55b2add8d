import type { Check } from "./check";

export const outOfRange: Check = {
  code: "out-of-range",
  severity: "error",
  explain:
    "An amount lies outside the range of its seat or bay, is more than its tank holds, or a figure is outside what it can be.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
seat pilot at FS 90 range 0 lb .. 250 lb
bay baggage at FS 140 range 0 lb .. 100 lb
loading solo {
  pilot 300 lb
//      ^^^^^^ error[out-of-range]: this is outside the range of pilot
}
`,
};
