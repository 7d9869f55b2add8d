import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { compare, hiddenIn } from "../../server/views/compare";

const pound = 0.45359237;
const inch = 0.0254;

const kite = `aircraft kite { units lb, in; budget 120 lb }
part hull weighed 100 lb at FS 100
choice battery default light {
  option light { part pack weighed 10 lb at FS 50 }
  option heavy { part pack weighed 25 lb at FS 60 }
}
choice prop {
  option wood { part blade weighed 4 lb at FS 10 }
  option metal { part blade weighed 9 lb at FS 10; part hub weighed 1 lb at FS 12 }
}
`;

function rowsOf(text: string, airframe?: string, most = 10) {
  const { roots } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  const root = roots.find(it => it.airframe === airframe)!.root;
  const found = compare(root, "2026-11-25", most);
  const { rows, more } = found;
  const round = (x: number) => Number(x.toFixed(4));
  return {
    more,
    hidden: hiddenIn(found),
    rows: rows.map(it => ({
      chosen: it.chosen.map(pair => pair.join(" ")).join(", "),
      lb: round(it.empty / pound),
      fs: it.fs === null ? null : round(it.fs / inch),
      left: it.left === undefined ? undefined : round(it.left / pound),
      errors: it.errors,
    })),
  };
}

test("as it is, then what has errors and the least left of its budget", () => {
  expect(rowsOf(kite)).toEqual({
    more: 0,
    hidden: undefined,
    rows: [
      // 10,000 + 500 + 40 = 10,540 lb in ÷ 114 lb
      { chosen: "", lb: 114, fs: 92.4561, left: 6, errors: 0 },
      { chosen: "battery heavy, prop metal", lb: 135, fs: 85.9407, left: -15, errors: 1 },
      // 10,000 + 1,500 + 40 = 11,540 ÷ 129: over the budget
      { chosen: "battery heavy", lb: 129, fs: 89.4574, left: -9, errors: 1 },
      // 10,000 + 500 + 90 + 12 = 10,602 ÷ 120
      { chosen: "prop metal", lb: 120, fs: 88.35, left: 0, errors: 0 },
    ],
  });
  expect(rowsOf(kite, undefined, 3)).toMatchObject({
    more: 1,
    hidden: "1 more combination, none of them with errors",
    rows: { length: 3 },
  });
  expect(rowsOf(kite, undefined, 2)).toMatchObject({
    hidden: "2 more combinations, 1 of them with errors",
  });
});

test("beside an airframe as it is: what it chose, and what its scales read", () => {
  const { rows } = rowsOf(
    `${kite}airframe sn1 { choose battery heavy }
weighing first of sn1 on 2026-11-12 { scale nose at FS 20 reads 15 lb; scale main at FS 100 reads 115 lb }
`,
    "sn1",
  );
  // 300 + 11,500 = 11,800 lb in ÷ 130 lb; less 25 × 60, and 10 × 50 in: 10,800 ÷ 115
  expect([rows[0], rows.find(it => it.chosen === "battery light")]).toMatchObject([
    { chosen: "", lb: 130, fs: 90.7692 },
    { chosen: "battery light", lb: 115, fs: 93.913 },
  ]);
});

test("of more combinations than can be judged, how many were not is said", () => {
  const choices = Array.from(
    { length: 10 },
    (_, i) => `choice c${i} { option a { }; option b { part p${i} weighed 1 lb at FS 9 } }\n`,
  );
  const text = `aircraft kite { units lb, in }\n${choices.join("")}`;
  expect(rowsOf(text)).toMatchObject({
    more: 1014,
    hidden: "1,014 more combinations, none of 502 with errors, 512 of them not judged",
  });
});
