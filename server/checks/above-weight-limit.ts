import { breachCheck } from "./envelope-breach";

export const aboveWeightLimit = breachCheck({
  code: "above-weight-limit",
  explain:
    "A loading weighs more than its envelope allows in that state: at the ramp, at takeoff, landing or zero fuel, or than the heaviest row of its CG limits.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
seat pilot at FS 90
bay baggage at FS 140
envelope normal {
  takeoff 1150 lb
  cg 800 lb: FS 95 .. 102
  cg 1200 lb: FS 95 .. 102
}
loading heavy under normal {
//      ^^^^^ error[above-weight-limit]: heavy at takeoff weighs 1,220 lb, 70 lb over the takeoff weight of 1,150 lb (normal)
  pilot 220 lb
  baggage 100 lb
}
`,
});
