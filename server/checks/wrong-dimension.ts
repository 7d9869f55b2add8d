import type { Check } from "./check";

export const wrongDimension: Check = {
  code: "wrong-dimension",
  severity: "error",
  explain:
    "Quantities of different dimensions are added or compared, or a figure is of another dimension than its place wants.",
  example: `
part spar calculated 20 lb + 3 in at FS 120
//                         ^ error[wrong-dimension]: a mass and a length cannot be added
`,
};
