import { clausesOf } from "../model/clauses";
import type { Check } from "./check";

export const noCgLimits: Check = {
  code: "no-cg-limits",
  severity: "warning",
  explain:
    "An envelope says nothing about the CG along FS: with lateral limits or weights alone it forbids what they forbid, and no loading is known to be inside it. Its limits are rows such as `cg 1150 lb: FS 124.2 .. 134.0`.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
seat pilot at FS 90 range 100 lb .. 250 lb
envelope normal {
//       ^^^^^^ warning[no-cg-limits]: normal has no CG limits: no loading is known to be inside it
  takeoff 1200 lb
}
loading solo under normal { pilot 180 lb }
`,

  *root(root) {
    for (const envelope of root.envelopes) {
      const { item, broken, name } = envelope;
      // a limit that could not be read was said to be wrong where it stands
      const tried = broken && clausesOf(item).some(it => it.kind === "cg");
      if (envelope.rows.length > 0 || tried) continue;
      yield {
        at: "name" in item.head && item.head.name ? item.head.name : item.head,
        message: `${name || "this envelope"} has no CG limits: no loading is known to be inside it`,
      };
    }
  },
};
