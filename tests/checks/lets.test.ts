import { test } from "vitest";
import { check } from "../fixture";

test("after a slash, a unit beyond the table takes a figure of its own", () => {
  check(`aircraft kite { units kg, m }
let wing_area = 11 m^2
part cloth calculated 1 g/dm^2 * wing_area at FS 2
//                        ^^ error[unknown-name]: nothing is called dm here; a unit beyond the table takes a figure of its own: 1 g / (1 dm^2)
part paint calculated 2 * 90 g/dm * 4 m at FS 2
//                             ^^ error[unknown-name]: nothing is called dm here; a unit beyond the table takes a figure of its own: 2 * 90 g / (1 dm)
part glue calculated 200 g/m^2 * wing_area at FS 2
part foil calculated 2 kg/wing_aera * wing_area at FS 2
//                        ^^^^^^^^^ error[unknown-name]: nothing is called wing_aera here; did you mean wing_area?
part tape calculated 2 * wing_area/dm^2 at FS 2
//                                 ^^ error[unknown-name]: nothing is called dm here
part lead calculated 3 kg/3 at FS 2
`);
});

test("a part's figure may not ask for a sum, by itself or through a let", () => {
  check(
    `aircraft kite { units kg, m }
let wing_mass = mass(wing)
let double = 2 * wing_mass
assembly wing {
  let half = wing_mass / 2
//           ^^^^^^^^^ error[unknown-name]: wing_mass hangs on mass(wing), a sum that this figure may be part of: only a requirement may ask for it
  part spar calculated 40 kg at FS 2
  part rib calculated 0.1 * mass(wing) at FS 2
//                          ^^^^^^^^^^ error[unknown-name]: mass(wing) is a sum that this figure may be part of: only a requirement may ask for it
  part cap calculated 0.1 * double at FS 2
//                          ^^^^^^ error[unknown-name]: double hangs on mass(wing), a sum that this figure may be part of: only a requirement may ask for it
  part web calculated half at FS wing_mass / (1 kg)
//                    ^^^^ error[unknown-name]: half hangs on mass(wing), a sum that this figure may be part of: only a requirement may ask for it
//                               ^^^^^^^^^ error[unknown-name]: wing_mass hangs on mass(wing), a sum that this figure may be part of: only a requirement may ask for it
}
require double < 100 kg
`,
    ["mass-missing", "arm-missing"],
  );
});

test("the nearest let of a name counts", () => {
  check(`aircraft kite { units kg, m }
let skin = 4 kg
assembly wing budget 5 kg {
//                   ^^^^ error[over-budget]: wing weighs 6 kg, 1 kg over its budget of 5 kg
  let skin = 6 kg
  part upper calculated skin at FS 2
}
assembly tail budget 5 kg { part upper calculated skin at FS 6 }
`);
});
