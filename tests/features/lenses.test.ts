import { expect, test } from "vitest";
import { lenses, lensText } from "../../server/features/lenses";
import { lensed, opened } from "./cursor";

test("an assembly with a budget or a CG target: predicted mass of the budget, and the CG", () => {
  // 10 lb at 100 in, 5 lb at 130 in: CG 110 in; growth of 10 % on the 10 lb alone: 16 lb
  expect(
    lensed(`$0aircraft kite { units lb, in; growth calculated 10%; budget 40 lb; mac at FS 90 length 50 }
assembly wing budget 20 lb {
  cg FS 105 .. 120
  part spar calculated 10 lb at FS 100
  part tank weighed 5 lb at FS 130
  assembly flap mirrored budget 2 lb {
  }
  assembly rib {
    part web at FS 110
  }
}`),
  ).toEqual([
    "aircraft kite: basic empty weight at least 15 lb · CG FS 110 in (incomplete), 40 %MAC · parts predicted at least 16 lb of 40 lb (40 %)",
    "assembly wing: predicted at least 16 lb of 20 lb (80 %) · basic CG FS 110 in (incomplete) · target FS 105 .. 120",
    "assembly wing.flap: each side predicted 0 lb of 2 lb (0 %) · CG not known",
  ]);
});

const hawk = (
  pilot: string,
  more = "",
) => `$0aircraft hawk { units lb, in, gal; growth calculated 10% }
part airframe calculated 900 lb at FS 100
seat pilot at FS 90 range 100 lb .. 250 lb
envelope normal {
  takeoff 1200 lb
  cg 900 lb: FS 95 .. 102
  cg 1200 lb: FS 95 .. 102
  lateral BL -1 .. 1
}
loading solo under normal {
  pilot ${pilot}
}
${more}`;
const of = (all: readonly string[], key: string) =>
  all.find(it => it.startsWith(`${key}: `))?.slice(key.length + 2);

test("a loading: its verdict, how far the nearest limits are, and what growth does to it", () => {
  // (900 × 100 + 100 × 90) ÷ 1,000 = 99 in; 1,000 of 1,200 lb; 1,090 lb once growth is in
  expect(of(lensed(hawk("100 lb")), "loading solo")).toBe(
    "inside · 1 in from the left limit at takeoff · 200 lb below the takeoff weight",
  );
  // (90,000 + 200 × 90) ÷ 1,100 = 98.2 in; 1,190 lb once growth is in
  expect(of(lensed(hawk("200 lb").replace("1200", "1150")), "loading solo")).toBe(
    "inside · 1 in from the left limit at takeoff · 50 lb below the takeoff weight · outside once growth is in: 40 lb over the takeoff weight at takeoff",
  );
  // (90,000 + 250 × 40) ÷ 1,150 = 86.96 in
  const forward = hawk("250 lb").replace("FS 90", "FS 40");
  expect(of(lensed(forward), "loading solo")).toBe(
    "outside: 8.04 in forward of the forward limit at takeoff",
  );
  const unknown = hawk("100 lb", "part radio at FS 50");
  expect(of(lensed(unknown), "loading solo")).toBe(
    "not judged: something has no mass or no FS · 1 in from the left limit at takeoff · 200 lb below the takeoff weight",
  );
  expect(of(lensed(hawk("100 acres")), "loading solo")).toBe(
    "not judged: something in it is not understood",
  );
  const free = hawk("100 lb")
    .replace(/envelope[^}]*}/, "")
    .replace(" under normal", "");
  expect(of(lensed(free), "loading solo")).toBe("under no envelope");
});

test("an airframe that comes out otherwise than the design is named", () => {
  const airframes =
    "airframe sn1 serial 1 { install part rack weighed 50 lb at FS 100 }\nairframe sn2 serial 2 { install part tank weighed 150 lb at FS 100 }\nairframe sn3 serial 3 { }\n";
  // 1,000 lb of 1,100 lb; 1,090 lb once growth is in; sn1 has 50 lb more, sn2 150 lb
  const spec = hawk("100 lb", airframes).replace("takeoff 1200", "takeoff 1100");
  expect(of(lensed(spec), "loading solo")).toBe(
    "inside · 1 in from the left limit at takeoff · 100 lb below the takeoff weight · sn1: outside once growth is in · sn2: outside",
  );
});

