import { expect, test } from "vitest";
import { flightsOf } from "../../server/compute/flights";
import { emptyOf } from "../../server/compute/stages";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { check, findingsOf } from "../fixture";

const pound = 0.45359237;
const inch = 0.0254;

interface Numbers {
  readonly name: string;
  readonly airframe: string | null;
  readonly parts: { readonly basic: Mass };
  readonly assemblies: readonly { readonly path: string; readonly basic: Mass }[];
}
interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly (number | null)[];
}

function rootsOf(text: string, said: readonly string[] = []): readonly Numbers[] {
  const judged = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  expect(judged.findings.map(it => it.message)).toEqual(said);
  return judged.roots.map(root => reportOf(root) as unknown as Numbers);
}

const lbAndIn = ({ mass_kg, cg_m }: Mass) => ({
  lb: Number((mass_kg / pound).toFixed(6)),
  in: cg_m.slice(0, 2).map(it => it && Number((it / inch).toFixed(6))),
});

const kite = `aircraft kite { units lb, in }
assembly wing mirrored {
  part spar calculated 20 lb at FS 100, BL 40
  part aileron calculated 4 lb at FS 120, BL 80
}
part hull calculated 200 lb at FS 90
choice battery default light {
  option light { part pack quoted 9 lb at FS 20 }
  option heavy { part pack quoted 22 lb at FS 60 }
}
`;

test("each airframe is an aircraft of its own, with what it chooses, removes, installs and moves", () => {
  const [design, sn1, sn2] = rootsOf(`${kite}
airframe sn1 serial 1 {
  choose battery heavy
  remove wing.aileron
  install part hull_camera weighed 1 lb at FS 30
}
airframe sn2 serial 2 {
  move pack to FS 50
}
`);
  expect([design, sn1, sn2].map(it => it!.airframe)).toEqual([null, "sn1", "sn2"]);
  // 2 × (20 × 100 + 4 × 120) + 200 × 90 + 9 × 20 = 4,960 + 18,000 + 180 = 23,140 lb in ÷ 257 lb
  expect(lbAndIn(design!.parts.basic)).toEqual({ lb: 257, in: [90.038911, 0] });
  // 2 × 20 × 100 + 200 × 90 + 22 × 60 + 1 × 30 = 23,350 lb in ÷ 263 lb
  expect(lbAndIn(sn1!.parts.basic)).toEqual({ lb: 263, in: [88.78327, 0] });
  // 4,960 + 18,000 + 9 × 50 = 23,410 lb in
  expect(lbAndIn(sn2!.parts.basic)).toEqual({ lb: 257, in: [91.089494, 0] });
});

test("a record for one side speaks for it alone; a place of the left side is where it is", () => {
  const [, both] = rootsOf(`${kite}
airframe sn1 serial 1 {
  weighed wing.LH.spar 21 lb on 2026-10-02
  weighed wing.aileron 5 lb on 2026-10-02
  install part wing.LH.lamp weighed 1 lb at FS 110, BL -90
  move wing.RH.aileron to FS 121, BL 81
}
`);
  const wing = both!.assemblies.filter(it => it.path.startsWith("wing"));
  // right: 20 × (100, 40) + 5 × (121, 81); left: 21 × (100, −40) + 5 × (120, −80) + 1 × (110, −90)
  expect(wing.map(it => [it.path, lbAndIn(it.basic)])).toEqual([
    ["wing.RH", { lb: 25, in: [104.2, 48.2] }],
    ["wing.LH", { lb: 27, in: [104.074074, -49.259259] }],
  ]);
});

test("a mirrored part may lose one side, or have it weighed", () => {
  const text = `aircraft kite { units lb, in }
part hull calculated 200 lb at FS 90
part lamp mirrored calculated 1 lb at FS 100, BL 60
airframe sn1 { remove lamp.RH }
airframe sn2 { weighed lamp.LH 1.5 lb at FS 101, BL -61 }
`;
  const [, one, two] = rootsOf(text);
  expect(lbAndIn(one!.parts.basic)).toEqual({ lb: 201, in: [90.049751, -0.298507] });
  // 18,000 + 100 + 1.5 × 101 = 18,251.5 lb in; 60 − 1.5 × 61 = −31.5 lb in
  expect(lbAndIn(two!.parts.basic)).toEqual({ lb: 202.5, in: [90.130864, -0.155556] });
});

