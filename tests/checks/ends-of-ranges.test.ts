import { test } from "vitest";
import { check } from "../fixture";

test("a bare number beside one in %MAC is no station, and no percentage either", () =>
  check(
    `aircraft kite { units kg, mm, L; mac at FS 1500 length 1200 }
part hull weighed 300 kg at FS 1800
envelope normal {
  takeoff 560 kg
  cg 280 kg: 15 .. 38 %MAC
//           ^^ error[unit-missing]: say the unit of 15: 15 %MAC or 15 mm
  cg 400 kg: 15 %MAC .. 38
//                      ^^ error[unit-missing]: say the unit of 38: 38 %MAC or 38 mm
  cg 560 kg: FS 0 .. 38 %MAC
//              ^ error[unit-missing]: say the unit of 0: 0 %MAC or 0 mm
}
envelope plain { cg 280 kg: 15 %MAC .. 38 %MAC; cg 560 kg: FS 1700 mm .. 38 %MAC }
`,
    ["no-cg-limits"],
  ));

test("a bare number beside a length in another unit than the drawing's says its own", () =>
  check(`aircraft kite { units kg, mm, L; extent FS -1 .. 7 m, BL -5000 .. 5 m }
//                                         ^^ error[unit-missing]: say the unit of -1: -1 m or -1 mm
//                                                       ^^^^^ error[unit-missing]: say the unit of -5000: -5000 m or -5000 mm
part hull weighed 300 kg at FS 1800
assembly wing { cg FS 2 .. 2.4 m; part spar weighed 9 kg at FS 2300 }
//                    ^ error[unit-missing]: say the unit of 2: 2 m or 2 mm
seat pilot at FS 2 .. 2.4 m range 0 kg .. 110 kg
//               ^ error[unit-missing]: say the unit of 2: 2 m or 2 mm
seat guest at FS 2000 .. 2400 mm range 0 kg .. 110 kg
bay rear at FS 0 .. 2.4 m range 0 kg .. 20 kg
`));

test("a target is of an assembly's own CG: rows by weight and %MAC stand in envelopes", () =>
  check(`aircraft kite { units kg, mm, L; mac at FS 1500 length 1200 }
assembly wing {
  cg 15 %MAC .. 38 %MAC
//   ^^^^^^^ error[syntax]: limits in %MAC stand in an envelope: a target is FS, BL or WL a .. b
  part spar weighed 9 kg at FS 2300
}
assembly tail {
  cg 280 kg: FS 4000 .. 4500
//   ^^^^^^ error[syntax]: a row by weight stands in an envelope: a target is FS, BL or WL a .. b
  part fin weighed 9 kg at FS 2300
}
`));
