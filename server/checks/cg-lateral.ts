import { breachCheck } from "./envelope-breach";

export const cgLateral = breachCheck({
  code: "cg-lateral",
  explain:
    "At some stage of a loading, or on the way through a burn or release, the CG lies further left or right than the envelope's lateral limit.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
seat pilot at FS 90, BL -12
bay baggage at FS 140
envelope normal {
  takeoff 1150 lb
  cg 800 lb: FS 90 .. 102
  cg 1200 lb: FS 90 .. 102
  lateral BL -1 .. 1
}
loading solo under normal {
//      ^^^^ error[cg-lateral]: solo at takeoff (1,100 lb) has its CG at BL -2.18 in, 1.18 in outside the left limit of -1 in (normal)
  pilot 200 lb
}
`,
});
