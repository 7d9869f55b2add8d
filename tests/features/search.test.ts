import { expect, test } from "vitest";
import { search } from "../../server/features/search";
import { opened } from "./cursor";

const { project } = opened({
  "kite.poise": `$0aircraft kite "Kite" { units lb, in }
include "wing.poise"
let wing_area = 100 ft^2
loading solo_wing "Alone" { }
choice battery default light {
  option light { part electrical.battery quoted 8 lb at FS 4 }
}
envelope normal { takeoff 900 lb }`,
  "wing.poise": `assembly wing "Wing" {
  assembly outer mirrored {
    part spar "Main spar" pn "W-12" calculated 9 lb at FS 4
    part tip "Tip fairing" {
      pn "W-40"
      quoted 1 lb at FS 4
    }
  }
  part windscreen quoted 2 lb at FS 4
}
assembly electrical { part wiring quoted 3 lb at FS 4 }`,
  // no aircraft reaches it, and it is found all the same
  "later.poise": "part winglet quoted 1 lb at FS 4",
});
const paths = (query: string, most?: number) => search(project, query, most).map(it => it.path);

test("the name itself comes first, then its beginning, a word's, any piece, and letters apart", () => {
  expect(paths("wing")).toEqual([
    "wing",
    "winglet",
    "wing_area",
    "solo_wing",
    "wing.outer",
    "wing.outer.tip",
    "wing.outer.spar",
    "wing.windscreen",
    "electrical.wiring",
  ]);
  expect(paths("wospar")).toEqual(["wing.outer.spar"]);
  expect(paths("WOSPAR")).toEqual(["wing.outer.spar"]);
  expect(paths("elbat")).toEqual(["electrical.battery"]);
  expect(paths("xyz")).toEqual([]);
});

test("a title and a part number are looked for too, and what kind of thing it is", () => {
  expect(paths("W-12")).toEqual(["wing.outer.spar"]);
  expect(paths("fairing")).toEqual(["wing.outer.tip"]);
  expect(paths("wing part w-40")).toEqual(["wing.outer.tip"]);
  expect(search(project, "battery").map(it => `${it.path}, ${it.about}`)).toEqual([
    "battery, choice",
    "electrical.battery, part",
    "battery.light, option",
  ]);
});

test("without a query everything, and never more than are read", () => {
  expect(paths("", 3)).toEqual(["kite", "wing_area", "solo_wing"]);
  expect(paths("wing", 2)).toEqual(["wing", "winglet"]);
});
