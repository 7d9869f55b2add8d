import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { check, findingsOf } from "../fixture";

const pound = 0.45359237;
const inch = 0.0254;

interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly (number | null)[];
}
interface Numbers {
  readonly empty: { readonly basic: Mass; readonly predicted: Mass };
  readonly parts: { readonly basic: Mass };
}

/** Of the airframe, in lb and in. */
function weighed(text: string) {
  const judged = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  const { empty, parts } = reportOf(judged.roots[1]!) as unknown as Numbers;
  const of = ({ mass_kg, cg_m }: Mass) => ({
    lb: Number((mass_kg / pound).toFixed(6)),
    cg: cg_m.map(it => it && Number((it / inch).toFixed(6))),
  });
  return { basic: of(empty.basic), predicted: of(empty.predicted), parts: of(parts.basic) };
}

const kite = `aircraft kite { units lb, in, gal; growth calculated 5% }
fluid mogas 6 lb/gal
fluid oil 7.5 lb/gal
tank wing_tank mirrored holds 10 gal of mogas unusable 0.5 gal at FS 110, BL 50, WL 40
tank engine_oil holds 2 gal of oil operating at FS 40, WL 30
seat pilot at FS 90, WL 30 range 110 lb .. 250 lb
part hull calculated 800 lb at FS 100, WL 20
part carpet calculated 4 lb at FS 80, BL 5, WL 10
reserve paint 10 lb
airframe sn1 serial 1 { }
`;

test("readings less tare, less what is aboard, plus what is missing, with unusable fuel and full oil", () => {
  const { basic, predicted, parts } = weighed(`${kite}
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 130 lb, 131 lb, 132 lb tare 2 lb
  scale left at FS 115, BL -40 reads 370 lb
  scale right at FS 115, BL 40 reads 372 lb
  aboard wing_tank 2 gal
  aboard pilot 120 lb
  aboard sandbag 12 lb at FS 6, BL 3
  missing carpet
}
`);
  // nose 129, left 370, right 372: 871 lb; fuel 2 × 12 = 24 out and 2 × 3 = 6 in at FS 110; pilot 120 at FS
  // 90; sand 12 at FS 6; carpet 4 at FS 80 in: 871 − 24 + 6 − 120 − 12 + 4 = 725 lb
  // 2,580 + 42,550 + 42,780 − 18 × 110 − 10,800 − 72 + 320 = 75,378 lb in ÷ 725 = 103.969655
  // across: 2 × 40 − 12 × 3 + 4 × 5 = 64 lb in ÷ 725 = 0.088276
  expect(basic.lb).toBe(725);
  expect(basic.cg.slice(0, 2)).toEqual([103.969655, 0.088276]);
  // weighed: nothing grows, and what was held back is spent
  expect(predicted.lb).toBe(725);
  // the parts alone: less 6 lb of fuel and 15 lb of oil
  expect(parts.lb).toBe(704);
  // (75,378 − 660 − 600) ÷ 704
  expect(parts.cg[0]).toBeCloseTo(105.28125, 5);
});

test("a line for one side speaks for its tank alone: the other one was drained", () => {
  const { basic } = weighed(`${kite}
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 130 lb
  scale main at FS 115 reads 700 lb
  aboard wing_tank.LH 2 gal
}
`);
  // 830 − 12 + 3 lb, at FS 110; across: left of the middle 12 out and 3 in: + 9 × 50 = 450 lb in ÷ 821
  expect(basic.lb).toBe(821);
  expect(basic.cg[1]).toBeCloseTo(450 / 821, 5);
});

test("what is assumed of the other side of a tank is told", () => {
  check(`aircraft kite { units lb, in, gal }
fluid mogas 6 lb/gal
tank main mirrored holds 10 gal of mogas unusable 0.5 gal at FS 110, BL 50
part hull weighed 824 lb at FS 110
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
//       ^^^^^ warning[fluid-state-assumed]: sn1: no line says what was in main.RH: taken as drained, what cannot be used left in
  scale nose at FS 20 reads 42 lb
  scale main at FS 115 reads 797 lb
  aboard main.LH 2 gal
}
`);
});

