import type { Check } from "./check";

export const includeOutside: Check = {
  code: "include-outside",
  severity: "error",
  explain:
    "An include leads out of the workspace folder, where a review would not see what changes.",
  example: `
include "../elsewhere/wing.poise"
//      ^^^^^^^^^^^^^^^^^^^^^^^^^ error[include-outside]: ../elsewhere/wing.poise leads out of the workspace folder
part spar calculated 20 lb at FS 120
`,
};
