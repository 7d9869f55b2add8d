import type { Check } from "./check";

export const unitMissing: Check = {
  code: "unit-missing",
  severity: "error",
  explain:
    "A mass, a volume or another quantity stands without its unit. Only a number after FS, BL or WL may do so.",
  example: `
part spar calculated 20 at FS 120
//                   ^^ error[unit-missing]: this mass needs its unit
`,
};
