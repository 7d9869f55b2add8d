import { expect, test } from "vitest";
import { check, findingsOf } from "../fixture";

const kite = "aircraft kite { units lb, in }\n";
const said = (part: string) => findingsOf({ "kite.poise": kite + part });

test.each([
  // 14 lb is anything from 13.5 to 14.5 lb: 1,200 in lb is at 82.8 to 88.9 in
  ["weighed 14 lb at FS 83 moment 1200 in lb", true],
  ["weighed 14.00 lb at FS 83 moment 1200 in lb", false],
  ["weighed 14.00 lb at FS 85.7 moment 1200 in lb", true],
  ["weighed 14.00 lb at FS 85.7 moment 1200.0 in lb", true],
  ["weighed 14.000 lb at FS 85.70 moment 1200.0 in lb", false],
  // half an eighth
  ["weighed 2.00 lb at FS 10 1/8 in moment 20.15 in lb", true],
  ["weighed 2.00 lb at FS 10.125 in moment 20.15 in lb", false],
  ["weighed 2.00 lb at FS 10 ft moment 232 in lb", true],
  ["weighed 2.00 lb at FS 10.0 ft moment 232 in lb", false],
  ["weighed 1.0e1 lb at FS 20.0 moment 200 in lb", true],
  // a figure that was worked out was not rounded
  ["calculated 2 * 3.00 lb at FS 20.0 moment 120.0 in lb", true],
  ["calculated 2 * 3.00 lb at FS 20.0 moment 121.0 in lb", false],
  ["qty 4 weighed 3.00 lb at FS 20.0 moment total 240 in lb", true],
  ["qty 4 weighed 3.00 lb at FS 20.0 moment 240 in lb", false],
])("the printed digits decide: %s", (clauses, agrees) => {
  const codes = said(`part tray ${clauses}\n`).map(it => it.split(":")[0]);
  expect(codes).toEqual(agrees ? [] : ["arm-and-moment-differ"]);
});

test("a moment is about the datum, an arm in its frame: both are told in the arm's", () => {
  check(`aircraft kite { units lb, in }
assembly tail {
  at FS 200
  part fin calculated 10.00 lb at FS 20.0 moment 2200 in lb
  part rudder calculated 10.00 lb at FS 1.50 ft moment 2200 in lb
//                                   ^^^^^^^^^^ info[arm-and-moment-differ]: rudder stands at FS 1.5 ft here, its moment gives 1.67 ft
}
ballast shot 10.00 lb at FS 20.0 moment 250.0 in lb
waive arm-and-moment-differ of keel "read from an old sheet"
part keel calculated 10.00 lb at FS 3.0 moment 50.0 in lb
`);
});

test("the record a moment stands with has the mass", () => {
  expect(
    said("part fin {\n  at FS 20.0\n  quoted 10.0 lb\n  moment 200 in lb\n  weighed 12.0 lb\n}\n"),
  ).toEqual([]);
  expect(said("part fin weighed nothing at FS 20.0 moment 200 in lb\n")).toEqual([
    "unknown-name: nothing is called nothing here",
  ]);
});
