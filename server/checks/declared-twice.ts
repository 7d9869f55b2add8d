import type { Check } from "./check";

export const declaredTwice: Check = {
  code: "declared-twice",
  severity: "error",
  explain:
    "Two things have the same name at the same level, a clause that may stand once stands in a declaration again, or a let is called like a word of the language.",
  example: `
part spar calculated 20 lb at FS 120
part spar calculated 22 lb at FS 121
//   ^^^^ error[declared-twice]: spar is declared twice
`,
};
