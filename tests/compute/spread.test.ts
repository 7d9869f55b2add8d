import { erf } from "mathjs";
import { expect, test } from "vitest";
import { overBy } from "../../server/compute/normal";
import { deviationOf } from "../../server/compute/spread";
import { judge } from "../../server/judge";
import { emptyProject, withEdit, withText } from "../../server/project";
import { chanceText } from "../../server/quantity/chance";
import { AT, check } from "../fixture";
import { numbersOf } from "./numbers";

const spreadOf = (text: string) => {
  const [all] = numbersOf(`aircraft kite { units kg, m ${text}`).assemblies;
  return { kg: round(all!.spread_kg), fs: all!.cg_spread_m[0] };
};

test("different records are independent, one record's pieces are not", () => {
  // 3 kg and 4 kg off: the root of the sum of squares
  expect(
    spreadOf(`}
part a estimated 30 kg ± 10% at FS 1
part b estimated 40 kg ± 4 kg at FS 1`).kg,
  ).toBe(5);
  expect(spreadOf("}\npart a qty 4 estimated 1 kg ± 0.1 kg at FS 1").kg).toBe(0.4);
  expect(spreadOf("}\npart a mirrored estimated 1 kg ± 0.1 kg at FS 1, BL 2").kg).toBe(0.2);
  expect(spreadOf("}\npart a qty 4 estimated total 4 kg ± 0.4 kg at FS 1").kg).toBe(0.4);
});

test("one record of two sides is off on both alike, read together or apart", () => {
  /** Of the design, and of an airframe in which one side is named. */
  const both = (design: string, airframe: string) => {
    const text = `aircraft kite { units kg, m }\n${design}\nairframe sn1 { ${airframe} }\n`;
    const { roots } = judge(withText(emptyProject(["/specs"]), AT, text));
    expect(roots.map(it => it.airframe)).toEqual([undefined, "sn1"]);
    return roots.map(({ root }) => {
      const { mass, fs, bl } = deviationOf(root.aircraft);
      return [mass, fs!, bl!].map(round);
    });
  };
  const part = "part a mirrored estimated 1 kg ± 0.1 kg at FS 1, BL 2";
  expect(both(part, "move a.LH to FS 3")).toEqual([
    [0.2, 0, 0],
    // 0.1 kg each at 1 m before the CG and 1 m behind it, and at 2 m right and 2 m left
    [0.2, 0, 0],
  ]);
  // a side that was weighed has an error of its own
  expect(both(part, "weighed a.LH 3 kg ± 0.05 kg")[1]![0]).toBe(round(Math.hypot(0.1, 0.05)));

  const wing = `assembly wing mirrored {
  part spar estimated 6 kg ± 0.3 kg at FS 1, BL 2
  part tip estimated 4 kg ± 0.4 kg at FS 2, BL 4
}`;
  const [design, sn1] = both(wing, "weighed wing.LH.spar 6 kg ± 0.1 kg");
  expect(design![0]).toBe(round(Math.hypot(2 * 0.3, 2 * 0.4)));
  expect(sn1![0]).toBe(round(Math.hypot(0.3, 0.1, 2 * 0.4)));
  // CG at 1.4 m of 20 kg: spars 0.4 m before it, tips 0.6 m behind it
  expect(sn1![1]).toBe(round(Math.hypot(0.3 * 0.4, 0.1 * 0.4, 0.8 * 0.6) / 20));
  // each spar 2 m off the centreline; the tips are off together, which leaves the CG in the middle
  expect(sn1![2]).toBe(round(Math.hypot(0.3 * 2, 0.1 * 2) / 20));

  const whole =
    "assembly pod mirrored { weighed 5 kg ± 0.1 kg; part x estimated 4 kg at FS 1, BL 1 }";
  expect(both(whole, "move pod.LH.x to FS 1, BL -1, WL 1").map(it => it[0])).toEqual([0.2, 0.2]);
});

test("a basis has a rate, its common part is shared, a part may have its own", () => {
  expect(spreadOf("spread estimated 10% }\npart a estimated 30 kg at FS 1").kg).toBe(3);
  // two of 2 kg own, 1 kg common each: √(2² + 2² + (1 + 1)²)
  expect(
    spreadOf(`spread calculated 20% common 10% }
part a calculated 10 kg at FS 1
part b calculated 10 kg at FS 2`).kg,
  ).toBe(round(Math.sqrt(12)));
  expect(
    spreadOf("spread estimated 10% }\npart a estimated 30 kg at FS 1 spread estimated 20%").kg,
  ).toBe(6);
});

test("a rate may be a mass, or a percentage and a mass, as ± is of a record", () => {
  expect(spreadOf("spread weighed 0.5 kg + 10% }\npart a weighed 20 kg at FS 1").kg).toBe(2.5);
  const off = (record: string) => spreadOf(`spread weighed 0.1 kg }\npart a ${record} at FS 1`).kg;
  expect(off("qty 4 weighed 1 kg")).toBe(0.4);
  // put on the scale together, with one reading
  expect(off("qty 4 weighed total 4 kg")).toBe(0.1);
  expect(off("mirrored weighed total 4 kg")).toBe(0.1);
  expect(off("mirrored weighed 4 kg")).toBe(0.2);
  expect(off("weighed 4 kg ± 0.3 kg")).toBe(0.3);
  expect(
    spreadOf("spread weighed 0.1 kg }\nassembly a weighed 4 kg { part b quoted 4 kg at FS 1 }").kg,
  ).toBe(0.1);
  // 0.1 kg and 1 % of 10 kg each, of one scale
  expect(
    spreadOf(`spread weighed 0% common 0.1 kg + 1% }
part a weighed 10 kg at FS 1
part b weighed 10 kg at FS 2`).kg,
  ).toBe(0.4);
});

