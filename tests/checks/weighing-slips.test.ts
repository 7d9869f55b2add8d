import { expect, test } from "vitest";
import { check, findingsOf } from "../fixture";

const kite = (scales: string, more = "") => `aircraft kite { units lb, in }
part hull calculated 800 lb at FS 100
airframe sn1 serial 1 { }
weighing first of sn1 on 2026-11-28 {
${scales}
}
${more}`;

test.each([
  [
    "98 lb",
    "353 kg",
    "353 kg is 2.2 times what would agree with the parts, as pounds are to kilograms",
  ],
  [
    "44.45 lb",
    "702 lb",
    "44.45 lb is one 2.2th of what would agree with the parts, as pounds are to kilograms",
  ],
  [
    "980 lb",
    "702 lb",
    "980 lb is 10 times what would agree with the parts, as with a decimal point out of place",
  ],
  [
    "98 oz",
    "702 lb",
    "98 oz is one 16th of what would agree with the parts, as ounces are to pounds",
  ],
  [
    "2778 lb",
    "702 lb",
    "2,778 lb is 28 times what would agree with the parts, as grams are to ounces",
  ],
  [
    "98 kg",
    "702 kg",
    "all scales read 2.2 times what would agree with the parts, as pounds are to kilograms",
  ],
])("nose %s, main %s: one sentence says which reading and why", (nose, main, said) => {
  const right = main === "353 kg" ? "  scale other at FS 110 reads 351 lb\n" : "";
  const text = kite(
    `  scale nose at FS 28 reads ${nose}\n${right}  scale main at FS 110 reads ${main}`,
  );
  expect(findingsOf({ "kite.poise": text })).toEqual([`figure-suspect: sn1: ${said}`]);
});

test.each([
  // 784 lb less or more by the airframe itself: 840 lb are 381 kg, 760 lb are 344.7 kg
  ["5 % heavier than its parts", "46.7 lb", "334.3 lb", "all scales read one 2.2th of"],
  ["5 % lighter than its parts", "42.2 lb", "302.5 lb", "all scales read one 2.2th of"],
  [
    "12 % heavier, read in pounds and written as kilograms",
    "109.8 kg",
    "786.2 kg",
    "all scales read 2.2 times",
  ],
  ["5 % heavier, in grams", "46670 kg", "334300 kg", "all scales read 1000 times"],
  ["4 % heavier, the main scale alone", "102 lb", "331 lb", "331 lb is one 2.2th of"],
])("the unit is named though the airframe is a few per cent off: %s", (_, nose, main, said) => {
  const text = kite(`  scale nose at FS 28 reads ${nose}\n  scale main at FS 110 reads ${main}`);
  const found = findingsOf({ "kite.poise": text });
  expect(found).toHaveLength(1);
  expect(found[0]).toContain(said);
});

test("a reading that is another unit's beside the others of its scale", () => {
  check(
    kite(`  scale nose at FS 28 reads 98 lb, 44.5 lb, 98.2 lb
//                                 ^^^^^^^ warning[figure-suspect]: sn1: 44.5 lb is one 2.2th of what this scale reads else, as pounds are to kilograms
  scale main at FS 110 reads 702 lb`),
  );
});

test.each([
  ["as its parts", "98 lb", "702 lb"],
  ["a heavy nose, by no unit", "160 lb", "702 lb"],
  ["a tenth too heavy", "108 lb", "772 lb"],
  ["a light tail scale, near enough", "2 lb", "790 lb"],
  ["a quarter too heavy", "122 lb", "878 lb"],
  ["two thirds of it", "65 lb", "468 lb"],
  ["half as much again", "147 lb", "1053 lb"],
])("nothing looks like a slip: %s", (_, nose, main) => {
  const text = kite(`  scale nose at FS 28 reads ${nose}\n  scale main at FS 110 reads ${main}`);
  expect(findingsOf({ "kite.poise": text })).toEqual([]);
});

test.each([
  [
    "less than the tare",
    kite("  scale nose at FS 28 reads 98 lb tare 100 lb\n  scale main at FS 110 reads 702 lb"),
    "out-of-range: this scale reads less than its tare",
  ],
  [
    "two on one day",
    kite(
      "  scale nose at FS 28 reads 98 lb\n  scale main at FS 110 reads 702 lb",
      `weighing second of sn1 on 2026-11-28 {
  scale nose at FS 28 reads 98 lb
  scale main at FS 110 reads 702 lb
}
`,
    ),
    "declared-twice: sn1 was weighed on that day already: which of the two counts?",
  ],
  [
    "an option that is none",
    `aircraft kite { units lb, in }
choice battery { option agm { part battery quoted 20 lb at FS 30 } }
airframe sn1 { choose battery nicd }
`,
    "unknown-name: the choice battery has no option called nicd",
  ],
  [
    "an airframe that is none",
    `aircraft kite { units lb, in; }
part hull calculated 800 lb at FS 100
weighing first of sn9 on 2026-11-28 { scale hook at FS 100 reads 800 lb }
`,
    "unknown-name: no airframe is called sn9",
  ],
])("one clear sentence: %s", (_, text, said) => {
  expect(findingsOf({ "kite.poise": text })).toEqual([said]);
});
