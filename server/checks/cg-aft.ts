import { breachCheck } from "./envelope-breach";

export const cgAft = breachCheck({
  code: "cg-aft",
  explain:
    "At some stage of a loading, or on the way through a burn or release, the CG lies aft of the envelope's limit at that weight. The finding stands on the loading and says where it is worst and by how much; the row it breaks is beside it, and on a burn the place where it is first outside.",
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
loading aft_heavy under normal {
//      ^^^^^^^^^ error[cg-aft]: aft_heavy at takeoff (1,000 lb) has its CG at FS 104 in, 2 in aft of the aft limit of 102 in (normal)
  baggage 100 lb
}
`,
});
