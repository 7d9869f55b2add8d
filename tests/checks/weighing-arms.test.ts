import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { check, findingsOf } from "../fixture";

// 800 lb at FS 100, the hull 600 lb ± 2 % and the tail 200 lb ± 2 % at FS 40 and 280
const kite = (scales: string, extent = "extent FS 0 .. 300, BL -50 .. 50") => `aircraft kite {
  units lb, in
  spread calculated 2%
  ${extent}
}
part hull calculated 600 lb at FS 40
part tail calculated 200 lb at FS 280
airframe sn1 { }
weighing first of sn1 on 2026-11-28 {
${scales}
}
`;

test("scales and parts weigh the same, and an arm does not: where each scale would have to stand", () => {
  // nose 100 lb, mains 700 lb: 100 × 30 + 700 × 110 = 80,000 lb in, FS 100; at FS 80 for 30 it is 106.25.
  // Parts: 600 × 0.02 × 60 in = 720 and 200 × 0.02 × 180 in = 720 lb in, 1,018 together: 1.27 in; a station
  // is good for 5 mm, 0.197 in: 1.288 in together, of which 6.25 in are 4.9
  const text = kite(`  scale nose at FS 80 reads 100 lb
  scale left at FS 110, BL -40 reads 350 lb
  scale right at FS 110, BL 40 reads 350 lb`);
  expect(findingsOf({ "kite.poise": text })).toEqual([
    "weighing-disagrees: sn1: the empty airframe has its CG at FS 106.3 in and its parts have theirs at FS 100 in: 6.25 in aft, 4.9 times what both may be off; an arm may be wrong",
  ]);
  // 5,000 lb in too much: 50 in of the nose's 100 lb, 14.29 in of 350 lb
  const { findings } = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  expect(findings[0]!.related.map(it => it.message)).toEqual([
    "nose alone would have to stand at FS 30 in, and not 80 in",
    "left alone would have to stand at FS 95.71 in, and not 110 in",
    "right alone would have to stand at FS 95.71 in, and not 110 in",
  ]);
});

test("a scale on the wrong side", () => {
  const text = kite(`  scale nose at FS 30 reads 100 lb
  scale left at FS 110, BL -40 reads 350 lb
  scale right at FS 110, BL -40 reads 350 lb`);
  expect(findingsOf({ "kite.poise": text })).toEqual([
    "weighing-disagrees: sn1: the empty airframe has its CG at BL -35 in and its parts have theirs at BL 0 in: 35 in to the left, 180 times what both may be off; an arm may be wrong",
  ]);
});

test.each([
  ["as they are", "30", ""],
  // 2 × 1.288 in are 20.6 in of the nose's arm
  ["within twice what both may be off", "50", ""],
  ["nobody says how far the parts may be off", "80", "spread"],
])("nothing is told: %s", (_, nose, without) => {
  const text = kite(`  scale nose at FS ${nose} reads 100 lb
  scale main at FS 110 reads 700 lb`).replace(without === "" ? "none" : "spread calculated 2%", "");
  expect(findingsOf({ "kite.poise": text })).toEqual([]);
});

test("mass that is not explained, where nothing of the aircraft is", () => {
  // 50 lb more, which make 80,000 lb in 68,000: −240 in
  const found = findingsOf({
    "kite.poise": kite("  scale nose at FS 15 reads 350 lb\n  scale main at FS 125.5 reads 500 lb"),
  });
  expect(found).toEqual([
    "weighing-disagrees: sn1: the empty airframe has its CG at FS 80 in and its parts have theirs at FS 100 in: 20 in forward, 16 times what both may be off; an arm may be wrong",
    "weighing-disagrees: sn1: the empty airframe weighs 850 lb and its parts come to 800 lb: 50 lb unexplained, near FS -240 in, 4 times what both may be off; nothing of the aircraft is there: an arm may be wrong",
  ]);
});

test("places of scales and of what was aboard are held to the extent", () => {
  check(`aircraft kite {
  units lb, in
  extent FS 0 .. 300, BL -50 .. 50, WL 0 .. 90
}
part hull weighed 800 lb at FS 100
airframe sn1 { }
weighing first of sn1 on 2026-11-28 {
  scale nose at FS 300.1, WL -20 reads 100 lb
//              ^^^^^^^^ warning[figure-suspect]: sn1: the scale nose lies at FS 300.1 in; the aircraft's extent ends at FS 300 in
  scale main at FS 110, BL 60 reads 700 lb
//                      ^^^^^ warning[figure-suspect]: sn1: the scale main lies at BL 60 in; the aircraft's extent ends at BL 50 in
  aboard sandbag 12 lb at FS -6
//                        ^^^^^ warning[figure-suspect]: sn1: sandbag lies at FS -6 in; the aircraft's extent begins at FS 0 in
}
`);
});