test("of one side of an assembly a total is that side alone, of the pair it is both", () => {
  const weighed = (record: string, of: string) => {
    const unlisted = `sn1: ${of} weighs 25 lb; its parts come to 24 lb, 1 lb unlisted`;
    const [, sn1] = rootsOf(`${kite}airframe sn1 { weighed ${record} }\n`, [unlisted]);
    return lbAndIn(sn1!.parts.basic).lb;
  };
  expect(weighed("wing.LH total 25 lb", "wing.LH: wing")).toBe(258);
  expect(weighed("wing.LH 25 lb", "wing.LH: wing")).toBe(258);
  expect(weighed("wing total 50 lb", "wing")).toBe(259);
});

test("a redesign never moves an airframe that was built before it", () => {
  const [design, old, young] = rootsOf(`aircraft kite { units lb, in }
part spar effective .. 3 calculated 20 lb at FS 120
part spar effective 4 .. calculated 22 lb at FS 121
part skin { calculated 30 lb effective .. 3; calculated 31 lb; at FS 110 }
airframe old serial 3 { }
airframe young serial 4 { }
`);
  // the record without serials is of all, so the later of the two lines counts for both
  expect([design, old, young].map(it => lbAndIn(it!.parts.basic).lb)).toEqual([53, 51, 53]);
});

test("an airframe's own record comes before the design's if it is at least as mature", () => {
  const [, sn1, sn2] = rootsOf(`aircraft kite { units lb, in }
part spar weighed 20 lb on 2026-10-02 at FS 120
airframe sn1 { weighed spar 21 lb on 2026-03-01 }
airframe sn2 { calculated spar 25 lb on 2026-09-01 }
`).map(it => lbAndIn(it.parts.basic).lb);
  expect([sn1, sn2]).toEqual([21, 20]);
});

test("what is changed inside a weighed assembly later changes the whole by as much", () => {
  const text = `aircraft kite { units lb, in }
assembly rudder {
  weighed 11 lb
  part spar calculated 6 lb at FS 262
  part horn calculated 2 lb at FS 270
  part skin calculated 2 lb at FS 266
}
airframe sn1 {
  remove rudder.horn
  weighed rudder.spar 6.5 lb
  install part rudder.lamp weighed 0.5 lb at FS 280
}
`;
  const unlisted = "rudder weighs 11 lb; its parts come to 10 lb, 1 lb unlisted";
  const inAirframe = "sn1: rudder weighs 10 lb; its parts come to 9 lb, 1 lb unlisted";
  const [design, sn1] = rootsOf(text, [unlisted, inAirframe]);
  expect(lbAndIn(design!.parts.basic)).toEqual({ lb: 11, in: [264.4, 0] });
  // 11 × 264.4 − 2 × 270 + 0.5 × 262 + 0.5 × 280 = 2,639.4 lb in ÷ 10 lb
  expect(lbAndIn(sn1!.parts.basic)).toEqual({ lb: 10, in: [263.94, 0] });
});

test("what holds for an airframe alone names it; what is equal in all is said once", () => {
  check(`aircraft kite { units lb, in }
assembly wing mirrored budget 24 lb {
//                            ^^^^^ error[over-budget]: sn1, sn2: wing.LH: wing weighs 26 lb, 2 lb over its budget of 24 lb
  part spar calculated 20 lb at FS 100, BL 40
  part tip at FS 120, BL 80
//     ^^^ info[mass-missing]: tip has no mass yet
}
airframe sn1 { weighed wing.LH.spar 26 lb }
airframe sn2 { weighed wing.LH.spar 26 lb }
`);
});

