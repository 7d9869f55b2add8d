import { expect, test } from "vitest";
import { lenses, lensText } from "../../server/features/lenses";
import { emptyProject, type Project, withText } from "../../server/project";

const AT = "/specs/kite.poise";
const kite = (rows: string): Project =>
  withText(emptyProject(["/specs"]), AT, `aircraft kite { units lb, in; budget 200 lb }\n${rows}`);
const rows = `assembly wing budget 40 lb {
  part spar calculated 30 lb at FS 100
}
part hull weighed 90 lb at FS 90
seat pilot at FS 80 range 0 lb .. 250 lb
envelope normal { takeoff 400 lb; cg 100 lb: FS 84 .. 95; cg 400 lb: FS 84 .. 95 }
loading solo under normal { pilot 180 lb }
`;

/** What each lens says of what has become of it since, by the words it is of. */
function told(base: string, head: string): Readonly<Record<string, string>> {
  const project = kite(head);
  const since = { name: "HEAD", project: kite(base) };
  return Object.fromEntries(
    lenses(project, AT).flatMap(lens => {
      const plain = lensText(project, AT, lens)?.text ?? "";
      const text = lensText(project, AT, lens, since)?.text ?? "";
      return text === plain ? [] : [[lens.key, text.slice(plain.length)]];
    }),
  );
}

test("an assembly, the aircraft and a loading say what has become of them since", () => {
  // CG: (30 × 100 + 90 × 90 + 180 × 80) ÷ 300 = 85 in, 1 in from the forward limit at 84; with 4 lb more
  // at 100 in 25,900 ÷ 304 = 85.20; takeoff 300 and 304 lb of 400; 120 and 124 of 200 lb; 30 and 34 of 40
  expect(told(rows, rows.replace("30 lb", "34 lb"))).toEqual({
    "aircraft kite": " · +4 lb, 60 % → 62 % since HEAD",
    "assembly wing": " · +4 lb, 75 % → 85 % since HEAD",
    "loading solo":
      " · the forward limit 1 in → 1.2 in, the takeoff weight 100 lb → 96 lb since HEAD",
  });
});

test("a budget raised shows as its share, a loading outside by how far", () => {
  expect(told(rows, rows.replace("budget 40 lb", "budget 60 lb"))).toEqual({
    "assembly wing": " · 75 % → 50 % since HEAD",
  });
  // (30 × 100 + 90 × 90 + 180 × 75) ÷ 300 = 82 in
  expect(told(rows, rows.replace("pilot at FS 80", "pilot at FS 75"))).toEqual({
    "loading solo": " · the forward limit 1 in → 2 in beyond since HEAD",
  });
});

test("what is new says so; what did not change says nothing", () => {
  expect(told(rows, rows)).toEqual({});
  expect(told(rows, `// laid out anew\n${rows.replace("30 lb", "480 oz")}`)).toEqual({});
  const tail = "assembly tail budget 5 lb { part fin weighed 4 lb at FS 200 }\n";
  expect(told(rows, rows + tail)).toMatchObject({ "assembly tail": " · new since HEAD" });
});
