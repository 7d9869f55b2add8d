import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { check as checkAll } from "../fixture";

// that these tanks can bring their aircraft outside is told apart, on the envelope
const check = (fixture: string) => checkAll(fixture, ["loading-can-exceed"]);

const relatedOf = (text: string) =>
  judge(withText(emptyProject(["/"]), "/kite.poise", text))
    .findings.filter(it => it.code !== "loading-can-exceed")
    .flatMap(it => it.related.map(({ message }) => message));

// 800 kg at FS 1. Full, 200 kg at FS 1: CG 1. Half, 100 kg at FS 2: 1000 kg m / 900 kg = 1.111.
// Empty: 1. Only on the way is it aft of 1.1: first where 1000 / W = 1.1, 90.9 kg down.
const table = `aircraft kite { units kg, m, L }
part airframe weighed 800 kg at FS 1
fluid mogas 0.5 kg/L
tank main holds 400 L of mogas {
  filled 200 L at FS 2
  filled 400 L at FS 1
}
envelope normal { cg 700 kg: FS 0.9 .. 1.1; cg 1100 kg: FS 0.9 .. 1.1 }
`;

test("a tank whose CG moves aft and then forward", () => {
  check(`${table}loading long under normal {
//      ^^^^ error[cg-aft]: long after 200 L of the 400 L burn of main (900 kg) has its CG at FS 1.111 m, 0.011 m aft of the aft limit of 1.1 m (normal)
  main full
  burn main
}
`);
  expect(relatedOf(`${table}loading long under normal { main full; burn main }`)).toEqual([
    "the limit of normal",
    "first outside after 181.8 L of the 400 L burn of main (909.1 kg)",
  ]);
  // the author's unit is that of the burn
  expect(relatedOf(`${table}loading long under normal { main full; burn main 190 kg }`)).toEqual([
    "the limit of normal",
    "first outside after 90.91 kg of the 190 kg burn of main (909.1 kg)",
  ]);
});

test("the JSON says where on the burn it leaves, in kg and m", () => {
  const text = `${table}loading long under normal { main full; burn main }`;
  const { roots } = judge(withText(emptyProject(["/"]), "/kite.poise", text));
  const [loading] = reportOf(roots[0]!).loadings as [
    { leaves: Record<string, unknown>[]; stages: { inside: boolean }[] },
  ];
  // every stage by itself is inside
  expect(loading.stages.map(it => it.inside)).toEqual([true, true, true, true, true]);
  const basic = {
    ...{ code: "cg-aft", masses: "basic", stage: "after main", worst_used_kg: 100 },
    used_kg: expect.closeTo(200 - (1000 / 1.1 - 800), 9),
    by_m: expect.closeTo(1000 / 900 - 1.1, 12),
  };
  expect(loading.leaves).toEqual([basic, { ...basic, masses: "predicted" }]);
});

// 810 kg at FS 1 and 290 kg of water at FS 2: CG = 2 - 810 / W against 0.19 + W / 1000. Outside from
// 1000 kg down to 810 kg, most at 900 kg: 1.1 against 1.09.
test("a release of water ballast", () => {
  const spec = `aircraft kite { units kg, m, L }
part airframe weighed 810 kg at FS 1
fluid water 1 kg/L
tank ballast holds 290 L of water at FS 2
envelope normal { cg 800 kg: FS 0 .. 0.99; cg 1100 kg: FS 0 .. 1.29 }
`;
  check(`${spec}loading race under normal {
//      ^^^^ error[cg-aft]: race after 200 L of the 290 L release of ballast (900 kg) has its CG at FS 1.1 m, 0.01 m aft of the aft limit of 1.09 m (normal)
  ballast full
  release ballast
}
`);
  expect(relatedOf(`${spec}loading race under normal { ballast full; release ballast }`)).toContain(
    "first outside after 100 L of the 290 L release of ballast (1,000 kg)",
  );
});

// 1000 kg, 60 kg on the right and 20 kg on the left, 2 m out. Both give alike until the left is empty:
// the moment stays 80 kg m while 40 kg go, 80 / 1040 = 0.0769; then it falls to 0.
test("two sides are drawn alike until one is empty", () => {
  check(`aircraft kite { units kg, m, L }
part airframe weighed 1000 kg at FS 1, BL 0
fluid mogas 1 kg/L
tank wing mirrored holds 60 L of mogas at FS 1, BL 2
envelope normal { cg FS 0 .. 2; lateral BL -0.075 .. 0.075 }
loading uneven under normal {
//      ^^^^^^ error[cg-lateral]: uneven after 40 L of the 80 L total burn of wing (1,040 kg) has its CG at BL 0.0769 m, 0.0019 m outside the right limit of 0.075 m (normal)
  wing.RH 60 L
  wing.LH 20 L
  burn wing
}
`);
});

// 900 kg at FS 1; 20 kg unusable at FS 0 and 80 kg at FS 2. With the 80 kg gone the CG is 900 / 920 =
// 0.978, with all gone 1.
test("unusable fluid that sits elsewhere is a corner of the path", () => {
  check(
    `aircraft kite { units kg, m, L }
part airframe weighed 900 kg at FS 1
fluid water 1 kg/L
tank hopper holds 100 L of water unusable 20 L at FS 0 {
  at FS 2
}
envelope normal { cg 800 kg: FS 0.98 .. 1.1; cg 1100 kg: FS 0.98 .. 1.1 }
loading fire under normal {
//      ^^^^ error[cg-forward]: fire after 80 L of the 100 L release of hopper (920 kg) has its CG at FS 0.9783 m, 0.0017 m forward of the forward limit of 0.98 m (normal)
  hopper full
  release hopper
}
`,
  );
});

// The CG limit is 1.1; grown by 10 %, 880 kg at FS 1 and 100 kg at FS 2 have theirs at 1.102.
test("predicted masses leave on the way too", () => {
  check(`aircraft kite { units kg, m, L growth calculated 10% }
part airframe calculated 800 kg at FS 1
fluid mogas 0.5 kg/L
tank main holds 400 L of mogas {
  filled 200 L at FS 2
  filled 400 L at FS 1
}
envelope normal { cg 700 kg: FS 0.9 .. 1.12; cg 900 kg: FS 0.9 .. 1.12; cg 960 kg: FS 0.9 .. 1.1; cg 1100 kg: FS 0.9 .. 1.1 }
loading long under normal {
//      ^^^^ warning[loading-at-risk]: outside once growth is in: long after 200 L of the 400 L burn of main (980 kg) has its CG at FS 1.102 m, 0.002 m aft of the aft limit of 1.1 m (normal)
  main full
  burn main
}
`);
});
