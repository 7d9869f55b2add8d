import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { blockOf } from "../../server/shop/weighing-block";
import { weighingFormOf } from "../../server/shop/weighing-form";
import { weighingPage } from "../../server/shop/weighing-page";
import { AT, findingsOf } from "../fixture";

const kite = `aircraft kite "Kite <1>" {
  units lb, in, gal
  datum "firewall & spinner"
  levelling "seat \u201crails\u201d"
}
fluid mogas 6 lb/gal
fluid oil 7.5 lb/gal
tank wing_tank mirrored holds 10 gal of mogas unusable 0.5 gal at FS 90, BL 40
tank sump holds 2 gal of oil operating at FS 40
seat pilot at FS 85 range 110 lb .. 250 lb
assembly body { part frame calculated 480 lb at FS 80 }
assembly gear { part main_wheel mirrored calculated 10 lb at FS 92, BL 30; part tail_wheel calculated 4 lb at FS 220 }
airframe sn1 "S/N 1" serial 1 { }
`;
const formIn = (text: string, i = 1) =>
  weighingFormOf(judge(withText(emptyProject(["/specs"]), AT, text)).roots[i]!.root);

test("the block of a weighing asks for all that is still open, and nothing else", () => {
  const block = blockOf(formIn(kite), "2026-11-28");
  expect(
    block,
  ).toBe(`// As the form has it: readings, as in reads 434.0 lb, 434.2 lb tare 2.0 lb by "scale A, calibrated 2026-06".
// What does not apply goes out; poise check says what is still open.
weighing first of sn1 on 2026-11-28 {
  scale left at FS 92, BL -30 reads
  scale right at FS 92, BL 30 reads
  scale tail at FS 220 reads
  // what was in each tank, unusable included; a tank without its line is taken as drained
  aboard wing_tank.LH
  aboard wing_tank.RH
  aboard sump full
  // what was on board and is no part of the empty aircraft, and what is part of it and was not there:
  // aboard sandbag 12 lb at FS 6
  // missing cabin.carpet
  note "level by: seat \u201crails\u201d; "
}
`);
  expect(findingsOf({ "kite.poise": kite + block })).toEqual([
    ...["syntax: what does this scale read? write reads and a weight"],
    ...["syntax: what does this scale read? write reads and a weight"],
    ...["syntax: what does this scale read? write reads and a weight"],
    "syntax: how much was in wing_tank.LH?",
    "syntax: how much was in wing_tank.RH?",
  ]);
});

// By hand: 252 + 254 + 30 lb less a tare of 2 lb are 534 lb; 12 lb of fuel out, 6 lb of unusable fuel back:
// 528 lb. The oil stays. By its parts it is 504 + 6 + 15 = 525 lb.
test("filled in, it is a weighing, line by line", () => {
  const text = blockOf(formIn(kite), "2026-11-28")
    .replace("BL -30 reads", "BL -30 reads 252 lb")
    .replace("BL 30 reads", 'BL 30 reads 254 lb, 254 lb by "A"')
    .replace("FS 220 reads", "FS 220 reads 30 lb tare 2 lb")
    .replace("tank.LH", "tank.LH 1 gal")
    .replace("tank.RH", "tank.RH 1 gal");
  const { roots, findings } = judge(withText(emptyProject(["/specs"]), AT, kite + text));
  expect(findings.filter(it => it.severity === "error")).toEqual([]);
  expect(roots[1]!.summary).toContain("basic empty weight 528 lb");
});

test("the points of an earlier weighing come before the wheels; each is called once", () => {
  const weighed = `airframe sn2 serial 2 { }
weighing first of sn2 on 2026-10-01 {
  scale nose at FS 10 reads 100 lb
  scale main at FS 95, // axle
      BL 0 reads 400 lb
}
`;
  const form = formIn(kite + weighed);
  expect(form).toMatchObject({ name: "first_sn1", from: "as in the weighing first of sn2" });
  expect(form.points).toEqual([
    { name: "nose", at: "FS 10" },
    { name: "main", at: "FS 95, BL 0" },
  ]);
  expect(formIn(kite + weighed, 2)).toMatchObject({
    name: "second",
    from: "as in the weighing first",
  });
  const tandem = `aircraft glider { units kg, mm }
part main_wheel calculated 5 kg at FS 95
part tail_wheel calculated 1 kg at FS 3820
`;
  expect(formIn(tandem, 0).points).toEqual([
    { name: "front", at: "FS 95" },
    { name: "rear", at: "FS 3820" },
  ]);
  const bare = formIn("aircraft kite { part a calculated 1 kg at FS 1 }\n", 0);
  expect(bare).toMatchObject({ airframe: undefined, from: "to be measured" });
  expect(bare.points.map(it => it.at)).toEqual(["", "", ""]);
});

test("the page has every point, every tank side by side, and a place for who signs", () => {
  const page = weighingPage(formIn(kite), "Kite <1>, S/N 1", "2026-11-28");
  expect(page).toContain("<h1>Weighing form: Kite &lt;1&gt;, S/N 1</h1>");
  expect(page).toContain("firewall &amp; spinner");
  for (const name of ["left", "right", "tail", "wing_tank.LH", "wing_tank.RH", "sump"])
    expect(page).toContain(`<b>${name}</b>`);
  for (const heading of ["Tare", "Net", "Scale, calibrated until", "Density measured", "Signature"])
    expect(page).toContain(`<th>${heading}</th>`);
  expect(page).toContain("<td>525 lb</td>");
  expect(page).toContain("licensed");
  expect(page).not.toMatch(/undefined|NaN|src=|href=/);
});
