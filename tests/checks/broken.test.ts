import { expect, test } from "vitest";
import type { Judgement } from "../../server/judge";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { AT } from "../fixture";

/** 300 kg at FS 1800 and a shell of 48 kg at FS 1700, which must be there for the CG to be inside. */
const spec = (shell: string, more = "", amount = "80 kg") => `aircraft kite { units kg, mm, L }
part hull weighed 300 kg at FS 1800
assembly body { ${shell} }
seat left at FS 1700 range 60 kg .. 110 kg
bay baggage at FS 2400 range 0 kg .. 20 kg
envelope normal {
  takeoff 560 kg
  cg 340 kg: FS 1770 .. 1786.3
  cg 560 kg: FS 1700 .. 1800
}
loading solo under normal { left ${amount} }
${more}`;
const shell = "part shell calculated 48 kg at FS 1700";

test("as it should be it is inside", () => {
  expect(errorsOf(spec(shell))).toEqual([]);
  expect(standOf(spec(shell))).toEqual({ complete: true, inside: true });
});

/** Each with the one thing that is said of it. */
const slips: readonly (readonly [slip: string, says: string])[] = [
  ['part "Shell" calculated 48 kg at FS 1700', "this part has no name yet"],
  [
    "part shell mirored calculated 24 kg at FS 1700",
    "mirored is not a word of the language here; did you mean mirrored?",
  ],
  [
    "part shell calculated 48 kg qty 1.5 at FS 1700",
    "a quantity is a whole number of pieces, 1 or more",
  ],
  [
    "part shell calculated 48 kg qty -3 at FS 1700",
    "a quantity is a whole number of pieces, 1 or more",
  ],
  [
    "part shell calculated 48 kg qty 0 at FS 1700",
    "a quantity is a whole number of pieces, 1 or more",
  ],
  ["part shell calculated 2 kg 24 x at FS 1700", "x is no unit; pieces are written qty 4"],
  ["part shell calculated 48 kg at FS 1,700", "leave the comma out: 1700"],
  ["part shell calculated 4,8 kg at FS 1700", "write a decimal point: 4.8"],
  ["part shell calculated 48 at FS 1700", "this mass needs its unit"],
  ["part shell calculated 48 kg at FS 1700 kg", "FS is a length, not a mass"],
  [
    "prat shell calculated 48 kg at FS 1700",
    "prat is not a word of the language here; did you mean part?",
  ],
  [
    "assemby gear { part shell calculated 48 kg at FS 1700 }",
    "assemby is not a word of the language here; did you mean assembly?",
  ],
];

test.each(slips)("%s: said once, and what rests on it is not known", (slip, says) => {
  expect(errorsOf(spec(slip))).toEqual([says]);
  expect(standOf(spec(slip))).toEqual({ complete: false, inside: null });
});

test("an option that is not there leaves the aircraft incomplete", () => {
  const choice = (name: string) => `choice cells default ${name} { option lead { ${shell} } }`;
  expect(standOf(spec("", choice("lead")))).toEqual({ complete: true, inside: true });
  expect(errorsOf(spec("", choice("led")))).toEqual(["this choice has no option called led"]);
  expect(standOf(spec("", choice("led")))).toEqual({ complete: false, inside: null });
});

test.each([
  ["= 80 kg", "= does not fit here"],
  ["80", "this amount is a mass, not a plain number"],
  ["80 kg; bagage 10 kg", "no tank, seat or bay is called bagage"],
])("a loading with %s is not judged", (amount, says) => {
  expect(errorsOf(spec(shell, "", amount))).toEqual([says]);
  expect(standOf(spec(shell, "", amount))).toEqual({ complete: true, inside: null });
});

test("what is too heavy without what fell out is too heavy all the same", () => {
  expect(errorsOf(spec("part shell mirored calculated 200 kg at FS 1700"))).toEqual([
    "mirored is not a word of the language here; did you mean mirrored?",
    expect.stringMatching(/^solo at takeoff weighs 580 kg, 20 kg over .* \(incomplete: /),
  ]);
});

const judged = (text: string): Judgement => judge(withText(emptyProject(["/specs"]), AT, text));
const errorsOf = (text: string) =>
  judged(text)
    .findings.filter(it => it.code !== "loading-can-exceed")
    .map(it => it.message);

/** Is the empty weight complete, and the loading inside at takeoff? */
function standOf(text: string) {
  const [root] = judged(text).roots;
  const { loadings } = reportOf(root!) as {
    loadings: { stages: { stage: string; inside: boolean | null }[] }[];
  };
  const takeoff = loadings[0]!.stages.find(it => it.stage === "takeoff");
  return { complete: root!.complete, inside: takeoff!.inside };
}
