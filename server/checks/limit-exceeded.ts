import type { Span } from "../../grammar/tree";
import { flightsOf } from "../compute/flights";
import { collector } from "../model/fault";
import { massOf } from "../model/figures";
import { spotAt } from "../model/loading";
import { noSums } from "../model/part";
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
    const quiet = collector();
    const setting = { scope: root.scope, report: quiet.report, ask: noSums(quiet.report) };
    for (const limit of root.statements.limits) {
      const most = massOf(limit.amount, "a limit", setting);
      if (most === undefined) continue;
      const spots = limit.of.flatMap(path => spotAt(path, root, setting) ?? []);
      for (const { loading } of flightsOf(root)) {
        let mass = 0;
        for (const load of loading.loads)
          for (const spot of spots)
            if (
              spot.station === load.station &&
              (!spot.side || !load.side || spot.side === load.side)
            )
              mass += load.mass * (load.station.mirrored && !load.side && !spot.side ? 2 : 1);
        if (!exceeds(mass, most.value)) continue;
        const shown = over(mass, most.value, most.unit ?? root.units.mass);
        const names = limit.of.map(path => path.text);
        const list =
          names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : names[0];
        const at: Span = loading.at;
        yield {
          at,
          message: `${loading.name} puts ${shown.is} into ${list}, ${shown.by} over the limit of ${shown.limit}`,
          related: [
            { at: limit, message: limit.why ? `the limit: ${limit.why.text}` : "the limit" },
          ],
          subject: loading.name,
        };
      }
    }
  },
};
