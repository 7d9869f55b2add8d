import { test } from "vitest";
import { check } from "../fixture";

test("a growth, a margin and a spread without their % are one error each, where they stand", () =>
  check(`aircraft kite { units kg, m, L; growth estimated 15, quoted 3%; budget 500 kg margin 3 }
//                                               ^^ error[unit-missing]: write 15%
//                                                                                   ^ error[unit-missing]: write 3%
part hull estimated 300 kg at FS 2
assembly wing {
  growth 0.5
//       ^^^ error[unit-missing]: write 0.5% or 50%
  spread estimated 10 common 2
//                 ^^ error[unit-missing]: write 10%
//                           ^ error[unit-missing]: write 2%
  part spar estimated 20 kg at FS 2 growth 8
//                                         ^ error[unit-missing]: write 8%
  part skin estimated 20 kg ± 4 at FS 2
//                            ^ error[unit-missing]: write 4%
}
`));

test("a share that a let gives is a share, and none is none", () =>
  check(`aircraft kite { units kg, m, L }
let unsure = 0.1
part hull estimated 300 kg at FS 2 growth unsure
part tail estimated 30 kg at FS 4 growth 0
`));
