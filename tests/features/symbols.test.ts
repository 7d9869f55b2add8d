import { expect, test } from "vitest";
import { outlined } from "./cursor";

test("what a file declares, as it nests, with masses and values", () => {
  expect(
    outlined(`$0let area = 10 ft^2
assembly wing {
  assembly outer mirrored {
    part spar calculated 3 lb at FS 4
  }
  part tips mirrored quoted 0.5 lb at FS 5
  part fairing qty 3 estimated area * 0.1 lb/ft^2 at FS 5
  reserve paint 2 lb
  part nothing_yet
}
fluid mogas 6 lb/gal
tank main holds 5 gal of mogas at FS 38
envelope normal {
  takeoff 500 lb
}
loading solo {
  main full
}`),
  ).toBe(`area: 10 ft^2
wing: 10 lb, incomplete (2 to 10)
  outer: 2 × 3 lb (3 to 5)
    spar: 3 lb
  tips: 2 × 0.5 lb
  fairing: 3 lb
  paint: 2 lb
  nothing_yet: no mass yet
mogas: fluid
main: tank
normal: envelope (13 to 15)
solo: takeoff 40 lb (16 to 18)`);
});

test("a block that nothing closes ends with the last thing in it", () => {
  expect(
    outlined(`$0assembly wing {
  part spar calculated 3 lb at FS 4
  part rib calculated 1 lb at FS 4
`),
  ).toBe(`wing: 4 lb (1 to 3)
  spar: 3 lb
  rib: 1 lb`);
});

test("a file that no aircraft reaches has an outline without figures", () => {
  expect(
    outlined({ "wing.poise": "$0assembly wing {\n  part rib calculated 1 lb at FS 4\n}" }),
  ).toBe("wing: assembly (1 to 3)\n  rib: part");
});
