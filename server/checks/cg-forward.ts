import { breachCheck } from "./envelope-breach";

export const cgForward = breachCheck({
  code: "cg-forward",
  explain:
    "At some stage of a loading, or on the way through a burn or release, the CG lies forward of the envelope's limit at that weight. The finding stands on the loading and says where it is worst and by how much; the row it breaks is beside it, and on a burn the place where it is first outside.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 96
seat pilot at FS 80
bay baggage at FS 140
envelope normal {
  takeoff 1150 lb
  cg 800 lb: FS 95 .. 102
  cg 1200 lb: FS 95 .. 102
}
loading solo under normal {
//      ^^^^ error[cg-forward]: solo at takeoff (1,150 lb) has its CG at FS 92.52 in, 2.48 in forward of the forward limit of 95 in (normal)
  pilot 250 lb
}
`,
});
