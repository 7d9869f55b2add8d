import { expect, test } from "vitest";
import { check, findingsOf } from "../fixture";

test("a clause that may stand once is not replaced by a later one in silence", () =>
  check(`aircraft kite { units lb, in; budget 900 lb; budget 950 lb }
//                                           ^^^^^^^^^^^^^ error[declared-twice]: budget stands here twice
fluid mogas 6 lb/gal
assembly wing budget 200 lb at FS 100 {
  at FS 110
//^^^^^^^^^ error[declared-twice]: at stands here twice
  cg FS 100 .. 130
  cg BL -1 .. 1
//^^^^^^^^^^^^^ error[declared-twice]: cg stands here twice
  part spar calculated 40 lb qty 2 at FS 10 {
    qty 3
//  ^^^^^ error[declared-twice]: qty stands here twice
    at FS 12
//  ^^^^^^^^ error[declared-twice]: at stands here twice
  }
}
tank main holds 10 gal of mogas unusable 1 gal at FS 100 {
  holds 12 gal of mogas
//^^^^^^^^^^^^^^^^^^^^^ error[declared-twice]: holds stands here twice
  unusable 2 gal
//^^^^^^^^^^^^^^ error[declared-twice]: unusable stands here twice
}
seat pilot at FS 90 range 110 lb .. 250 lb range 110 lb .. 300 lb
//                                         ^^^^^^^^^^^^^^^^^^^^^^ error[declared-twice]: range stands here twice
`));

test("a body is said by its inertia or by its shape", () =>
  check(`aircraft kite { units lb, in }
part ball calculated 4 lb at FS 10 shape sphere 5 in inertia Ixx 1 lb in^2, Iyy 1 lb in^2, Izz 1 lb in^2
//                                                   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[declared-twice]: inertia stands beside shape: one of them says how the mass lies
`));

test("records, notes, rates and rows may stand again", () =>
  expect(
    findingsOf({
      "kite.poise": `
aircraft kite { units lb, in; growth estimated 10%; growth quoted 3% }
fluid mogas 6 lb/gal
part spar estimated 40 lb at FS 10 note "one" note "two" { calculated 41 lb }
tank main holds 10 gal of mogas {
  filled 4 gal at FS 100
  filled 10 gal at FS 101
}
envelope normal { takeoff 900 lb; cg 10 lb: FS 0 .. 99; cg 900 lb: FS 0 .. 99 }
`,
    }).filter(it => it.startsWith("declared-twice")),
  ).toEqual([]));

test("an option that is not chosen is told so too", () =>
  check(`aircraft kite { units lb, in }
choice pack {
  option a { part pack calculated 4 lb at FS 10 }
  option b { part pack calculated 5 lb at FS 10 at FS 11 }
//                                              ^^^^^^^^ error[declared-twice]: at stands here twice
}
`));
