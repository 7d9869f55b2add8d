import { expect, test } from "vitest";
import { check } from "../fixture";
import { numbersOf } from "./numbers";

/** Where the wheel is once swung: the only thing in the aircraft, so its CG is the empty one. */
const wheel = (swing: string, at = "FS 10, BL 2, WL 1", more = "") =>
  numbersOf(`aircraft kite { units kg, m }
assembly leg ${more} swing ${swing} { part wheel weighed 8 kg at ${at} shape cylinder 1 m, 0.2 m along BL }
configuration up { swing leg }`).configurations[0]!;

test("by a word: a small, a right and a large angle", () => {
  // hinge above the wheel by 3 m: it sets off aft and goes round
  const at = (degrees: number) => wheel(`${degrees} deg aft about BL at FS 10, WL 4`).empty.cg_m;
  const after = (degrees: number) => {
    const angle = (degrees * Math.PI) / 180;
    return [10 + 3 * Math.sin(angle), 2, 4 - 3 * Math.cos(angle)];
  };
  for (const degrees of [5, 90, 135, 200]) close(at(degrees), after(degrees));
});

test("by the right-hand rule about the axis pointing aft, right or up", () => {
  // about BL: up turns aft, aft turns down
  close(wheel("90 deg about BL at FS 10, WL 0").empty.cg_m, [11, 2, 0]);
  close(wheel("-90 deg about BL at FS 10, WL 0").empty.cg_m, [9, 2, 0]);
  // about FS: right turns up; about WL: aft turns right
  close(wheel("90 deg about FS at FS 0, BL 0, WL 1").empty.cg_m, [10, 0, 3]);
  close(wheel("90 deg about WL at FS 8, BL 2").empty.cg_m, [8, 4, 1]);
});

test("every word sets off its own way", () => {
  const cg = (way: string, axis: string, at: string) =>
    wheel(`1 deg ${way} about ${axis} at ${at}`).empty.cg_m;
  expect(cg("forward", "BL", "FS 10, WL 4")[0]).toBeLessThan(10);
  expect(cg("aft", "BL", "FS 10, WL 4")[0]).toBeGreaterThan(10);
  expect(cg("up", "BL", "FS 8, WL 1")[2]).toBeGreaterThan(1);
  expect(cg("down", "BL", "FS 8, WL 1")[2]).toBeLessThan(1);
  expect(cg("inboard", "FS", "BL 2, WL 4")[1]).toBeLessThan(2);
  expect(cg("outboard", "FS", "BL 2, WL 4")[1]).toBeGreaterThan(2);
});

test("about a skewed hinge a third of a turn takes each axis to the next", () => {
  // about (1, 1, 1): aft to right, right to up, up to aft
  const hinge = "(FS 0, BL 0, WL 0) .. (FS 1, BL 1, WL 1)";
  close(wheel(`120 deg about ${hinge}`, "FS 10, BL 2, WL 1").empty.cg_m, [1, 10, 2]);
});

test("a full turn brings everything back, inertia too; a quarter changes its axes", () => {
  const { empty } = wheel("360 deg about WL at FS 8, BL 2");
  close(empty.cg_m, [10, 2, 1]);
  const quarter = wheel("90 deg about WL at FS 8, BL 2").empty.inertia_kg_m2;
  // the wheel's axle lay along BL and lies along FS now
  close([quarter.Ixx, quarter.Iyy], [(8 * 1) / 8, 8 / 16 + (8 * 0.04) / 12]);
});

test("the left-hand one swings as the mirror image", () => {
  const { empty, moment_change_kg_m } = wheel(
    "90 deg outboard about FS at BL 2, WL 4",
    "FS 10, BL 2, WL 1",
    "mirrored",
  );
  close(empty.cg_m, [10, 0, 4]);
  close(moment_change_kg_m, [0, 0, 2 * 8 * 3]);
  // each wheel 5 m from the middle now, its axle upright
  close([empty.inertia_kg_m2.Izz], [2 * (8 / 8 + 8 * 25)]);
});

test("one side alone may be swung", () => {
  const { configurations } = numbersOf(`aircraft kite { units kg, m }
assembly door mirrored swing 90 deg up about FS at BL 2, WL 1 { part panel weighed 4 kg at FS 5, BL 3, WL 1 }
configuration open ground { swing door.LH }`);
  // the left one goes from BL -3, WL 1 to BL -2, WL 2
  close(configurations[0]!.empty.cg_m, [5, 0.5, 1.5]);
});

