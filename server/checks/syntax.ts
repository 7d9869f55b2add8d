import type { Check } from "./check";

export const syntax: Check = {
  code: "syntax",
  severity: "error",
  explain:
    "The text does not follow the grammar at this place, or a statement lacks a part it cannot do without. Everything else on the line and in the file still counts.",
  example: `
part bracket calculated 2 lb at FS 124 pn
//                                     ^^ error[syntax]: pn needs a text in quotes
`,
};
