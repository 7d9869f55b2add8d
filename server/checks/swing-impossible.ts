import { swingTurn } from "../compute/moved";
import type { Check } from "./check";

export const swingImpossible: Check = {
  code: "swing-impossible",
  severity: "error",
  explain:
    "The word behind a swing says which way the assembly's CG sets off, and about this hinge it cannot set off that way. The hinge, its axis or the word is wrong; until then no loading is judged with it swung.",
  example: `
aircraft kite { units lb, in }
assembly leg swing 90 deg inboard about BL at FS 40, WL 10 {
//           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[swing-impossible]: about this hinge leg cannot set off inboard
  part wheel weighed 8 lb at FS 40, BL 12, WL -14
}
part airframe weighed 900 lb at FS 100
`,

  *member(member) {
    if (member.kind !== "assembly" || member.swing === undefined) return;
    const turn = swingTurn(member);
    if (turn && "impossible" in turn) yield { at: member.swing.clause, message: turn.impossible };
  },
};
