import type { Check } from "./check";

export const rowsOutOfOrder: Check = {
  code: "rows-out-of-order",
  severity: "error",
  explain:
    "The rows of an envelope or of a tank do not follow each other, or the first or last row lacks a limit.",
  example: `
envelope normal {
  cg 1200 lb: FS 95 .. 102
  cg 800 lb: FS 95 .. 102
//^^^^^^^^^^^^^^^^^^^^^^^ error[rows-out-of-order]: rows stand in the order of weight, lightest first
}
`,
};
