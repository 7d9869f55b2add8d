import { repositoryOf, type Step, swap } from "./repository";

const aircraft = `aircraft plover "Plover" {
  units lb, in, gal
  mac at FS 90 length 50
  growth estimated 20%, calculated 5%
  budget 800 lb
}
include "wing.poise"
include "gear.poise"
include "loadings.poise"
part engine pn "E-1" quoted 160 lb at FS 40, WL 50
part hull calculated 300 lb at FS 105, WL 40
`;
const wing = `assembly wing "Wing" budget 100 lb margin 2% {
  part spar pn "W-1" {
    estimated 30 lb
    at FS 100, WL 60
  }
  part skin calculated 24 lb at FS 104, WL 60
  part tip mirrored calculated 3 lb at FS 102, BL 180, WL 61
  part light estimated 1.5 lb at FS 98, WL 62
  part wire estimated 2.5 lb at FS 101, WL 60
}
`;
const gear = `assembly gear {
  part axle calculated 9 lb at FS 108, WL 12
  part wheel mirrored quoted 6.25 lb at FS 108, BL 30, WL 8
  part tail_wheel quoted 3.75 lb at FS 210, WL 14
}
`;
const loadings = `fluid mogas 6 lb/gal
tank main holds 12 gal of mogas unusable 0.5 gal at FS 100, WL 55
seat pilot at FS 92, WL 35 range 110 lb .. 240 lb
envelope normal {
  takeoff 900 lb
  cg 500 lb: FS 80 .. 95
  cg 900 lb: FS 82 .. 95
}
loading solo under normal {
  pilot 170 lb
  main full
  burn main to 2 gal
}
`;

const wingStep = (does: string, from: string, to: string, tag?: string): Step => ({
  does,
  ...(tag && { tag }),
  files: now => ({ "wing.poise": swap(now("wing.poise"), from, to) }),
});
const aircraftStep = (does: string, from: string, to: string, tag?: string): Step => ({
  does,
  ...(tag && { tag }),
  files: now => ({ "plover.poise": swap(now("plover.poise"), from, to) }),
});
const loadingStep = (does: string, from: string, to: string): Step => ({
  does,
  files: now => ({ "loadings.poise": swap(now("loadings.poise"), from, to) }),
});

