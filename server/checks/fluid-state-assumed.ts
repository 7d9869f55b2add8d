import { weighingsOf } from "../compute/weighing";
import type { Check } from "./check";

export const fluidStateAssumed: Check = {
  code: "fluid-state-assumed",
  severity: "warning",
  explain:
    "A weighing does not say what was in a tank. It is taken as drained, with what cannot be used left in: if there was more, the airframe is lighter than this weighing makes it. Write what was in it: aboard, the tank and the amount.",
  example: `
aircraft kite { units lb, in, gal }
part hull weighed 900 lb at FS 100
fluid mogas 6 lb/gal
tank main holds 20 gal of mogas unusable 1 gal at FS 110
airframe sn001 serial 1 { }
weighing first of sn001 on 2026-11-12 {
//       ^^^^^ warning[fluid-state-assumed]: sn001: no line says what was in main: taken as drained, what cannot be used left in
  scale front at FS 60 reads 196 lb
  scale rear at FS 111 reads 710 lb
}
`,

  *root({ rolledUp }) {
    for (const { at, assumed } of rolledUp ? weighingsOf(rolledUp) : [])
      if (assumed.length > 0)
        yield {
          at,
          message: `no line says what was in ${assumed.join(", ")}: taken as drained, what cannot be used left in`,
        };
  },
};
