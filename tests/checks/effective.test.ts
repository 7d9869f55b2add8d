import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { findingsOf } from "../fixture";

const kite = "aircraft kite { units lb, in }\n";

function parts(spec: string) {
  const judged = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", kite + spec));
  const report = reportOf(judged.roots[0]!) as {
    parts: Record<"basic" | "predicted", { mass_kg: number; complete: boolean }>;
  };
  return report.parts;
}
const pounds = (kg: number) => kg / 0.45359237;

test("the design is the newest aircraft: what ended with an earlier serial is not in it", () => {
  const { basic, predicted } = parts(
    [
      "part spar effective .. 3 calculated 20 lb at FS 120",
      "part spar effective 4 .. calculated 22 lb at FS 121",
      "assembly doors effective .. 4 { part skin calculated 5 lb at FS 80 }",
      "reserve early 3 lb effective .. 2",
    ].join("\n"),
  );
  expect(pounds(basic.mass_kg)).toBeCloseTo(22, 9);
  expect(pounds(predicted.mass_kg)).toBeCloseTo(22, 9);
});

test("a redesign is two lines of one name; two for the same serials are one too many", () => {
  const two = "part spar effective .. 3 calculated 20 lb at FS 120\n";
  expect(
    findingsOf({
      "kite.poise": `${kite}${two}part spar effective 4 .. calculated 22 lb at FS 121\n`,
    }),
  ).toEqual([]);
  const twice =
    "part spar calculated 20 lb at FS 120\npart spar effective 4 .. calculated 22 lb at FS 121\n";
  expect(findingsOf({ "kite.poise": kite + twice })).toEqual([
    "declared-twice: spar is declared twice",
  ]);
});

test("what only earlier aircraft have is checked all the same", () => {
  const spec = "assembly doors effective .. 4 { part skin calculated 5 at FS 80 }\n";
  expect(findingsOf({ "kite.poise": kite + spec })).toEqual([
    "unit-missing: this mass needs its unit",
  ]);
});

test("a weighed assembly with a part of unknown place has an incomplete CG", () => {
  const spec =
    "assembly rudder {\n  weighed 12 lb\n  part spar calculated 6 lb at FS 262\n  part horn calculated 2 lb\n}\n";
  const { basic } = parts(spec);
  expect(pounds(basic.mass_kg)).toBeCloseTo(12, 9);
  expect(basic.complete).toBe(false);
});

test("a let inside the chosen option is seen by its parts, and clashes with one outside", () => {
  const option =
    "choice b { option a {\n  let thin = 2 lb\n  part tray calculated thin at FS 20\n} }\n";
  expect(findingsOf({ "kite.poise": kite + option })).toEqual([]);
  expect(findingsOf({ "kite.poise": `${kite}let thin = 3 lb\n${option}` })).toEqual([
    "declared-twice: thin has a value already",
  ]);
});
