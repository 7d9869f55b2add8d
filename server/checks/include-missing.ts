import type { Check } from "./check";

export const includeMissing: Check = {
  code: "include-missing",
  severity: "error",
  explain: "An include names a file that is not there, or one that is not text.",
  example: `
include "wing.poise"
//      ^^^^^^^^^^^^ error[include-missing]: there is no file wing.poise
part spar calculated 20 lb at FS 120
`,
};
