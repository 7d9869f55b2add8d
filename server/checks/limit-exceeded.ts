import { loaded } from "../compute/contents";
import { flightsOf } from "../compute/flights";
import { heldIn, loadLimitsOf } from "../compute/load-limits";
import { exceeds } from "../quantity/compare";
import type { Check } from "./check";
import { over } from "./show";

export const limitExceeded: Check = {
  code: "limit-exceeded",
  severity: "error",
  explain:
    "A loading puts more into the places a `limit` names than it allows together, at the ramp, both sides counted.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
seat pilot at FS 90 range 0 lb .. 250 lb
bay baggage at FS 140 range 0 lb .. 100 lb
bay nose at FS 30 range 0 lb .. 40 lb
limit 110 lb of baggage, nose "floor test"
loading full {
//      ^^^^ error[limit-exceeded]: full puts 130 lb into baggage and nose, 20 lb over the limit of 110 lb
  baggage 100 lb
  nose 30 lb
}
`,

  *root(root) {
    const { limits } = loadLimitsOf(root);
    if (limits.length === 0) return;
    for (const { loading } of flightsOf(root)) {
      const atRamp = loaded(loading.loads, root);
      for (const limit of limits) {
        if (limit.under && !loading.envelopes.includes(limit.under)) continue;
        const mass = heldIn(atRamp, limit);
        if (!exceeds(mass, limit.most)) continue;
        const { statement, under, unit } = limit;
        const shown = over(mass, limit.most, unit);
        const names = statement.of.map(path => path.text);
        const list =
          names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : names[0];
        const where = under?.name ? ` (${under.name})` : "";
        yield {
          at: loading.at,
          message: `${loading.name} puts ${shown.is} into ${list}, ${shown.by} over the limit of ${shown.limit}${where}`,
          related: [
            {
              at: statement,
              message: statement.why ? `the limit: ${statement.why.text}` : "the limit",
            },
          ],
          subject: loading.name,
        };
      }
    }
  },
};
