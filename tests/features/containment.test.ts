import { expect, test } from "vitest";
import { contains, isIn, type Thing, thingAt } from "../../server/features/containment";
import { type Files, opened } from "./cursor";

const spec = `aircraft kite "Kite" { units lb, in, gal }
assembly wing {
  reserve paint 2 lb
  assembly outer mirrored {
    part rib calculated 1 lb at FS 110, BL 40
    part sp$0ar calculated 3 lb at FS 100, BL 60
  }
  part pump at FS 90
  tank main holds 5 gal of mogas at FS 95
}
fluid mogas 6 lb/gal
require mass(wing.outer.spar) < 4 lb`;
const told = (it: Thing | undefined) => it && `${it.name}: ${it.detail}`;

test("what a thing is in and what it contains, the heaviest first, each with its mass and CG", () => {
  const { project, path, position } = opened({ "kite.poise": spec });
  const spar = thingAt(project, path, position)!;
  expect(told(spar)).toBe("spar: 3 lb · FS 100 in");
  const outer = isIn(project, path, spar.path)!;
  // (110 + 3 × 100) ÷ 4 = 102.5 in
  expect(told(outer)).toBe("outer: 2 × 4 lb · CG FS 102.5 in");
  expect(contains(project, path, outer.path).map(told)).toEqual([
    "spar: 3 lb · FS 100 in",
    "rib: 1 lb · FS 110 in",
  ]);
  const wing = isIn(project, path, outer.path)!;
  expect(told(wing)).toBe("wing: 8 lb, incomplete · CG FS 102.5 in (incomplete)");
  expect(contains(project, path, wing.path).map(told)).toEqual([
    "outer: 2 × 4 lb · CG FS 102.5 in",
    "paint: 2 lb",
    "pump: no mass yet · FS 90 in",
    "main: FS 95 in",
  ]);
  const kite = isIn(project, path, wing.path)!;
  expect(told(kite)).toBe("kite: 8 lb, incomplete · CG FS 102.5 in (incomplete)");
  expect(isIn(project, path, kite.path)).toBeUndefined();
  expect(contains(project, path, spar.path)).toEqual([]);
});

test("a name where it is used is the thing it means; another word is none", () => {
  const at = (text: string): Files => ({ "kite.poise": text });
  const plain = spec.replace("$0", "");
  const used = opened(at(plain.replace("(wing.outer.spar)", "(wing.ou$0ter.spar)")));
  expect(thingAt(used.project, used.path, used.position)?.path).toBe("wing.outer");
  const none = opened(at(plain.replace("calculated 3", "calc$0ulated 3")));
  expect(thingAt(none.project, none.path, none.position)).toBeUndefined();
});
