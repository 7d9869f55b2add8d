import { expect, test } from "vitest";
import { positionsOf, textOf } from "../../grammar/source";
import { references } from "../../server/features/names";
import { sourceOf } from "../../server/project";
import { type Files, opened } from "./cursor";

/** The rows where the name under the cursor stands, each with it in `[ ]`; a declaration in `« »`. */
function found(files: Files | string): readonly string[] {
  const { project, path, position } = opened(files);
  return references(project, path, position).map(({ at, declares }) => {
    const source = sourceOf(project, at.line.file)!;
    const { start, end } = positionsOf(source, at);
    const row = textOf(source).split("\n")[start.line]!;
    const [open, close] = declares ? "«»" : "[]";
    const marked = `${row.slice(0, start.character)}${open}${row.slice(start.character, end.character)}${close}${row.slice(end.character)}`;
    return `${source.path.slice("/specs/".length)}: ${marked.trim()}`;
  });
}

const files = (at: string, file = "kite.poise"): Files => {
  const all: Record<string, string> = {
    "kite.poise": `aircraft kite { units lb, in, gal }
include "wing.poise"
fluid mogas 6 lb/gal
tank main mirrored holds 10 gal of mogas at FS 110, BL 20
choice pack default light {
  option light { part power.cell quoted 3 lb at FS 30 }
  option heavy { part power.cell quoted 8 lb at FS 30 }
}
assembly power { }
envelope wing { takeoff 400 lb }
loading solo under wing { main 5 gal; burn main to 1 gal }
require mass(wing.outer.LH.spar) + mass(solo.takeoff) < takeoff(wing)
`,
    "wing.poise": `let spar = 4 lb
assembly wing {
  assembly outer mirrored {
    part spar calculated spar at FS 4
  }
}
`,
    "sn1.poise": `include "kite.poise"
airframe sn1 {
  choose pack heavy
  weighed wing.outer.LH.spar 4.1 lb
  remove power.cell
}
weighing first of sn1 on 2026-11-12 { scale a at FS 3 reads 9 lb; aboard main 1 gal }
`,
  };
  const [before, marked] = [at.replace("$0", ""), at];
  expect(all[file]).toContain(before);
  return { ...all, [file]: all[file]!.replace(before, () => marked) };
};

test("a part, by its path and its side, and not the let or the word of its name", () => {
  const spar = [
    "wing.poise: part «spar» calculated spar at FS 4",
    "kite.poise: require mass(wing.outer.LH.[spar]) + mass(solo.takeoff) < takeoff(wing)",
    "sn1.poise: weighed wing.outer.LH.[spar] 4.1 lb",
  ];
  expect(found(files("part sp$0ar", "wing.poise"))).toEqual(spar);
  expect(found(files("LH.spa$0r 4.1", "sn1.poise"))).toEqual(spar);
  expect(found(files("let sp$0ar", "wing.poise"))).toEqual([
    "wing.poise: let «spar» = 4 lb",
    "wing.poise: part spar calculated [spar] at FS 4",
  ]);
});

test("an assembly and an envelope of one name", () => {
  expect(found(files("mass(wi$0ng.outer"))).toEqual([
    "wing.poise: assembly «wing» {",
    "kite.poise: require mass([wing].outer.LH.spar) + mass(solo.takeoff) < takeoff(wing)",
    "sn1.poise: weighed [wing].outer.LH.spar 4.1 lb",
  ]);
  expect(found(files("envelope wi$0ng"))).toEqual([
    "kite.poise: envelope «wing» { takeoff 400 lb }",
    "kite.poise: loading solo under [wing] { main 5 gal; burn main to 1 gal }",
    "kite.poise: require mass(wing.outer.LH.spar) + mass(solo.takeoff) < takeoff([wing])",
  ]);
});

test("what several options declare is one thing", () => {
  expect(found(files("part power.ce$0ll quoted 3"))).toEqual([
    "kite.poise: option light { part power.«cell» quoted 3 lb at FS 30 }",
    "kite.poise: option heavy { part power.«cell» quoted 8 lb at FS 30 }",
    "sn1.poise: remove power.[cell]",
  ]);
  expect(found(files("assembly po$0wer"))).toEqual([
    "kite.poise: option light { part [power].cell quoted 3 lb at FS 30 }",
    "kite.poise: option heavy { part [power].cell quoted 8 lb at FS 30 }",
    "kite.poise: assembly «power» { }",
    "sn1.poise: remove [power].cell",
  ]);
});

test.each([
  ["option heav$0y", ["option «heavy»", "choose pack [heavy]"]],
  ["choice pa$0ck", ["choice «pack»", "choose [pack] heavy"]],
  ["fluid mog$0as", ["fluid «mogas»", "of [mogas]"]],
  ["tank ma$0in", ["tank «main»", "{ [main] 5 gal", "burn [main]", "aboard [main]"]],
  ["loading so$0lo", ["loading «solo»", "mass([solo].takeoff)"]],
])("%s", (at, expected) => {
  const rows = found(files(at));
  expect(rows).toHaveLength(expected.length);
  for (const [i, part] of expected.entries()) expect(rows[i]).toContain(part);
});

test("an airframe, in its weighing too", () => {
  expect(found(files("airframe sn$01", "sn1.poise"))).toEqual([
    "sn1.poise: airframe «sn1» {",
    "sn1.poise: weighing first of [sn1] on 2026-11-12 { scale a at FS 3 reads 9 lb; aboard main 1 gal }",
  ]);
});

test("a side, a stage, a keyword and a figure are no names", () => {
  expect(found(files("outer.L$0H.spar)"))).toEqual([]);
  expect(found(files("solo.take$0off"))).toEqual([]);
  expect(found(files("holds 1$00 gal"))).toEqual([]);
  expect(found(files("requ$0ire"))).toEqual([]);
});
