import type { Check } from "./check";

export const includeLoop: Check = {
  code: "include-loop",
  severity: "error",
  explain: "Files include each other in a circle. Each is still read once.",
  example: `
include "example.poise"
//      ^^^^^^^^^^^^^^^ error[include-loop]: these files include each other: example.poise → example.poise
part spar calculated 20 lb at FS 120
`,
};