test("what swings inside turns first, in frames as deep as it stands; tanks and seats go along", () => {
  const spec = `aircraft kite { units kg, m, L }
fluid water 1 kg/L
assembly boom at FS 10, WL 1 swing 90 deg up about BL at FS 10, WL 1 {
  assembly tip at FS 2 swing 90 deg forward about WL at FS 2 {
    part lamp weighed 3 kg at FS 0, BL 1, WL 0
    tank bottle holds 5 L of water at FS 0, BL 1, WL 0
  }
}
loading wet { boom.tip.bottle 5 L }
configuration folded { swing boom, boom.tip }`;
  // as drawn the lamp is at FS 12, BL 1, WL 1; about the tip's hinge it goes forward, to FS 11, BL 0;
  // then up about the boom's, from 1 m aft of it to 1 m above
  const { configurations, loadings } = numbersOf(
    spec
      .replace("loading wet {", "loading wet under all {")
      .concat("\nenvelope all { cg FS 0 .. 20 }"),
  );
  close(configurations[0]!.empty.cg_m, [10, 0, 2]);
  const folded = loadings.find(it => it.configuration === "folded")!;
  close(folded.stages[0]!.cg_m, [10, 0, 2]);
  expect(folded.stages.map(it => it.stage)).toEqual(["takeoff", "zero_fuel"]);
});

test("a loading is judged with the gear up, and says so", () => {
  check(`aircraft kite { units kg, m }
part airframe weighed 92 kg at FS 10, WL 2
assembly leg swing 90 deg aft about BL at FS 10, WL 4 { part wheel weighed 8 kg at FS 10, WL 1 }
envelope normal { cg 50 kg: FS 9 .. 10.2; cg 200 kg: FS 9 .. 10.2 }
loading light under normal { }
//      ^^^^^ error[cg-aft]: light, up, at takeoff (100 kg) has its CG at FS 10.24 m, 0.04 m aft of the aft limit of 10.2 m (normal)
configuration up { swing leg }
configuration folded ground { swing leg }
`);
});

test("what cannot be is said where it stands", () => {
  check(`aircraft kite { units kg, m }
assembly leg swing 90 deg aft about WL at FS 10, BL 2 { part wheel weighed 8 kg at FS 10, BL 2 }
//           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[swing-impossible]: about this hinge leg cannot set off aft
assembly door { part panel weighed 4 kg at FS 5 }
configuration up { swing leg, door, flap }
//                            ^^^^ error[unknown-name]: door has no swing
//                                  ^^^^ error[unknown-name]: no assembly is called flap
`);
});

test("the change of the moment is that of what moves, whatever else has no place", () => {
  const spec = (more: string) => `aircraft kite { units kg, m }
part hull weighed 900 kg at FS 10, WL 2
${more}
assembly nose swing 90 deg aft about BL at FS 4, WL 3 { part leg weighed 20 kg at FS 4, WL 1 }
configuration up { swing nose }`;
  const change = (more: string) => numbersOf(spec(more)).configurations[0]!.moment_change_kg_m;
  // 20 kg by 2 m aft and 2 m up
  close(change("part radio weighed 100 kg at FS 5"), [40, 0, 40]);
  close(change("part radio weighed 100 kg"), [40, 0, 40]);
});

test("in an assembly weighed as a whole what swings takes the whole along, with a moment too", () => {
  const cg = (clauses: string) =>
    numbersOf(`aircraft kite { units kg, m }
assembly gear ${clauses} {
  part frame weighed 30 kg at FS 10, WL 1
  assembly leg swing 90 deg aft about BL at FS 10, WL 3 { part wheel weighed 10 kg at FS 10, WL 1 }
}
configuration up { swing gear.leg }`).configurations[0]!.empty.cg_m;
  // a quarter of it goes 2 m aft and 2 m up
  close(cg(""), [10.5, 0, 1.5]);
  close(cg("weighed 44 kg"), [10.5, 0, 1.5]);
  close(cg("weighed 44 kg moment 484 kg m"), [11.5, 0, 1.5]);
});

test("both sides may be named one by one, and none twice", () => {
  const door = "assembly door mirrored swing 90 deg up about FS at BL 2, WL 1";
  const spec = (swings: string) => `aircraft kite { units kg, m }
${door} { part panel weighed 4 kg at FS 5, BL 3, WL 1 }
configuration open ground { swing ${swings} }
`;
  const [both] = numbersOf(spec("door")).configurations;
  const [each] = numbersOf(spec("door.RH, door.LH")).configurations;
  close(each!.empty.cg_m, both!.empty.cg_m);
  check(
    `${spec("door.RH, door.RH")}//                                         ^^^^^^^ error[declared-twice]: door.RH is swung twice\n`,
  );
});

function close(found: readonly number[], wanted: readonly number[]): void {
  expect(found.length).toBe(wanted.length);
  for (const [i, x] of found.entries()) expect(x).toBeCloseTo(wanted[i]!, 9);
}
