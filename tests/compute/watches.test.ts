import { expect, test } from "vitest";
import { densityAt, overBy } from "../../server/compute/normal";
import { type Watch, watchesOf } from "../../server/compute/watches";
import { judge } from "../../server/judge";
import type { Part } from "../../server/model/part";
import { emptyProject, withText } from "../../server/project";
import { nextOf, progressOf } from "../../server/shop/progress";
import { AT } from "../fixture";

const rootOf = (text: string, i = 0) =>
  judge(withText(emptyProject(["/specs"]), AT, text)).roots[i]!.root;

// From memory: tables of the standard normal density, such as NIST/SEMATECH 1.3.6.7.
test.each([
  [0, 0.3989],
  [1, 0.242],
  [-2, 0.054],
])("the normal density at %d", (z, density) => {
  expect(densityAt(z)).toBeCloseTo(density, 4);
});

const kite = (spar = 60) => `aircraft kite { units kg, m; spread calculated 10%, estimated 20% }
assembly wing budget 105 kg {
  part spar calculated ${spar} kg at FS 1
  part skin estimated 40 kg at FS 3
  part tip weighed 1 kg at FS 2
}
seat pilot at FS 2 range 0 kg .. 100 kg
envelope normal { takeoff 215 kg; cg 80 kg: FS 1.4 .. 1.95; cg 215 kg: FS 1.4 .. 1.95 }
loading solo { pilot 100 kg }
`;

// By hand: 101 kg of 105 kg, spread √(6² + 8²) = 10 kg: z = 0.4, density 0.3683. The spar's 6 kg move the
// chance by 0.3683 × 0.6, the skin's 8 kg by 0.3683 × 0.8.
test("what bears on a budget, and by how much one spread of it moves the chance", () => {
  const root = rootOf(kite());
  const [next, after] = nextOf(root);
  expect([next!.weighable.path, after!.weighable.path]).toEqual(["wing.skin", "wing.spar"]);
  expect(next!.spread).toBeCloseTo(8, 9);
  const [budget] = watchesOf(root);
  expect(budget!.chance).toBeCloseTo(0.3446, 4);
  const spar = after!.weighable.part;
  expect(6 * budget!.slope(spar)).toBeCloseTo(0.3683 * 0.6, 4);
});

// By hand: the spar grows by 3 kg at 1 m. Its 63 kg, 40 kg at 3 m, 1 kg and the pilot at 2 m are 204 kg at
// 385 ÷ 204 = 1.8873 m, 0.0627 m before the limit; 6 kg of spar × 0.8873 m and 8 kg of skin × 1.1127 m, ÷ 204 kg,
// are 0.0508 m off: z = 1.234. Of 215 kg 11 kg are left, 10 kg off: z = 1.1. What is held back is no part of it.
test("a limit is met with growth in and reserves unspent, as a budget is", () => {
  const text = kite()
    .replace("estimated 20% }", "estimated 20%; growth calculated 5% }")
    .replace("part tip", "reserve paint 5 kg at FS 1\n  part tip");
  const [budget, edge, weight] = watchesOf(rootOf(text));
  // 104 kg of 105 kg
  expect(budget!.chance).toBeCloseTo(overBy(0.1), 9);
  expect(edge!.chance).toBeCloseTo(overBy(1.234), 4);
  expect(weight!.chance).toBeCloseTo(overBy(1.1), 9);
});

test("with a mass unknown no chance is given, of a budget around it or of a limit", () => {
  const text = kite().replace("part tip weighed 1 kg", "part tip");
  expect(watchesOf(rootOf(text))).toEqual([]);
});

test("what is swung takes its growth along", () => {
  const text = `aircraft kite { units kg, m; spread calculated 10%; growth calculated 50% }
part hull weighed 15 kg at FS 1
assembly boom swing 90 deg aft about BL at FS 1, WL 0 { part arm calculated 10 kg at FS 1, WL 1 }
envelope normal { takeoff 50 kg; cg 20 kg: FS 0.5 .. 1.5; cg 50 kg: FS 0.5 .. 1.5 }
configuration out { swing boom }
loading empty_one { }
`;
  const [edge] = watchesOf(rootOf(text));
  // by hand: out, 15 kg lie at 2 m and as much at 1 m, which is on the line; as drawn all are at 1 m
  expect("edge" in edge!.of && edge!.of.edge.condition.verdict.configuration).toBe("out");
  expect(edge!.chance).toBeCloseTo(0.5, 9);
});