test("a rate of a basis is followed through edits, its mass and its share", () => {
  let project = emptyProject(["/specs"]);
  const kg = () => round(deviationOf(judge(project).roots[0]!.root.aircraft).mass);
  const put = (from: number, to: number, text: string) => {
    const [start, end] = [from, to].map(character => ({ line: 1, character }));
    project = withEdit(project, AT, start!, end!, text);
    return kg();
  };
  project = withText(
    project,
    AT,
    `aircraft kite { units kg, m
  spread weighed 0.1 kg + 1%
}
part a weighed 10 kg at FS 1
`,
  );
  expect(kg()).toBe(0.2);
  expect(put(17, 20, "0.3")).toBe(0.4);
  expect(put(26, 27, "2")).toBe(0.5);
  expect(put(28, 28, " common 1.2 kg")).toBe(1.3);
  expect(put(36, 39, "0.0")).toBe(0.5);
});

test("one let's error is shared by all that use it", () => {
  // 2 and 3 kg per kg/m², which is 0.1 kg/m² off: 0.5 kg together
  expect(
    spreadOf(`}
let sheet = 1 kg/m^2 ± 10%
part a calculated 2 m^2 * sheet at FS 1
part b calculated 3 m^2 * sheet at FS 1`).kg,
  ).toBe(0.5);
  // through another let, and in the denominator: d(6/x) = −6/x² dx
  expect(
    spreadOf(`}
let n = 2 ± 0.1
let m = 6 kg / n
part a calculated m at FS 1`).kg,
  ).toBeCloseTo(0.15, 9);
});

test("a let's error that comes by 2^64 ways is still one", () => {
  const lets = Array.from({ length: 64 }, (_, i) => `let x${i + 1} = x${i} * 0.5 + x${i} * 0.5`);
  const text = `}\nlet x0 = 3 kg ± 0.5 kg\n${lets.join("\n")}\npart a calculated x64 at FS 1`;
  expect(spreadOf(text).kg).toBe(0.5);
});

test("a ballast without a record counts as calculated, with neither growth nor spread", () => {
  const of = (record: string) => {
    const [all] =
      numbersOf(`aircraft kite { units kg, m spread calculated 10% growth calculated 20% }
ballast lead ${record} at FS 1`).assemblies;
    return [all!.by_basis_kg.calculated, all!.predicted.mass_kg, all!.spread_kg];
  };
  expect(of("5 kg")).toEqual([5, 5, 0]);
  expect(of("calculated 5 kg")).toEqual([5, 6, 0.5]);
});

test("where a mass may be off, so may the CG: e (x − CG) / mass", () => {
  const { fs } = spreadOf(`}
part a weighed 10 kg at FS 0
part b estimated 10 kg ± 1 kg at FS 4`);
  // CG at 2, the part 2 m behind it
  expect(round(fs!)).toBe(0.1);
});

test("the chance of a budget, and what it rests on", () => {
  const [all] = numbersOf(`aircraft kite { units kg, m budget 103 kg growth estimated 2% }
part a estimated 50 kg ± 1 kg at FS 1
part b weighed 50 kg at FS 1
reserve r 5 kg`).assemblies;
  // 101 kg with growth, the reserve unspent: two deviations
  expect(all!.chance_over).toBeCloseTo(0.022750131948179, 12);
  expect(all!.by_basis_kg).toEqual({ estimated: 50, calculated: 0, quoted: 0, weighed: 50 });
});

test("the normal tail is that of a general library, and of a table far out", () => {
  for (const z of [0, 0.3, 1, 2, 2.7, 2.9, 3.5, -1.2, -4])
    expect(overBy(z)).toBeCloseTo((1 - erf(z / Math.SQRT2)) / 2, 12);
  // Abramowitz and Stegun, table 26.2: Q(5), Q(10), from memory
  expect(overBy(5) / 2.866515719e-7).toBeCloseTo(1, 8);
  expect(overBy(10) / 7.619853024e-24).toBeCloseTo(1, 8);
});

test("a chance is a percent, or 1 in N", () => {
  expect([0.999, 0.5, 0.096, 0.05, 0.0123, 1e-9].map(chanceText)).toEqual([
    "over 99 %",
    "50 %",
    "10 %",
    "1 in 20",
    "1 in 81",
    "less than 1 in a million",
  ]);
});

test("a spread that is none is told", () => {
  check(`aircraft kite { units kg, m }
part a estimated 30 kg ± 2 m at FS 1
//                       ^^^ error[wrong-dimension]: the spread of a mass is a mass or a percentage, not a length
let n = 2 kg ± 5 m
//             ^^^ error[wrong-dimension]: the spread of a mass is a mass or a percentage, not a length
assembly wing spread weighed 0.1 kg + 2 m common -1%, quoted 1% common 3 ft^2 {
//                                    ^^^ error[wrong-dimension]: a spread is a percentage or a mass, not a length
//                                               ^^^ error[out-of-range]: a common spread is negative
//                                                                     ^^^^^^ error[wrong-dimension]: a common spread is a percentage or a mass, not an area
}
`);
});

const round = (x: number) => Number(x.toPrecision(10));