test("the airframe's loadings start from it, and the aircraft's budget is judged on it", () => {
  check(
    `aircraft kite { units lb, in, gal; budget 795 lb }
seat pilot at FS 90, WL 30 range 110 lb .. 250 lb
part hull calculated 790 lb at FS 100, WL 20
envelope normal { takeoff 1000 lb; cg 700 lb: FS 95 .. 101; cg 1000 lb: FS 95 .. 101 }
loading solo { pilot 200 lb }
//      ^^^^ error[cg-aft]: sn1: solo at takeoff (1,000 lb) has its CG at FS 101.12 in, 0.12 in aft of the aft limit of 101 in (normal)
airframe sn1 serial 1 { budget kite 798 lb }
//                                  ^^^^^^ error[over-budget]: sn1: kite weighs 800 lb, 2 lb over its budget of 798 lb
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 88 lb
  scale main at FS 114.269663 reads 712 lb
}
`,
    ["loading-can-exceed"],
  );
});

test("what is wrong with a weighing is said at the narrowest place, and it does not count", () => {
  const text = `aircraft kite { units lb, in, gal }
fluid mogas 6 lb/gal
tank main mirrored holds 10 gal of mogas unusable 0.5 gal at FS 110, BL 50
tank aux holds 5 gal of mogas at FS 110
reserve paint 10 lb at FS 100
part hull calculated 800 lb at FS 100, WL 20
part radio at FS 60
//   ^^^^^ info[mass-missing]: radio has no mass yet
airframe sn1 serial 1 { }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 3 lb tare 5 lb
//                          ^^^^ error[out-of-range]: this scale reads less than its tare
  scale nose at FS 115 reads 700
//      ^^^^ error[declared-twice]: the scale nose stands here twice
//                           ^^^ error[unit-missing]: a reading needs its unit
  scale tail at FS 200
//                   ^ error[syntax]: what does this scale read? write reads and a weight
  missing carpet
//        ^^^^^^ error[unknown-name]: nothing is called carpet in sn1
  missing radio
//        ^^^^^ error[syntax]: radio has no mass yet: what was missing is not known
  missing kite
//        ^^^^ error[syntax]: this is the whole aircraft: name what was missing
  missing main
//        ^^^^ error[syntax]: main is a tank: what was in it is said by aboard
  missing paint
//        ^^^^^ error[syntax]: paint is a reserve: nothing of it was ever there
  missing hull, hull
//              ^^^^ error[declared-twice]: hull is in this weighing already: once is all
  aboard sandbag 12 lb
//       ^^^^^^^ error[syntax]: where does it lie? at FS …
  aboard main.RH 50 gal
//               ^^^^^^ error[out-of-range]: main does not hold so much
  aboard main.RH 1 gal
//       ^^^^^^^ error[declared-twice]: main.RH is in this weighing already: once is all
  aboard aux 1 gal of nothing
//                    ^^^^^^^ error[unknown-name]: no fluid is called nothing
  aboard aux
//       ^^^ error[syntax]: how much was in aux?
}
weighing second of sn2 on 2026-11-13 { scale main at FS 115 reads 700 lb }
//                 ^^^ error[unknown-name]: no airframe is called sn2
`;
  check(text);
  // the parts are all there is, and they are not the last word
  const plain = text.replace(/^\/\/.*\n/gm, "");
  const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", plain));
  expect(roots.map(it => it.complete)).toEqual([false, false]);
});

test("an airframe whose weighing is not understood has no complete figure, and its loadings no verdict", () => {
  const spec = (reading: string) => `aircraft kite { units lb, in }
part hull weighed 800 lb at FS 100, WL 20
envelope normal { takeoff 900 lb; cg 700 lb: FS 95 .. 105; cg 900 lb: FS 95 .. 105 }
loading solo { }
airframe sn1 { }
weighing first of sn1 on 2026-11-12 { scale a at FS 90 reads 400 lb; scale b at FS 110 reads 400 lb }
weighing second of sn1 on 2027-01-12 { scale a at FS 90 reads ${reading}; scale b at FS 110 reads 390 lb }
`;
  const of = (reading: string) => {
    const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", spec(reading)));
    const report = reportOf(roots[1]!) as unknown as {
      loadings: { stages: { inside: boolean | null }[] }[];
    };
    return [roots[1]!.complete, report.loadings[0]!.stages[0]!.inside];
  };
  expect(of("400 lb")).toEqual([true, true]);
  expect(of("400")).toEqual([false, null]);
});

test("what was missing or came later without an arm leaves the CG incomplete", () => {
  const of = (line: string, after = "") => {
    const text = `aircraft kite { units lb, in }
part hull weighed 800 lb at FS 100
part lamp weighed 2 lb
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
  scale a at FS 90 reads 400 lb; scale b at FS 110 reads 400 lb; ${line}
}
${after}`;
    const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
    return [roots[1]!.emptyWeight, roots[1]!.complete];
  };
  expect(of("")).toEqual(["800 lb", true]);
  expect(of("missing lamp")).toEqual(["802 lb", false]);
  const change = (what: string) => `change it of sn1 on 2027-01-01 { install part ${what} }`;
  expect(of("", change("horn weighed 1 lb at FS 20"))).toEqual(["801 lb", true]);
  expect(of("", change("horn weighed 1 lb"))).toEqual(["801 lb", false]);
  expect(of("", change("horn at FS 20"))).toEqual(["800 lb", false]);
});

