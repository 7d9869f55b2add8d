import { weighingsOf } from "../compute/weighing";
import { show } from "../quantity/show";
import type { Check } from "./check";

export const oneStation: Check = {
  code: "one-station",
  severity: "info",
  explain:
    "All scales of a weighing stand at one station: that gives the weight, and no CG. That station is taken as the CG; a second weighing on points apart measures it.",
  example: `
aircraft kite { units lb, in }
part hull weighed 900 lb at FS 100
airframe sn001 serial 1 { }
weighing first of sn001 on 2026-11-12 {
//       ^^^^^ info[one-station]: sn001: all scales stand at FS 100 in: this weighing measures no CG, and that station is taken
  scale hook at FS 100 reads 900 lb
}
`,

  *root({ rolledUp, units }) {
    for (const { at, oneStation } of rolledUp ? weighingsOf(rolledUp) : [])
      if (oneStation !== undefined)
        yield {
          at,
          message: `all scales stand at FS ${show(oneStation, units.length)}: this weighing measures no CG, and that station is taken`,
        };
  },
};
