import { type Flight, flightsOf } from "../compute/flights";
import { asDrawn } from "../compute/stages";
import type { Root } from "../model/root";
import type { Check } from "./check";
import { firstLack, isStation, type Lack, lacksMass, lacksPlace } from "./lack";

export const loadingUnknown: Check = {
  code: "loading-unknown",
  severity: "info",
  explain:
    "A loading is not seen to be outside its envelope, and not known to be inside either: something in the aircraft or aboard has no mass or no FS. It is judged as soon as that is there.",
  example: `
aircraft kite { units lb, in, gal }
part airframe weighed 900 lb at FS 100
part radio weighed 4 lb
//   ^^^^^ info[arm-missing]: radio has no FS yet: its mass counts, and the CG is incomplete
seat pilot at FS 90 range 100 lb .. 250 lb
envelope normal {
  cg 900 lb: FS 95 .. 102
  cg 1200 lb: FS 95 .. 102
}
loading solo under normal {
//      ^^^^ info[loading-unknown]: not known to be inside: radio has no FS
  pilot 180 lb
}
`,

  *root(root) {
    for (const flight of flightsOf(root)) {
      const { loading, verdicts } = flight;
      const states = verdicts.flatMap(it => it.states);
      const outside = states.some(({ basic }) => basic.breaches.length > 0);
      // what an envelope lacks is said of the envelope
      const complete = states.every(({ stage }) => stage.basic.complete);
      // of what is not understood the fault is said where it stands
      const broken = loading.broken || asDrawn(root).broken > 0;
      if (broken || outside || complete) continue;
      const lack = lackOf(flight, root);
      yield {
        at: loading.at,
        message: `not known to be inside: ${lack?.why ?? "a mass or an arm is not known"}`,
        related: lack ? [{ at: lack.at, message: lack.why }] : [],
        subject: loading.name,
      };
    }
  },
};

function lackOf({ loading }: Flight, { aircraft }: Root): Lack | undefined {
  const parts = aircraft.members.filter(it => !isStation(it));
  const used = loading.loads.map(it => it.station);
  for (const members of [parts, used]) {
    const lack =
      firstLack(members, lacksMass, "has no mass") ??
      firstLack(members, it => lacksPlace(it, "fs"), "has no FS");
    if (lack) return lack;
  }
  return undefined;
}