test("slips in an airframe's block are told at the narrowest place", () => {
  check(`aircraft kite { units lb, in }
assembly wing { part spar calculated 20 lb at FS 100 }
choice battery { option light { part pack quoted 9 lb at FS 20 } }
assembly tail mirrored { part fin calculated 2 lb at FS 200, BL 20 }
airframe sn1 {
  weighed tail.fin.LH 3 lb
//        ^^^^^^^^^^^ error[unknown-name]: the side stands right after what is mirrored, and fin only stands in it
  choose motor big
//       ^^^^^ error[unknown-name]: no choice is called motor
  choose battery heavy
//               ^^^^^ error[unknown-name]: the choice battery has no option called heavy
  remove wing.rib
//       ^^^^^^^^ error[unknown-name]: there is no wing.rib to remove
  weighed wing.rib 2 lb
//        ^^^^^^^^ error[unknown-name]: there is no part wing.rib
  weighed wing.spar.LH 2 lb
//        ^^^^^^^^^^^^ error[unknown-name]: wing.spar is not mirrored: it has no LH
  move wing to FS 100
//     ^^^^ error[syntax]: wing has no origin of its own (at …): move its parts
  install part boom.lamp weighed 1 lb at FS 200
//             ^^^^^^^^^ error[unknown-name]: there is no assembly boom
  install tank tail.LH.aux holds 2 gal of mogas at FS 200
//        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[syntax]: tail.LH: a tank on one side alone stands in the design, unmirrored
  remove kite
//       ^^^^ error[syntax]: this is the whole aircraft: name something in it
  weighed wing.spar 20
//                  ^^ error[unit-missing]: this mass needs its unit
}
`);
});

test("an airframe may stand in a file that includes the design", () => {
  const found = findingsOf({
    "kite.poise":
      "aircraft kite { units lb, in }\npart hull budget 905 lb weighed 900 lb at FS 100\n",
    "sn001.poise": 'include "kite.poise"\nairframe sn001 serial 1 {\n  weighed hull 906 lb\n}\n',
    "sn002.poise": 'include "kite.poise"\nairframe sn002 serial 2 {\n}\n',
  });
  expect(found).toEqual(["over-budget: sn001: hull weighs 906 lb, 1 lb over its budget of 905 lb"]);
});

test("a waiver that an airframe needs is no unused one", () => {
  expect(
    findingsOf({
      "kite.poise": `aircraft kite { units lb, in }
part hull budget 905 lb weighed 900 lb at FS 100
waive over-budget of hull "a repaired one"
airframe sn001 { weighed hull 906 lb }
`,
    }),
  ).toEqual(["over-budget: sn001: hull weighs 906 lb, 1 lb over its budget of 905 lb"]);
});

test("an airframe moves an assembly by its origin, a seat and a tank with its rows", () => {
  const text = `aircraft kite { units lb, in, gal }
fluid mogas 6 lb/gal
assembly gear mirrored {
  at FS 90, BL 20, WL -10
  part leg weighed 10 lb at FS 1, BL 2, WL -20
}
tank main holds 10 gal of mogas unusable 1 gal { at FS 100, WL 4; filled 1 gal at FS 98; filled 10 gal at FS 104 }
seat pilot at FS 80 .. 90 range 0 lb .. 220 lb
loading solo { pilot 200 lb; main 10 gal }
airframe sn1 {
  move gear to FS 95
  move gear.LH to BL -30
  move main to FS 110
  move pilot to FS 84
}
`;
  const { findings, roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  expect(findings.map(it => it.message)).toEqual([]);
  const inches = (x: number | null | undefined) => Number(((x ?? Number.NaN) / 0.0254).toFixed(3));
  const places = roots.map(({ root }) => {
    const takeoff = flightsOf(root)[0]!.stages.find(it => it.kind === "takeoff")!.basic;
    const { basic } = emptyOf(root);
    return [inches(basic.fs), inches(basic.bl), inches(basic.wl), inches(takeoff.fs)];
  });
  // empty: 20 lb at FS 91, WL -30, and 6 lb unusable at FS 98, WL 4: 2,408 / 26 = 92.615
  // takeoff: 20 lb at 91, 200 lb at 85, 60 lb at 104: 25,060 / 280 = 89.5
  expect(places[0]).toEqual([92.615, 0, -22.154, 89.5]);
  // moved: 20 lb at FS 96, one leg at BL 22 and one at BL -32; 6 lb at FS 108: 2,568 / 26 = 98.769
  // takeoff: 20 lb at 96, 200 lb at 84, 60 lb at 114: 25,560 / 280 = 91.286
  expect(places[1]).toEqual([98.769, -3.846, -22.154, 91.286]);
});
