import { breachCheck } from "./envelope-breach";

export const belowWeightLimit = breachCheck({
  code: "below-weight-limit",
  explain:
    "A loading is, at some stage or on the way through a burn or release, lighter than the lightest row of its envelope's CG limits: below that row nothing is allowed. It is not said of the zero-fuel state.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
seat pilot at FS 90
bay baggage at FS 140
envelope normal {
  takeoff 1150 lb
  cg 980 lb: FS 95 .. 102
  cg 1200 lb: FS 95 .. 102
}
loading light under normal {
//      ^^^^^ error[below-weight-limit]: light at takeoff weighs 960 lb, 20 lb under the lightest weight of 980 lb (normal)
  pilot 60 lb
}
`,
});
