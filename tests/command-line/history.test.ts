import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const kite = (parts: string, rest: string) => `aircraft kite { units lb, in }
part hull weighed 790 lb at FS 100
${parts}
airframe sn1 "S/N 1" { }
${rest}
`;
const scales = `weighing first of sn1 on 2026-11-12 {
  scale nose at FS 20 reads 100 lb
  scale main at FS 110 reads 700 lb
}`;

/** What `poise history` prints of sn1, without its headings and its last sentence; cells apart by two spaces. */
function historyOf(text: string): readonly string[] {
  const { stdout, stderr } = poise(["history", "kite.poise"], {
    in: folderOf({ "kite.poise": text }),
  });
  expect(stderr).toBe("");
  return stdout
    .split("\n")
    .slice(2, -2)
    .filter(it => !it.startsWith("negligible") && !it.startsWith("moves") && /^(\d| {2})/.test(it))
    .map(it => it.trim().replace(/ {2,}/g, " | "));
}

test("a part without a mass is not known, and so is the sum it is in", () => {
  expect(
    historyOf(
      kite(
        "part radio at FS 60\npart antenna weighed 2 lb",
        "change c of sn1 on 2027-01-20 { install part gps at FS 60; remove antenna }",
      ),
    ),
  ).toEqual([
    "sum of its parts | 792 lb (incomplete) | FS 100 in (incomplete)",
    "2027-01-20 | install gps | not known | not known",
    "2027-01-20 | remove antenna | -2 lb | not known",
    "2027-01-20 | change c | 790 lb (incomplete) | FS 100 in (incomplete)",
  ]);
});

test("after a weighing what came or went without a mass or an arm leaves its mark", () => {
  expect(
    historyOf(
      kite(
        "part radio at FS 60",
        `${scales}
change a of sn1 on 2027-01-20 { install part antenna weighed 2 lb }
change b of sn1 on 2027-01-21 { remove radio }
change c of sn1 on 2027-01-22 { install assembly box { part lid weighed 1 lb at FS 40; part lock at FS 40 } }`,
      ),
    ),
  ).toEqual([
    "sum of its parts | 790 lb (incomplete) | FS 100 in (incomplete)",
    // 2,000 + 77,000 = 79,000 lb in ÷ 800 lb
    "2026-11-12 | weighing first | 800 lb | FS 98.75 in",
    "2027-01-20 | install antenna | +2 lb | not known",
    "2027-01-20 | change a | 802 lb | FS 98.75 in (incomplete)",
    "2027-01-21 | remove radio | not known | not known",
    "2027-01-21 | change b | 802 lb (incomplete) | FS 98.75 in (incomplete)",
    "2027-01-22 | install box | +1 lb (incomplete) | FS 40 in (incomplete)",
    // 79,000 + 40 = 79,040 lb in ÷ 801 lb that have a place
    "2027-01-22 | change c | 803 lb (incomplete) | FS 98.68 in (incomplete)",
  ]);
});
