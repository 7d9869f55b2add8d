import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { historyOf } from "../../server/views/history";

const pound = 0.45359237;
const inch = 0.0254;

test("an airframe's record: parts, weighing, changes item by item, and what follows", () => {
  const text = `aircraft kite { units lb, in }
part hull weighed 790 lb at FS 100
part radio weighed 3 lb at FS 60
part pack weighed 10 lb at FS 20
airframe sn1 { }
change refit of sn1 on 2027-01-20 {
  remove radio weighed 3.5 lb
  install part radio weighed 2.5 lb at FS 61
}
change balance of sn1 on 2027-03-01 { move pack to FS 40 }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 100 lb
  scale main at FS 110 reads 700 lb
}
`;
  const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  const round = (x: number) => Number(x.toFixed(3));
  const entries = historyOf(roots[1]!.root).map(({ on, what, mass, fs, empty }) => [
    on,
    what,
    typeof mass !== "number" ? "" : round(mass / pound),
    fs === undefined || fs === null ? "" : round(fs / inch),
    empty ? round(empty.mass / pound) : "",
    empty?.fs ? round(empty.fs / inch) : "",
  ]);
  expect(entries).toEqual([
    // 79,000 + 180 + 200 = 79,380 lb in ÷ 803 lb
    ["", "sum of its parts", "", "", 803, 98.854],
    ["2026-11-12", "weighing first", "", "", 800, 98.75],
    ["2027-01-20", "remove radio", -3.5, 60, "", ""],
    ["2027-01-20", "install radio", 2.5, 61, "", ""],
    // 79,000 − 210 + 152.5 = 78,942.5 ÷ 799
    ["2027-01-20", "change refit", "", "", 799, 98.802],
    ["2027-03-01", "move pack from", -10, 20, "", ""],
    ["2027-03-01", "move pack to", 10, 40, "", ""],
    // + 10 × 20
    ["2027-03-01", "change balance", "", "", 799, 99.052],
  ]);
});
