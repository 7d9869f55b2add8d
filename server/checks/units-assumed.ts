import { clauseOf, clausesOf } from "../model/clauses";
import type { Check } from "./check";

export const unitsAssumed: Check = {
  code: "units-assumed",
  severity: "warning",
  explain:
    "The aircraft does not say what its drawing is in: a bare number after FS, BL or WL is taken in metres. Write a `units` line, such as `units kg, mm, L` or `units lb, in, gal`.",
  example: `
aircraft kite { budget 50 lb }
//       ^^^^ warning[units-assumed]: no units are said: a bare FS, BL or WL is in m; say units kg, mm, L or units lb, in, gal
part spar calculated 20 lb at FS 2
`,

  *root({ aircraft, lengthAssumed, airframe }) {
    // what nothing lies in needs no units yet
    if (!lengthAssumed || airframe || aircraft.members.length === 0) return;
    const clause = clauseOf(clausesOf(aircraft.item), "units");
    const what = clause ? "the units name no length" : "no units are said";
    const say = clause
      ? "say it there, such as in or mm"
      : "say units kg, mm, L or units lb, in, gal";
    yield {
      at: clause ?? aircraft.head.path ?? aircraft.head,
      message: `${what}: a bare FS, BL or WL is in m; ${say}`,
    };
  },
};