test("the scales say how far off the mass and the CG may be", () => {
  const text = `aircraft kite { units lb, in }
part hull weighed 800 lb at FS 100
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 130 lb ± 1 lb
  scale main at FS 115 reads 700 lb ± 2 lb
}
`;
  const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  const { empty } = reportOf(roots[1]!) as unknown as { empty: { spread: Mass } };
  // the CG is at (130 × 20 + 700 × 115) ÷ 830 = 100.1205 in
  expect(empty.spread.mass_kg / pound).toBeCloseTo(Math.sqrt(1 ** 2 + 2 ** 2), 9);
  const cg = Math.hypot(1 * (100.1205 - 20), 2 * (115 - 100.1205)) / 830;
  expect(empty.spread.cg_m[0]! / inch).toBeCloseTo(cg, 5);
});

test("one station is one station in whatever unit it is written", () => {
  check(`aircraft kite { units lb, in }
part hull weighed 800 lb at FS 115
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
//       ^^^^^ info[one-station]: sn1: all scales stand at FS 115 in: this weighing measures no CG, and that station is taken
  scale left at FS 115 in reads 400 lb
  scale right at FS 292.1 cm reads 400 lb
}
`);
});

test("two weighings of one airframe on one day are one too many", () => {
  check(`aircraft kite { units lb, in }
part hull weighed 800 lb at FS 100
airframe sn1 { }
weighing one of sn1 on 2026-11-12 { scale a at FS 90 reads 400 lb; scale b at FS 110 reads 400 lb }
weighing two of sn1 on 2026-11-12 { scale a at FS 90 reads 401 lb; scale b at FS 110 reads 400 lb }
//       ^^^ error[declared-twice]: sn1 was weighed on that day already: which of the two counts?
`);
});

test("changes after a weighing apply in order of their dates, a weighed removal with its own figure", () => {
  const spec = `aircraft kite { units lb, in }
part hull calculated 790 lb at FS 100
part radio calculated 3 lb at FS 60
part pack calculated 10 lb at FS 20
airframe sn1 { }
`;
  const weighing = `weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 100 lb
  scale main at FS 110 reads 700 lb
}
`;
  // as weighed: 800 lb, 79,000 lb in
  expect(weighed(spec + weighing).parts).toMatchObject({ lb: 800, cg: [98.75, 0, null] });
  const changes = `change later of sn1 on 2027-03-01 { move pack to FS 40 }
change radio of sn1 on 2027-01-20 {
  remove radio weighed 3.4 lb
  install part radio weighed 2.9 lb at FS 61
  weighed hull 802 lb on 2027-01-20
}
`;
  // − 3.4 × 60 + 2.9 × 61 + 10 × (40 − 20) = 172.9 lb in on 79,000; a record alone changes nothing:
  // 79,172.9 ÷ 799.5
  const { parts, basic } = weighed(spec + weighing + changes);
  expect(parts.lb).toBe(799.5);
  expect(basic.cg[0]).toBeCloseTo(99.02802, 4);
});

test("a change before the weighing is in what the parts come to, one on its day is not", () => {
  check(`aircraft kite { units lb, in; spread calculated 0.1% }
part hull calculated 790 lb at FS 100
airframe sn1 { }
change early of sn1 on 2026-10-01 { install part lamp calculated 10 lb at FS 100 }
change same of sn1 on 2026-11-12 { install part beacon calculated 5 lb at FS 100 }
weighing first of sn1 on 2026-11-12 {
//       ^^^^^ warning[weighing-disagrees]: sn1: the empty airframe weighs 804 lb and its parts come to 800 lb: 4 lb unexplained, near FS 100 in, 5.1 times what both may be off
  scale nose at FS 20 reads 134 lb
  scale main at FS 116 reads 670 lb
}
`);
});

