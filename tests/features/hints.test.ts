import { expect, test } from "vitest";
import { hints } from "../../server/features/hints";
import { hinted, opened } from "./cursor";

const kite = (text: string, head = "") => `$0aircraft kite {
  units lb, in, gal${head}
}
${text}`;

test("an assembly says what it is predicted to weigh, and what is left of its budget", () => {
  // 10 lb + 6 % = 10.6 lb, a reserve of 2 lb: 12.6 lb
  expect(
    hinted(
      kite(
        `assembly wing budget 15 lb { // as in W-01
  part spar calculated 10 lb at FS 100
  reserve paint 2 lb
}
assembly tail budget 4 lb {
  part fin weighed 4.5 lb at FS 200
}
assembly later {
}`,
        "; growth calculated 6%",
      ),
    ),
  ).toBe(`aircraft kite { «= 17.1 lb predicted»
assembly wing budget 15 lb { // as in W-01 «= 12.6 lb predicted, 2.4 lb left»
assembly tail budget 4 lb { «= 4.5 lb, 0.5 lb over»`);
});

test("a sum with something unknown in it is a floor, and what is left a ceiling", () => {
  const wing = `assembly wing budget 15 lb {
  part spar calculated 10 lb at FS 100
  part rib at FS 100
}`;
  expect(hinted(kite(wing))).toBe(`aircraft kite { «at least 10 lb (1 without a mass)»
assembly wing budget 15 lb { «at least 10 lb (1 without a mass), at most 5 lb left»`);
  expect(hinted(kite(wing.replace("15", "9")))).toContain(
    "«at least 10 lb (1 without a mass), at least 1 lb over»",
  );
});

test("several pieces and an expression come to a total, in the aircraft's unit; a plain figure does not", () => {
  expect(
    hinted(
      `$0let area = 10 ft^2
part skin calculated area * 0.5 lb/ft^2 at FS 100
part bolts qty 20 quoted 45.359237 g at FS 100
part rib calculated 3 lb at FS 100
part pins qty 4 quoted total 2 lb at FS 100
part tube mirrored qty 2 calculated 3 lb at FS 100, BL 40
part door budget 3 lb calculated 2.5 lb at FS 100
part gear qty 2 budget 5 lb calculated 3 lb at FS 100`,
    ),
  ).toBe(`part skin calculated area * 0.5 lb/ft^2 at FS 100 «= 5 lb»
part bolts qty 20 quoted 45.359237 g at FS 100 «= 2 lb»
part tube mirrored qty 2 calculated 3 lb at FS 100, BL 40 «= 6 lb each side»
part door budget 3 lb calculated 2.5 lb at FS 100 «0.5 lb left»
part gear qty 2 budget 5 lb calculated 3 lb at FS 100 «= 6 lb, 1 lb over»`);
});

test("a place in a frame says where in the aircraft it is: what the frame moves, and a BL left out", () => {
  expect(
    hinted(
      kite(`assembly float mirrored at FS 100, BL 30 {
  part shell calculated 1 lb at FS 2, WL 5
  assembly keel at FS 4, BL -2 {
    part shoe {
      calculated 1 lb
      at FS 1, BL 1
    }
  }
  seat diver at FS 10 .. 14
  tank trim holds 2 gal of water at FS 20 {
    filled 1 gal at FS 19
    filled 2 gal at FS 20
  }
}
fluid water 8.3 lb/gal
part ring calculated 1 lb at FS 90`),
      { kinds: ["stations"] },
    ),
  ).toBe(`part shell calculated 1 lb at FS 2, WL 5 «FS 102, BL 30»
assembly keel at FS 4, BL -2 { «FS 104, BL 28»
at FS 1, BL 1 «FS 105, BL 29»
seat diver at FS 10 .. 14 «FS 110 .. 114, BL 30»
tank trim holds 2 gal of water at FS 20 { «FS 120, BL 30»
filled 1 gal at FS 19 «FS 119»
filled 2 gal at FS 20 «FS 120»`);
});

test("a moment says at which station it acts", () => {
  expect(hinted("$0part pump quoted 2 lb moment 250 in lb")).toBe(
    "part pump quoted 2 lb moment 250 in lb «FS 125»",
  );
});

