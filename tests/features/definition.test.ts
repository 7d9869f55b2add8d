import { expect, test } from "vitest";
import { leadsTo } from "./cursor";

test("a name in an expression leads to the nearest let", () => {
  expect(
    leadsTo(`
let width = 10 in
assembly wing {
  part rib estimated 1 lb at FS 2 * wi$0dth
  let width = 4 ft
}`),
  ).toBe("file.poise: let [width] = 4 ft");
  expect(
    leadsTo(`
let width = 10 in
assembly wing {
  let width = 4 ft
}
part rib estimated 1 lb at FS 2 * wi$0dth`),
  ).toBe("file.poise: let [width] = 10 in");
});

test("over files", () => {
  const files = {
    "kite.poise": 'aircraft kite { units lb, in, gal }\ninclude "parts/skin.poise"',
    "materials.poise": "let cloth = 0.09 lb/ft^2",
  };
  const skin = (use: string) => `include "../materials.poise"\n${use}`;
  expect(
    leadsTo({
      ...files,
      "parts/skin.poise": skin("part skin estimated $0cloth * 3 ft^2 at FS 4"),
    }),
  ).toBe("materials.poise: let [cloth] = 0.09 lb/ft^2");
  expect(leadsTo({ ...files, "parts/skin.poise": 'include "../mat$0erials.poise"' })).toBe(
    "materials.poise",
  );
});

const wing = `
assembly wing {
  assembly outer mirrored {
    part spar calculated 3 lb at FS 4
  }
}
fluid mogas 6 lb/gal
tank main holds 5 gal of mogas at FS 38
seat pilot at FS 60
envelope wing { takeoff 500 lb }
`;

test.each([
  ["require mass(wing.outer.LH.sp$0ar) < 4 lb", "part [spar] calculated 3 lb at FS 4"],
  ["require mass(wing.out$0er.spar) < 4 lb", "assembly [outer] mirrored {"],
  ["require mass(wi$0ng) < 4 lb", "assembly [wing] {"],
  ["require mass(empty) < takeoff(wi$0ng)", "envelope [wing] { takeoff 500 lb }"],
  ["loading solo under wi$0ng { pilot 180 lb }", "envelope [wing] { takeoff 500 lb }"],
  ["loading wi$0ng { pilot 180 lb }", "loading [wing] { pilot 180 lb }"],
  ["loading solo { pi$0lot 180 lb }", "seat [pilot] at FS 60"],
  ["loading solo { burn ma$0in to 1 gal }", "tank [main] holds 5 gal of mogas at FS 38"],
  ["limit 65 lb of pi$0lot", "seat [pilot] at FS 60"],
  ["tank aft holds 2 gal of mo$0gas at FS 90", "fluid [mogas] 6 lb/gal"],
  ['waive over-budget of wi$0ng "old"', "assembly [wing] {"],
  [
    "loading solo { pilot 9 lb }\nrequire fs(so$0lo.takeoff) > 3 in",
    "loading [solo] { pilot 9 lb }",
  ],
  [
    "loading solo { pilot 9 lb }\nrequire fs(solo.take$0off) > 3 in",
    "loading [solo] { pilot 9 lb }",
  ],
])("%s", (line, target) => {
  expect(leadsTo(wing + line)).toBe(`file.poise: ${target}`);
});

const battery = `
assembly electrical {
}
choice battery default lithium {
  option agm { part electrical.pack quoted 22 lb at FS 160 }
  option lithium { part electrical.pack quoted 9 lb at FS 160 }
}
`;

test("what a choice and an option are called", () => {
  expect(leadsTo(battery.replace("default lith", "default li$0th"))).toBe(
    "file.poise: option [lithium] { part electrical.pack quoted 9 lb at FS 160 }",
  );
  expect(leadsTo(battery.replace(".pack quoted 22", ".pa$0ck quoted 22"))).toBe(
    "file.poise: option agm { part [electrical.pack] quoted 22 lb at FS 160 }",
  );
  expect(leadsTo(battery.replace("electrical.pack quoted 22", "elec$0trical.pack quoted 22"))).toBe(
    "file.poise: assembly [electrical] {",
  );
});

test("from a file of airframes into the design", () => {
  const choosing = (line: string) =>
    leadsTo({
      "kite.poise": `aircraft kite { units lb, in, gal }${battery}`,
      "sn1.poise": `include "kite.poise"\nairframe sn1 serial 1 {\n}\n${line}`,
    });
  expect(choosing("airframe sn2 { choose battery ag$0m }")).toBe(
    "kite.poise: option [agm] { part electrical.pack quoted 22 lb at FS 160 }",
  );
  expect(choosing("airframe sn2 { choose bat$0tery agm }")).toBe(
    "kite.poise: choice [battery] default lithium {",
  );
  expect(choosing("weighing first of s$0n1 on 2026-11-12 {\n}")).toBe(
    "sn1.poise: airframe [sn1] serial 1 {",
  );
});

test("nowhere from what names nothing", () => {
  expect(leadsTo(`${wing}loading solo { pass$0enger 180 lb }`)).toBe("nowhere");
  expect(leadsTo(`${wing}part keel "wi$0ng" quoted 3 lb at FS 4`)).toBe("nowhere");
  expect(leadsTo(`${wing}part keel quoted 3 l$0b at FS 4`)).toBe("nowhere");
  expect(leadsTo(`${wing}include "none$0.poise"`)).toBe("nowhere");
  expect(leadsTo("part keel quoted len$0gth * 3 at FS 4")).toBe("nowhere");
});
