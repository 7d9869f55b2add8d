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
