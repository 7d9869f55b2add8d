import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withEdit, withText } from "../../server/project";
import { AT, check, findingsOf } from "../fixture";

const chain = (from: number, to: number, of: (before: string) => string) =>
  Array.from({ length: to - from }, (_, i) => `let x${from + i + 1} = ${of(`x${from + i}`)}`);

test("a let that many name is evaluated once: these would be 2^64 ways", () => {
  const spec = (first: string, figure: string) => `aircraft kite { units kg, m budget 4 kg }
let x0 = ${first}
${chain(0, 64, it => `${it} * 0.5 + ${it} * 0.5`).join("\n")}
part spar calculated ${figure} at FS 1
require x64 < 4 kg
`;
  expect(findingsOf({ "a.poise": spec("5 kg", "x64") })).toEqual([
    "over-budget: kite weighs 5 kg, 1 kg over its budget of 4 kg",
    "requirement-failed: 5 kg is not < 4 kg",
  ]);
  expect(findingsOf({ "a.poise": spec("mass(spar)", "5 kg") })).toEqual([
    "over-budget: kite weighs 5 kg, 1 kg over its budget of 4 kg",
    "requirement-failed: 5 kg is not < 4 kg",
  ]);
});

test("a let without a value yet leaves what rests on it unknown, through any number of lets", () => {
  check(`aircraft kite { units kg, m }
let radius =
//         ^ error[syntax]: radius has no value yet: write = and a figure
let aside = radius / 2
let across = aside + aside
part spar calculated 5 kg at FS across
`);
});

test("a chain of lets is as long as its author likes", () => {
  for (const first of ["5 kg", "5 kg ± 1%"]) {
    const lets = chain(0, 5000, it => it).reverse();
    const text = `aircraft kite { units kg, m budget 4 kg }
${lets.join("\n")}
let x0 = ${first}
part spar calculated x5000 at FS 1
`;
    expect(findingsOf({ "a.poise": text })).toEqual([
      "over-budget: kite weighs 5 kg, 1 kg over its budget of 4 kg",
    ]);
  }
  const asked = `aircraft kite { units kg, m }
let x0 = mass(spar)
${chain(0, 5000, it => it).join("\n")}
part spar calculated 5 kg at FS 1
require x5000 < 4 kg
`;
  expect(findingsOf({ "a.poise": asked })).toEqual(["requirement-failed: 5 kg is not < 4 kg"]);
});

/** What is said after one edit, by the text replaced; each edit follows the one before. */
function afterEdits(text: string, edits: readonly (readonly [string, string])[]) {
  let project = withText(emptyProject(["/specs"]), AT, text);
  const said = () => judge(project).findings.map(it => it.message);
  let rows = text.split("\n");
  return [
    said(),
    ...edits.map(([gone, put]) => {
      const line = rows.findIndex(row => row.includes(gone));
      const character = rows[line]!.indexOf(gone);
      const end = { line, character: character + gone.length };
      project = withEdit(project, AT, { line, character }, end, put);
      rows = rows.map((row, i) => (i === line ? row.replace(gone, put) : row));
      return said();
    }),
  ];
}

test("an edited let is followed by all that hangs on it, wherever it stands", () => {
  const weighs = (kg: number) => [`kite weighs ${kg} kg, ${kg - 1} kg over its budget of 1 kg`];
  const text = `aircraft kite { units kg, m budget 1 kg }
let a = 2 kg
let b = a * 2
assembly wing {
  let c = b + 1 kg
  part spar calculated c at FS 1
}`;
  expect(
    afterEdits(text, [
      ["a = 2", "a = 3"],
      ["a * 2", "a * 3"],
      ["b + 1", "b + 2"],
      // hidden by another
      ["c = b", "b = 7 kg; let c = b"],
      ["b = 7 kg; let c = b", "c = b"],
      ["a = 3", "a = 2"],
    ]),
  ).toEqual([weighs(5), weighs(7), weighs(10), weighs(11), weighs(9), weighs(11), weighs(8)]);
});

test("a let that is written after the part that names it is found", () => {
  const [before, after] = afterEdits(
    `aircraft kite { units kg, m budget 1 kg }
let sheet = 2 kg
part spar calculated skin at FS 1`,
    [["sheet =", "skin ="]],
  );
  expect(before).toContain("nothing is called skin here");
  expect(after).toEqual(["kite weighs 2 kg, 1 kg over its budget of 1 kg"]);
});

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
//      ^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: wing.rib has no mass
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

test("lets that go in a circle are told where each leads on, those that only hang on them are not", () => {
  check(
    `aircraft kite { units kg, m }
let x = 2 kg + y
//             ^ error[unknown-name]: x hangs on itself
let y = 2 * z + 1 kg
//          ^ error[unknown-name]: y hangs on itself
let z = 3 kg + (1 kg + x)
//                     ^ error[unknown-name]: z hangs on itself
let own = own * 2
//        ^^^ error[unknown-name]: own hangs on itself
let after = x + 1 kg
let second = after + third
//                   ^^^^^ error[unknown-name]: second hangs on itself
let third = second
//          ^^^^^^ error[unknown-name]: third hangs on itself
let wing = mass(wing)
assembly wing {
  let a = b + y
//        ^ error[unknown-name]: a hangs on itself
  let b = a
//        ^ error[unknown-name]: b hangs on itself
  let inner = y
  part spar calculated x at FS 1
  part rib calculated inner at FS 1
  part skin calculated 2 kg at FS 1
}
require wing < 4 kg
//      ^^^^^^^^^^^ info[requirement-unknown]: not known to hold: wing.spar has no mass
choice engine {
  option one { part block calculated x at FS 2 }
  option two {
    let p = q
//          ^ error[unknown-name]: p hangs on itself
    let q = p
//          ^ error[unknown-name]: q hangs on itself
  }
}
`,
    ["mass-missing"],
  );
});

test("a circle of lets that is closed and opened again by an edit", () => {
  const of = ["x", "y"].map(it => `${it} hangs on itself`);
  const heavy = "kite weighs 2 kg, 1 kg over its budget of 1 kg";
  expect(
    afterEdits(
      `aircraft kite { units kg, m budget 1 kg }
let x = y
let y = 2 kg
part spar calculated x at FS 1`,
      [
        ["y = 2 kg", "y = x"],
        ["y = x", "y = 2 kg"],
      ],
    ),
  ).toEqual([[heavy], of, [heavy]]);
});

test("a figure of thousands of terms is a figure", () => {
  const terms = Array.from({ length: 5000 }, () => "bolt").join(" + ");
  check(`aircraft kite { units kg, m }
let bolt = 2 g
part bolts calculated ${terms} at FS 1
require mass(bolts) == 10 kg
`);
});
