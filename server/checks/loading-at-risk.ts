import { flightsOf } from "../compute/flights";
import type { Check } from "./check";
import { outside, relatedTo, sentence, worstOf } from "./envelope-breach";

export const loadingAtRisk: Check = {
  code: "loading-at-risk",
  severity: "warning",
  explain:
    "A loading is inside its envelope with the masses as they stand, and outside once growth and reserves are in: at some stage, or on the way through a burn or release.",
  example: `
aircraft kite { units lb, in, gal growth calculated 10% }
part airframe calculated 900 lb at FS 100
seat pilot at FS 90
bay baggage at FS 140
envelope normal {
  takeoff 1150 lb
  cg 800 lb: FS 95 .. 102
  cg 1200 lb: FS 95 .. 102
}
loading two under normal {
//      ^^^ warning[loading-at-risk]: outside once growth is in: two at takeoff weighs 1,210 lb, 60 lb over the takeoff weight of 1,150 lb (normal)
  pilot 220 lb
}
`,

  *root(root) {
    for (const flight of flightsOf(root)) {
      if (outside(flight, "basic").length > 0) continue;
      const places = outside(flight, "predicted");
      const first = places[0]?.breach.code;
      const worst = worstOf(places.filter(it => it.breach.code === first));
      if (worst === undefined) continue;
      yield {
        at: flight.loading.at,
        message: `outside once growth is in: ${sentence(flight, worst, root, "predicted")}`,
        related: relatedTo(worst, places, root),
        subject: flight.loading.name,
      };
    }
  },
};
