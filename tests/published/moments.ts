import type { Case } from "./case";

export const moments: Readonly<Record<string, Case>> = {
  "PHAK-10-2": {
    spec: "part w weighed 10 lb at FS 70",
    reads: { moment_lbin: "parts lb in" },
  },
  "PHAK-10-4": {
    spec: `assembly left { part w1 weighed 100 lb at FS 25; part w2 weighed 50 lb at FS 50 }
assembly right { part w3 weighed 50 lb at FS 100 }
require mass(left) * fs(left) == mass(right) * fs(right)`,
    reads: {
      left_moment_lbin: "left lb in",
      right_moment_lbin: "right lb in",
      balanced: "requirement 0 holds",
    },
  },
  "PHAK-10-5": {
    spec: `part empty_aircraft weighed 2100 lb at FS 78.3
fluid avgas 6.0 lb/gal
seat front at FS 85
seat rear at FS 121
tank fuel holds 75 gal of avgas at FS 75
bay baggage at FS 150
envelope normal { takeoff 3400 lb; cg 2000 lb: FS 78 .. 86; cg 3400 lb: FS 78 .. 86 }
loading l under normal { front 340 lb; rear 350 lb; fuel full; baggage 80 lb }`,
    reads: {
      total_weight: "l takeoff lb",
      total_moment: "l takeoff lb in",
      cg: "l takeoff in",
      within_limits: "l inside",
    },
    notFound: ["above-weight-limit", "cg-forward", "cg-aft"],
  },
  "PHAK-10-11": {
    spec: `part empty_aircraft weighed 3230 lb at FS 90.5
fluid avgas 6 lb/gal
seat front at FS 89
seat middle at FS 126
seat back at FS 157
bay nose at FS 10
bay aft_bay at FS 183
tank fuel holds 822 lb of avgas at FS 113
envelope normal { ramp 5224 lb; landing 4940 lb; zero_fuel 4400 lb }
loading l under normal {
  front 335 lb; middle 350 lb; back 200 lb; nose 100 lb; aft_bay 25 lb; fuel full
  taxi fuel 24 lb
  burn fuel 450 lb
}`,
    reads: {
      zfw: "l zero_fuel lb",
      zfw_moment: "l zero_fuel lb in",
      zfw_cg: "l zero_fuel in",
      ramp: "l ramp lb",
      ramp_moment: "l ramp lb in",
      ramp_cg: "l ramp in",
      takeoff: "l takeoff lb",
      takeoff_moment: "l takeoff lb in",
      takeoff_cg: "l takeoff in",
      landing: "l landing lb",
      landing_moment: "l landing lb in",
      landing_cg: "l landing in",
      all_within: "l inside",
    },
    notFound: ["above-weight-limit"],
  },
  "PHAK-shift-1": {
    spec: ["before 30", "after 150"]
      .map(it => it.split(" "))
      .map(
        ([name, arm]) => `assembly ${name} {
  part rest weighed 7900 lb moment 616000 lb in - 100 lb * 30 in
  part cargo weighed 100 lb at FS ${arm}
}`,
      )
      .join("\n"),
    reads: {
      moment_change: of => of("after lb in") - of("before lb in"),
      new_moment: "after lb in",
      new_cg: "after in",
    },
  },
  "PHAK-add": {
    spec: `assembly after {
  assembly before { part aircraft_as_is weighed 6860 lb at FS 80 }
  part added weighed 140 lb at FS 150
}`,
    reads: { delta_cg_in: of => of("after in") - of("after.before in"), new_cg_in: "after in" },
  },
  "WBH-lever": {
    spec: `part a weighed 100 lb at FS 50
part b weighed 100 lb at FS 90
part c weighed 200 lb at FS 150`,
    reads: { total_weight: "parts lb", total_moment: "parts lb in", cg: "parts in" },
  },
  "WBH-lever-zero": {
    spec: `assembly plank at FS -110 {
  part a weighed 100 lb at FS 50
  part b weighed 100 lb at FS 90
  part c weighed 200 lb at FS 150
}`,
    reads: { total_moment: "parts lb in" },
  },
  "FAAT-1": {
    spec: `part empty_aircraft weighed 1495 lb moment 151593 lb in at FS 101.4
fluid avgas 6 lb/gal
seat both at FS 64
tank fuel holds 40 gal of avgas at FS 96
loading l { both 380 lb; fuel 30 gal }`,
    reads: {
      total_weight: "l takeoff lb",
      total_moment: "l takeoff lb in",
      cg: "l takeoff in",
    },
  },
  "ATPL-landing": {
    spec: `fluid jet 0.79 kg/L
part others weighed 11048 kg + 155 kg moment 386680 kg cm - 26350 kg cm
tank fuel holds 7120 kg of jet at FS -9 cm
loading l { fuel full; burn fuel 1.5 h * 900 L/h }`,
    reads: {
      burn_kg: of => of("l takeoff kg") - of("l landing kg"),
      fuel_left_kg: of => of("l landing kg") - of("l zero_fuel kg"),
      landing_mass_kg: "l landing kg",
      landing_moment: "l landing kg cm",
      cg_cm: "l landing cm",
    },
  },
  NICHOLLS: {
    spec: `assembly after {
  assembly before { part ten weighed 10 lb at FS 2; part five weighed 5 lb at FS 8 }
  part added weighed 10 lb at FS 7
}`,
    reads: { cg_before: "after.before in", moment_after: "after lb in", cg_after: "after in" },
  },
  "PA18-datum": {
    spec: `assembly firewall at FS -24 {
  assembly one { part it weighed 1 lb at FS 101 }
  assembly two { part it weighed 1 lb at FS 123 }
}`,
    reads: { le_1: "firewall.one in", le_2: "firewall.two in" },
  },
  "S23-datum": {
    spec: `assembly hull at FS 7.728 m {
  assembly fwd { part it weighed 1 lb at FS 55.5 }
  assembly aft { part it weighed 1 lb at FS 66.8 }
}`,
    reads: { fwd_in: "hull.fwd in", aft_in: "hull.aft in" },
  },
};