test("beside parts of which nobody says how far off they may be, only the scales are spoken of", () => {
  const kite = (hull: string) => `aircraft kite { units lb, in }
part hull ${hull} 800 lb at FS 100
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 134 lb ± 0.1 lb
  scale main at FS 116 reads 670 lb
}
`;
  expect(findingsOf({ "kite.poise": kite("calculated") })).toEqual([
    "weighing-disagrees: sn1: the empty airframe weighs 804 lb and its parts come to 800 lb: 4 lb unexplained, near FS 100 in, more than the scales are off, and of the parts nobody says how far they may be",
  ]);
  // what stood on a scale is what it is
  expect(findingsOf({ "kite.poise": kite("weighed") })).toEqual([
    "weighing-disagrees: sn1: the empty airframe weighs 804 lb and its parts come to 800 lb: 4 lb unexplained, near FS 100 in, 40 times what both may be off",
  ]);
});

test("AMG-1, FAA Aviation Mechanic General test bank: seats out, structure, seat and radio in", () => {
  // 1,500 lb at 28.4; − 24 at 68.5 + 28 at 73 + 30 at 70.5 + 25 at 85: 1,559 lb, 47,240 lb in, 30.3 in
  const { parts } = weighed(`aircraft plane { units lb, in }
part seats qty 2 weighed total 24 lb at FS 68.5
part rest weighed 1476 lb at FS 27
airframe sn1 { }
weighing first of sn1 on 2026-01-01 { scale hook at FS 28.4 reads 1500 lb }
change refit of sn1 on 2026-02-01 {
  remove seats
  install part structure weighed 28 lb at FS 73
  install part seat weighed 30 lb at FS 70.5
  install part radio weighed 25 lb at FS 85
}
`);
  expect(parts.lb).toBe(1559);
  expect(Math.abs(parts.cg[0]! - 30.3)).toBeLessThan(0.005);
});

test("a record dated after a weighing does not enter the comparison with it", () => {
  // 800 lb were known on the day, ± 1 % (8 lb): 810 lb are 1.25 times that off; 780 lb would be 3 times
  check(`aircraft kite { units lb, in; spread calculated 1% }
part hull at FS 100, WL 20 {
  calculated 800 lb
  calculated 780 lb on 2027-01-10 by "after the stress check"
//^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[changed-after-weighing]: sn1, sn2: hull is 20 lb lighter by a record of 2027-01-10, and was weighed with the airframe on 2026-11-12
}
airframe sn1 serial 1 { }
weighing first of sn1 on 2026-11-12 {
  scale hull at FS 99 reads 405 lb
  scale tail at FS 101 reads 405 lb
}
airframe sn2 serial 2 { }
weighing first of sn2 on 2026-11-12 {
  scale hull at FS 99 reads 405 lb
  scale tail at FS 101 reads 405 lb
}
`);
});

test.each([
  ["known by then", "calculated 4 lb at FS 80 weighed 6 lb on 2027-01-10", 804],
  ["weighed only later", "weighed 6 lb on 2027-01-10 at FS 80", 806],
])("what was missing is put in with its figure of that day: %s", (_, carpet, lb) => {
  const { basic } = weighed(`aircraft kite { units lb, in }
part hull weighed 800 lb at FS 100
part carpet ${carpet}
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 28 reads 98 lb
  scale main at FS 110 reads 702 lb
  missing carpet
}
`);
  expect(basic.lb).toBe(lb);
});

test("a part of the design with no figure of that day: whether it was on the scales, nothing says", () => {
  check(`aircraft kite { units lb, in }
part hull weighed 800 lb at FS 100
part skid at FS 60 weighed 12 lb on 2027-02-01
//                 ^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[changed-after-weighing]: sn1: skid has no figure before the record of 2027-02-01: nothing says what it was when the airframe was weighed on 2026-11-12, and the comparison is without it
part radio at FS 60
//   ^^^^^ info[mass-missing]: radio has no mass yet
airframe sn1 serial 1 { }
weighing first of sn1 on 2026-11-12 {
  scale front at FS 50 reads 112 lb
  scale rear at FS 107 reads 700 lb
}
`);
});

test("a redesign for later serials leaves a weighed airframe alone, and so does what it says itself", () => {
  check(`aircraft kite { units lb, in }
part hull weighed 800 lb at FS 100
part skid at FS 60 {
  calculated 12 lb effective .. 1
  calculated 14.5 lb on 2027-02-01 effective 2 ..
}
part fin calculated 5 lb at FS 200
part strut calculated 3 lb at FS 80
airframe sn1 serial 1 {
  weighed fin 5.2 lb on 2027-03-01
}
weighing first of sn1 on 2026-11-12 {
  scale front at FS 50 reads 120 lb
  scale rear at FS 107 reads 700 lb
}
change winter of sn1 on 2027-01-10 {
  install part skis weighed 9 lb on 2027-01-09 at FS 60
}
`);
});