test("the nearest limit is named with what is swung", () => {
  // gear 100 lb from FS 100 to 110: (900 × 100 + 100 × 110 + 100 × 90) ÷ 1,100 = 100 in, 2 in from 102
  const swung = hawk("100 lb", "configuration up { swing gear }\n")
    .replace("lateral BL -1 .. 1", "lateral BL -9 .. 9")
    .replace(
      "seat pilot",
      "assembly gear {\n  swing 90 deg aft about BL at FS 100, WL 10\n  part leg weighed 100 lb at FS 100, WL 0\n}\nseat pilot",
    );
  expect(of(lensed(swung), "loading solo")).toBe(
    "inside · 2 in from the aft limit at takeoff, up · 100 lb below the takeoff weight",
  );
});

test("an envelope: the verdict over all it permits, and how many loadings are inside", () => {
  expect(of(lensed(hawk("100 lb")), "envelope normal")).toBe(
    "every permitted loading is inside · 1 of 1 loading inside",
  );
  // 250 lb at FS 40 is the loading above, 8.04 in forward
  const forward = hawk("100 lb").replace("FS 90", "FS 40");
  expect(of(lensed(forward), "envelope normal")).toBe(
    "a permitted loading can be 8.04 in forward of the forward limit · 0 of 1 loading inside",
  );
  expect(of(lensed(hawk("100 lb", "part radio at FS 50")), "envelope normal")).toBe(
    "permitted loadings are not judged · 0 of 1 loading inside",
  );
});

test("a choice: what each option makes of the empty weight, its CG and the budget", () => {
  // 100 lb at 50 in and 10 lb at 160 in: 60 in; with 22 lb there (5,000 + 3,520) ÷ 122 = 69.84 in
  expect(
    lensed(`$0aircraft kite { units lb, in; budget 120 lb }
part frame weighed 100 lb at FS 50
choice battery default light {
  option light { part cell quoted 10 lb at FS 160 }
  option heavy { part cell quoted 22 lb at FS 160 }
  option none { }
  option later { part cell at FS 160 }
}`).slice(1),
  ).toEqual([
    "option battery.light: light counts",
    "option battery.heavy: heavy +12 lb, CG 9.84 in aft, 2 lb over the budget",
    "option battery.none: none -10 lb, CG 10 in forward, 20 lb left",
    "option battery.later: later -10 lb, CG 10 in forward, 20 lb left (incomplete)",
  ]);
});

test("a weighing: what the scales say and the parts do not explain; the airframe from then on", () => {
  const all = lensed({
    "kite.poise": `aircraft kite { units lb, in; spread calculated 2% }
part hull weighed 800 lb at FS 100
part wing calculated 100 lb at FS 110`,
    "sn1.poise": `$0include "kite.poise"
airframe sn1 serial 1 { }
weighing first of sn1 on 2026-11-12 {
  scale front at FS 50 reads 91 lb
  scale rear at FS 107 reads 817 lb
}`,
  });
  // 908 lb, (91 × 50 + 817 × 107) ÷ 908 = 101.29 in; 8 lb at (91,969 − 91,000) ÷ 8 = 121.1 in; 2 % of 100 lb
  expect(all).toEqual([
    "airframe sn1: basic empty weight 908 lb as weighed · CG FS 101.3 in",
    "weighing first: weighed 908 lb · CG FS 101.3 in · parts 900 lb · 8 lb unexplained near FS 121.1 in; scales and parts may be 2 lb off",
  ]);
});

test.each([
  ["30", "100", "its parts explain it"],
  ["80", "106.3", "its parts explain its weight · CG 6.25 in aft of theirs"],
])("a weighing whose nose scale stands at FS %s", (nose, cg, said) => {
  const all = lensed({
    "kite.poise": "aircraft kite { units lb, in }\npart hull calculated 800 lb at FS 100",
    "sn1.poise": `$0include "kite.poise"
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
  scale nose at FS ${nose} reads 100 lb
  scale main at FS 110 reads 700 lb
}`,
  });
  expect(all[1]).toBe(`weighing first: weighed 800 lb · CG FS ${cg} in · parts 800 lb · ${said}`);
});

test("a lens leads to how it comes about in the aircraft that its file is read as", () => {
  const { project, path } = opened(`$0aircraft kite { units lb, in; budget 9 lb }
assembly wing budget 9 lb { part spar weighed 3 lb at FS 1 }
airframe sn1 serial 1 { }`);
  const found = lenses(project, path).map(it => lensText(project, path, it)?.why);
  expect(found).toEqual(["kite", "wing", undefined]);
});

test("a file that no aircraft reaches has no lenses", () => {
  expect(lensed({ "wing.poise": "$0assembly wing budget 9 lb { }" })).toEqual([]);
});
