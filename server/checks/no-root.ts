import type { Check } from "./check";

export const noRoot: Check = {
  code: "no-root",
  severity: "info",
  explain:
    "No aircraft reaches this file: no `include` leads to it from a file with an `aircraft` block. It is read for faults in its text, and its masses count nowhere.",
  example: `
part spar calculated 20 lb at FS 120
//^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[no-root]: no aircraft reaches this file: its masses count nowhere
`,
};