test("an amount of a mirrored tank or seat is of each side: what both come to", () => {
  expect(
    hinted(
      kite(`fluid mogas 6 lb/gal
tank main mirrored holds 14 gal of mogas unusable 0.5 gal at FS 120, BL 60
tank nose holds 3 gal of mogas at FS 60
seat crew mirrored at FS 90, BL 10 range 0 lb .. 250 lb
loading trip {
  main full
  nose 2 gal
  crew 170 lb
  taxi main total 1 gal
  burn main to 2 gal
}
loading other {
  main.LH 5 gal
  main.RH 6 gal
}
loading third {
  main 50 % usable
  crew full
}`),
      { kinds: ["sides"] },
    ),
  ).toBe(`main full «= 28 gal, both sides»
crew 170 lb «= 340 lb, both sides»
burn main to 2 gal «= 4 gal, both sides»
main 50 % usable «= 14 gal usable, both sides»
crew full «= 500 lb, both sides»`);
});

test("what shares a row shares its end, each figure by its name", () => {
  expect(
    hinted(
      kite(`assembly tail at FS 200 { part fin qty 2 calculated 1 lb at FS 5; part tip calculated 1 lb at FS 9 }
assembly nose
{ part cap qty 2 calculated 1 lb at FS 5 }`),
    )
      .split("\n")
      .slice(1),
  ).toEqual([
    "assembly tail at FS 200 { part fin qty 2 calculated 1 lb at FS 5; part tip calculated 1 lb at FS 9 } «tail = 3 lb;  fin = 2 lb · FS 205;  tip FS 209»",
    "assembly nose «= 2 lb»",
    "{ part cap qty 2 calculated 1 lb at FS 5 } «= 2 lb»",
  ]);
});

test("what an option or an airframe puts into an assembly lies in that assembly's frame", () => {
  const files = {
    "kite.poise": `aircraft kite { units lb, in, gal }
include "tail.poise"
choice tip default long {
  option long { part tail.tip qty 2 calculated 1 lb at FS 9 }
  option short { part tail.tip qty 2 calculated 0.5 lb at FS 7 }
}`,
    "tail.poise": "assembly tail at FS 200 { part fin calculated 1 lb at FS 5 }",
  };
  expect(hinted({ ...files, "kite.poise": `$0${files["kite.poise"]}` }, { from: 2 })).toBe(
    "option long { part tail.tip qty 2 calculated 1 lb at FS 9 } «= 2 lb · FS 209»",
  );
  const own = `$0include "kite.poise"
airframe sn1 serial 1 {
  install part tail.lamp qty 2 weighed 0.3 lb at FS 3
}`;
  expect(hinted({ ...files, "sn1.poise": own })).toBe(
    "install part tail.lamp qty 2 weighed 0.3 lb at FS 3 «= 0.6 lb · FS 203»",
  );
});

test("only the rows and kinds that are asked for are told", () => {
  const spec = kite(`part a qty 2 calculated 1 lb at FS 5
part b qty 3 calculated 1 lb at FS 5
part c qty 4 calculated 1 lb at FS 5`);
  expect(hinted(spec, { from: 4, to: 4 })).toBe("part b qty 3 calculated 1 lb at FS 5 «= 3 lb»");
  expect(hinted(spec, { kinds: ["sums"] })).toBe("aircraft kite { «= 9 lb»");
});

test("each piece of a figure leads to what it tells of", () => {
  const { project, path } = opened(
    kite(`assembly wing budget 15 lb {
  part spar calculated 10 lb at FS 100
  part rib at FS 100
}`),
  );
  const row = { start: { line: 3, character: 0 }, end: { line: 3, character: 9 } };
  const [hint] = hints(project, path, row, new Set(["sums"]));
  expect(hint?.parts.map(({ refers: it }) => it?.line.text.slice(it.from, it.to))).toEqual([
    "wing",
    "rib",
    "15 lb",
  ]);
  expect(hint?.parts.map(it => it.tooltip)).toEqual([
    "basic 10 lb, growth 0 lb, predicted 10 lb",
    "Incomplete: the figure is a floor.",
    "of a budget of 15 lb",
  ]);
});

test("a file that no aircraft reaches has no figures", () => {
  expect(hinted({ "wing.poise": "$0part rib qty 2 calculated 1 lb at FS 4" })).toBe("");
});
