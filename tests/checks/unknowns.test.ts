import { test } from "vitest";
import { check } from "../fixture";

test("a seat or a tank without an FS says that no loading with it is judged", () => {
  check(`aircraft kite { units lb, in, gal }
part hull weighed 600 lb at FS 50, WL 3
fluid mogas 6 lb/gal
seat pilot at BL 3 range 100 lb .. 250 lb
//   ^^^^^ info[arm-missing]: pilot has no FS yet: no loading that uses it is known to be inside
tank main holds 50 gal of mogas
//   ^^^^ info[arm-missing]: main has no FS yet: no loading that uses it is known to be inside
tank aux holds 5 gal of mogas { filled 5 gal at FS 52 }
envelope normal { takeoff 1200 lb; cg 500 lb: FS 45 .. 55; cg 1200 lb: FS 45 .. 55 }
loading solo under normal { pilot 200 lb; main full }
//      ^^^^ info[loading-unknown]: not known to be inside: pilot has no FS
loading empty_seats under normal { aux full }
loading heavy under normal { pilot 900 lb }
//      ^^^^^ error[above-weight-limit]: heavy at takeoff weighs 1,500 lb, 300 lb over the takeoff weight of 1,200 lb (normal) (incomplete: something has no mass or no arm)
//                                 ^^^^^^ error[out-of-range]: this is outside the range of pilot
require fs(solo.takeoff) <= 52 in "cg"
//      ^^^^^^^^^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: pilot has no FS
`);
});

test("what breaks a requirement or a target with something unknown in it is incomplete", () => {
  check(`aircraft kite { units lb, in }
assembly wing {
  cg FS 40 .. 45
//^^^^^^^^^^^^^^ warning[cg-off-target]: the CG of wing lies at FS 50 in, 5 in aft of its target of 45 in (incomplete: something has no mass or no FS)
  part spar weighed 30 lb at FS 50
  part skin weighed 60 lb
//     ^^^^ info[arm-missing]: skin has no FS yet: its mass counts, and the CG is incomplete
}
require fs(wing) <= 45 in
//      ^^^^^^^^^^^^^^^^^ error[requirement-failed]: 50 in is not <= 45 in (incomplete: something has no mass or no arm)
`);
});

test("a requirement of every loading waits for the first one", () => {
  check(`aircraft kite { units lb, in }
part hull weighed 600 lb at FS 50
require fs(loading.takeoff) <= 52 in for every loading
//      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: there is no loading yet
`);
});

test("the extreme CGs behind a bound are not known, and what fails by it may hold", () => {
  check(
    `aircraft kite { units kg, m, L }
fluid water 1 kg/L
part hull weighed 300 kg at FS 2
tank bent holds 100 L of water {
  filled 50 L at FS 1
  filled 100 L at FS 3
}
envelope normal { takeoff 370 kg; cg 250 kg: FS 1 .. 3; cg 400 kg: FS 1 .. 3 }
require aft(normal) <= 1.99 m
//      ^^^^^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: what it asks for is not known, or only within bounds
`,
  );
});

test("what is loaded has no mass of its own, and a tank no more unusable fluid than it holds", () => {
  check(`aircraft kite { units lb, in, gal }
fluid mogas 6 lb/gal
tank main holds 10 gal of mogas unusable 11 gal at FS 90
//                              ^^^^^^^^^^^^^^^^^^^^^^^^ error[out-of-range]: main does not hold so much: this is more than all of it
part hull weighed 600 lb at FS 50
require mass(main) <= 60 lb
//           ^^^^ error[unknown-name]: a tank has no mass of its own: a loading fills it
`);
});

test("a weight limit is given once", () => {
  check(
    `aircraft kite { units lb, in }
part hull weighed 100 lb at FS 50
envelope normal { cg FS 0 .. 99; takeoff 50 lb; takeoff 2000 lb }
//                                              ^^^^^^^^^^^^^^^ error[declared-twice]: takeoff is given twice
`,
  );
});

test("two options of one name are told apart by nobody", () => {
  check(`aircraft kite { units lb, in }
choice battery {
  option small { part pack weighed 8 lb at FS 50 }
  option small { part pack weighed 9 lb at FS 50 }
//       ^^^^^ error[declared-twice]: the option small stands in this choice twice
}
`);
});

test("a loading's burns have no stage of their own in an expression; a moment has the author's unit", () => {
  check(`aircraft kite { units lb, in }
part hull weighed 600 lb at FS 50
loading solo { }
require mass(solo.after) <= 700 lb
//           ^^^^^^^^^^ error[unknown-name]: a loading has the stages ramp, takeoff, landing and zero_fuel, not after
require mass(hull) * fs(hull) <= 10 lb in * 100
//      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[requirement-failed]: 30,000 lb in is not <= 1,000 lb in
`);
});

test("a loading and a part have one name space", () => {
  check(`aircraft kite { units lb, in }
part solo weighed 600 lb at FS 50
loading solo { }
//      ^^^^ error[declared-twice]: solo is declared twice
`);
});

test("a requirement that is not known names what it asks for, and nothing else", () => {
  check(
    `aircraft kite { units lb, in }
part fin at FS 200
assembly wing {
  part spar weighed 30 lb at FS 50
  part skin weighed 6 lb
}
seat pilot at BL 3 range 0 lb .. 250 lb
seat guest at FS 40 range 0 lb .. 250 lb
loading solo { guest 100 lb }
let place = fs(wing)
require fs(wing) <= 55 in
//      ^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: wing.skin has no FS
require place <= 55 in
//      ^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: wing.skin has no FS
require mass(fin) <= 5 lb
//      ^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: fin has no mass
require wl(wing.spar) <= 5 in
//      ^^^^^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: wing.spar has no WL
require fs(solo.takeoff) <= 55 in
//      ^^^^^^^^^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: fin has no mass
`,
    ["arm-missing", "mass-missing"],
  );
});
