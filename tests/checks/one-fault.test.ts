import { test } from "vitest";
import { check } from "../fixture";

test("a chord that is not understood is one error, and no limit in %MAC is known", () =>
  check(`aircraft kite { units kg, mm, L; mac 600 1200 }
//                                   ^^^ error[syntax]: the mean aerodynamic chord needs its leading edge: mac at FS 121 length 54
part hull weighed 300 kg at FS 1800
seat left at FS 1700 range 60 kg .. 110 kg
envelope normal {
  takeoff 560 kg
  cg 280 kg: 15 %MAC .. 38 %MAC
  cg 560 kg: 15 %MAC .. 38 %MAC
}
loading solo under normal { left 80 kg }
`));

test("an amount without its unit is one error", () =>
  check(`aircraft kite { units kg, mm, L }
part hull weighed 300 kg at FS 1800
fluid mogas 0.72 kg/L
tank main_tank holds 60 L of mogas at FS 1900
envelope normal { takeoff 560 kg; cg 280 kg: FS 1700 .. 1900; cg 560 kg: FS 1700 .. 1900 }
loading solo under normal { main_tank 30 }
//                                    ^^ error[unit-missing]: this amount is a volume or a mass, not a plain number
`));

test("a figure with a decimal comma is one error", () =>
  check(`aircraft kite { units kg, mm, L }
part hull quoted 9,2 kg on 2026-02-01 at FS 1800
//                ^ error[syntax]: write a decimal point: 9.2
`));
