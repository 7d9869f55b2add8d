import { allLoadingsOf } from "../compute/all-loadings";
import { aboardText, exampleText, premisesOf, worstAboard, worstSentence } from "./all-loadings";
import type { Check } from "./check";

export const loadingCanExceed: Check = {
  code: "loading-can-exceed",
  severity: "warning",
  explain:
    "A loading that every range, limit and weight permits is outside the envelope. Every seat and bay may hold anything in its range (the least included), every tank anything from unusable to full, in every configuration that flies, with the basic empty weight. The finding shows the worst such loading, the premises, and the fewest items that still are outside. A range, a `limit` or a row of the envelope that says more removes it.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
seat pilot at FS 90 range 110 lb .. 250 lb
bay baggage at FS 140 range 0 lb .. 100 lb
envelope normal {
//       ^^^^^^ warning[loading-can-exceed]: a permitted loading has its CG at FS 102.6 in (1,110 lb), 0.6 in aft of the aft limit of 102 in
  takeoff 1250 lb
  cg 900 lb: FS 95 .. 102
  cg 1250 lb: FS 95 .. 102
}
`,

  *root(root) {
    for (const { envelope, found } of allLoadingsOf(root)) {
      const [worst, ...others] = found;
      if (worst === undefined) continue;
      const aboard = worstAboard(worst);
      const { head } = envelope.item;
      const at = ("name" in head && head.name) || head;
      yield {
        at,
        message: worstSentence(worst, envelope),
        related: [
          ...(aboard ? [{ at: worst.worst.breach.clause, message: aboard }] : []),
          { at: worst.worst.breach.clause, message: exampleText(worst, envelope) },
          ...others.map(it => ({
            at: it.worst.breach.clause,
            message: `${worstSentence(it, envelope)}, ${aboardText(it)}`,
          })),
          { at, message: premisesOf(root, envelope) },
        ],
      };
    }
  },
};