// Each slope is the slope of the chance itself: a gram more, and its spread as it was.
test.each([0, 1, 2])("the slope of what is watched is that of its chance (%i)", i => {
  const at = (spar: number, spread: number) => {
    const text = kite().replace("calculated 60 kg", `calculated ${spar} kg ± ${spread} kg`);
    const root = rootOf(text);
    const watch: Watch = watchesOf(root)[i]!;
    const part = nextOf(root).find(it => it.weighable.path === "wing.spar")!.weighable.part as Part;
    return { chance: watch.chance, slope: watch.slope(part) };
  };
  const [less, now, more] = [at(59.999, 6), at(60, 6), at(60.001, 6)];
  const slope = (more.chance - less.chance) / 0.002;
  expect(Math.abs(slope)).toBeGreaterThan(1e-4);
  // a gram more also changes how far the CG of all can be off, by little
  expect(Math.abs(now.slope) / Math.abs(slope)).toBeGreaterThan(0.9);
  expect(Math.abs(now.slope) / Math.abs(slope)).toBeLessThan(1.1);
});

test("of a budget of one side, the record's error on that side counts", () => {
  const text = `aircraft kite { units kg, m; spread calculated 10% }
assembly wing mirrored budget 10 kg { part spar calculated 10 kg at FS 1, BL 1 }
`;
  const [next] = nextOf(rootOf(text));
  // both weigh 20 kg ± 2 kg; the budget is of one: 10 kg ± 1 kg, half of which lie above
  expect(next).toMatchObject({ spread: 2, bears: { by: densityAt(0) } });
});

test("both sides of one record are off together, also where an airframe has them apart", () => {
  const text = `aircraft kite { units kg, m; spread calculated 10% }
part hull weighed 100 kg at FS 2
part float mirrored calculated 10 kg at FS 3, BL 2
seat pilot at FS 2 range 0 kg .. 100 kg
envelope normal { takeoff 203 kg; cg 80 kg: FS 1.4 .. 2.1; cg 230 kg: FS 1.4 .. 2.1 }
loading solo { pilot 80 kg }
airframe sn1 { move float.LH to FS 3, BL -2 }
`;
  for (const i of [0, 1]) {
    const root = rootOf(text, i);
    const [edge, weight] = watchesOf(root);
    const { part } = nextOf(root).find(it => it.weighable.path.startsWith("float"))!.weighable;
    // by hand: 1 kg each; 2 kg × (3 m − 2.1 m) ÷ 200 kg = 9 mm about a CG on the line, and a kg moves it 4.5 mm
    expect(edge!.chance).toBeCloseTo(0.5, 9);
    expect(edge!.slope(part)).toBeCloseTo((densityAt(0) / 0.009) * -0.0045, 9);
    // 3 kg of room, 2 kg off: 1.5 deviations
    expect(weight!.chance).toBeCloseTo(0.0668, 4);
  }
});

test("nothing bears on anything: the least certain first, then the heaviest", () => {
  const text = `aircraft kite { units kg, m }
part a calculated 1 kg at FS 1
part b calculated 5 kg at FS 1
part c calculated 2 kg ± 1 kg at FS 1
`;
  expect(nextOf(rootOf(text)).map(it => [it.weighable.path, it.bears])).toEqual([
    ["c", undefined],
    ["b", undefined],
    ["a", undefined],
  ]);
});

test("how far each assembly has come, of both sides; an airframe's own weighings apart", () => {
  const text = `aircraft kite { units kg, m }
assembly wing mirrored { part spar weighed 10 kg at FS 1, BL 1; part tip estimated 1 kg at FS 1; part cap at FS 1 }
assembly engine { weighed 80 kg; part block quoted 70 kg at FS 0 }
airframe sn1 serial 1 { weighed wing.LH.spar 11 kg }
`;
  const brief = (i: number) =>
    progressOf(rootOf(text, i)).map(it => [
      it.assembly.path,
      ...[it.basic, it.shares.weighed, it.elsewhere, it.shares.estimated, it.unknown],
    ]);
  expect(brief(0)).toEqual([
    ["", 102, 100, 0, 2, 2],
    ["wing", 22, 20, 0, 2, 2],
    ["engine", 80, 80, 0, 0, 0],
  ]);
  expect(brief(1)).toEqual([
    ["", 103, 101, 90, 2, 2],
    ["wing.RH", 11, 10, 10, 1, 1],
    ["wing.LH", 12, 11, 0, 1, 1],
    ["engine", 80, 80, 80, 0, 0],
  ]);
});