/** A year of an invented ultralight: what each commit does stands in its subject. */
export const steps: readonly Step[] = [
  {
    does: "Draw the Plover",
    tag: "drawn",
    files: () => ({
      ...{ "plover.poise": aircraft, "wing.poise": wing },
      ...{ "gear.poise": gear, "loadings.poise": loadings },
    }),
  },
  { does: "Say what this folder is", files: () => ({ "notes.md": "The Plover.\n" }) },
  wingStep("Comment the wing", "assembly wing", "// both panels in one piece\nassembly wing"),
  {
    does: "Lay the gear out anew",
    tag: "formatted",
    files: () => ({
      "gear.poise": `assembly gear {

  // one a line
  part axle {
    calculated   9 lb
    at FS 108, WL 12
  }
  part wheel mirrored quoted 6.25 lb at FS 108, BL 30, WL 8; part tail_wheel quoted 3.75 lb at FS 210, WL 14
}
`,
    }),
  },
  wingStep("Write the wire in ounces", "estimated 2.5 lb at FS 101", "estimated 40 oz at FS 101"),
  wingStep("Write the skin's place in feet", "at FS 104,", "at FS 8 ft 8 in,"),
  {
    does: "Keep the gear in a folder",
    tag: "same",
    files: now => ({
      "gear.poise": undefined,
      "parts/gear.poise": now("gear.poise"),
      "plover.poise": swap(now("plover.poise"), "gear.poise", "parts/gear.poise"),
    }),
  },
  wingStep("Calculate the spar", "estimated 30 lb", "was estimated 30 lb\n    calculated 31 lb"),
  wingStep("Rename the spar", "part spar pn", "part main_spar pn"),
  wingStep("Rename the light", "part light estimated", "part nav_light estimated"),
  {
    does: "Move the wire to the hull",
    files: now => ({
      "wing.poise": swap(now("wing.poise"), "  part wire estimated 40 oz at FS 101, WL 60\n", ""),
      "plover.poise": `${now("plover.poise")}assembly systems {\n  part wire estimated 2.5 lb at FS 101, WL 60\n}\n`,
    }),
  },
  wingStep(
    "Add a step light",
    "  part nav_light",
    "  part step_light estimated 0.4 lb at FS 110, WL 58\n  part nav_light",
  ),
  aircraftStep("Move the engine forward", "at FS 40,", "at FS 38,", "moved"),
  {
    does: "Rename the gear",
    files: now => ({
      "parts/gear.poise": swap(now("parts/gear.poise"), "assembly gear", "assembly landing_gear"),
    }),
  },
  {
    does: "Weigh the axle",
    files: now => ({
      "parts/gear.poise": swap(
        now("parts/gear.poise"),
        "calculated   9 lb",
        "was calculated 9 lb\n    weighed 9.2 lb on 2026-05-01",
      ),
    }),
  },
  {
    does: "Drop the tail wheel for a skid",
    tag: "skid",
    files: now => ({
      "parts/gear.poise": swap(
        now("parts/gear.poise"),
        "part tail_wheel quoted 3.75 lb at FS 210, WL 14",
        "part skid estimated 2 lb at FS 212, WL 12",
      ),
    }),
  },
  loadingStep(
    "Add a light pilot",
    "loading solo",
    "loading light under normal {\n  pilot 110 lb\n}\nloading solo",
  ),
  aircraftStep(
    "Hold some mass back",
    'include "wing.poise"',
    'reserve equipment 12 lb at FS 80, WL 40\ninclude "wing.poise"',
  ),
  wingStep("Ask where the wing's CG is", "margin 2% {", "margin 2% {\n  cg FS 99 .. 105"),
  aircraftStep(
    "Promise a light aircraft",
    'include "wing.poise"',
    'require mass(plover) <= 580 lb "the ultralight class"\ninclude "wing.poise"',
    "before",
  ),
  wingStep("Thicken the skin", "calculated 24 lb", "calculated 65 lb"),
  wingStep(
    "Explain the skin",
    "// both panels",
    "// the skin is thicker: gusts\n// both panels",
    "breach",
  ),
  wingStep("Raise the wing's budget", "budget 100 lb", "budget 110 lb", "raised"),
  aircraftStep("Expect less growth", "estimated 20%", "estimated 10%"),
  loadingStep("Open the aft limit", "cg 900 lb: FS 82 .. 95", "cg 900 lb: FS 82 .. 96"),
  loadingStep("Narrow the pilot", "110 lb .. 240 lb", "110 lb .. 220 lb"),
  aircraftStep("Spend the reserve", "reserve equipment 12 lb", "reserve equipment 4 lb"),
  {
    does: "Accept the wing for now",
    files: now => ({
      "plover.poise": `${now("plover.poise")}waive requirement-failed of "the ultralight class" until 2026-12-31 "prototype only"\n`,
    }),
  },
  wingStep("Go back to the old budget", "budget 110 lb", "budget 100 lb"),
  {
    does: "Accept that too",
    files: now => ({
      "plover.poise": `${now("plover.poise")}waive over-budget of wing "thin skin is on order"\n`,
    }),
  },
  {
    does: "Name a light after its °, ± and 🛩",
    tag: "after",
    files: now => ({
      "wing.poise": swap(
        now("wing.poise"),
        "  part nav_light",
        '  part flare "Flare 🛩 90° ±2" weighed 0.25 lb at FS 98, WL 62; part nav_light',
      ),
    }),
  },
];

let made: string | undefined;
export const plover = () => (made ??= repositoryOf(steps));
