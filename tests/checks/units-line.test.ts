import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { check } from "../fixture";

test("units that name no length leave the drawing's open", () =>
  check(`aircraft kite { units lb, gal }
//              ^^^^^^^^^^^^^ warning[units-assumed]: the units name no length: a bare FS, BL or WL is in m; say it there, such as in or mm
part spar calculated 20 lb at FS 2
`));

test("units without their commas, or with a colon, are understood and told how they are written", () => {
  check(`aircraft kite { units kg mm L }
//                    ^^^^^^^ error[syntax]: commas stand between units: units kg, mm, L
part spar calculated 20 kg at FS 2000
`);
  check(`aircraft kite { units: kg, mm, L }
//                   ^ error[syntax]: leave the colon out: units kg, mm, L
part spar calculated 20 kg at FS 2000
`);
  for (const units of ["units kg, mm, L", "units kg mm L", "units: kg, mm, L", "units: kg mm L"]) {
    const text = `aircraft kite { ${units} }\npart spar calculated 20 kg at FS 2000\n`;
    const { roots } = judge(withText(emptyProject(["/"]), "/kite.poise", text));
    expect(roots[0]).toMatchObject({ cg: "FS 2,000 mm", emptyWeight: "20 kg" });
  }
});
