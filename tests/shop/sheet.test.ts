import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { unitTable } from "../../server/quantity/units";
import { pageOf } from "../../server/shop/page";
import { csvOf, unweighed, unweighedWholes } from "../../server/shop/sheet";
import { weighablesOf, wholesOf } from "../../server/shop/weighable";
import { AT } from "../fixture";

const spec = `aircraft kite "Kite <1>" { units lb, in }
assembly tail {
  part fin "=Fin; one" pn "@T-1" estimated 3 lb at FS 200
  part skid at FS 220
  part bolt qty 4 quoted 2 oz at FS 210
}
assembly wing "Wing & tips" mirrored {
  part spar calculated 21 lb at FS 120, BL 60
  part tip { calculated 1 lb; weighed 1.1 lb on 2026-11-01 by "scale"; at FS 121, BL 90 }
}
assembly engine { weighed 180 lb on 2026-11-01; part block estimated 170 lb at FS 20 }
airframe sn002 serial 2 {
  weighed wing.LH.spar 20.9 lb on 2026-11-02
  weighed wing.tip 1.1 lb on 2026-11-02
  weighed engine 181 lb on 2026-11-02
  remove tail.skid
}
`;
const roots = judge(withText(emptyProject(["/specs"]), AT, spec)).roots;
const groupsOf = (airframe = false) => unweighed(weighablesOf(roots[airframe ? 1 : 0]!.root));
const wholes = (airframe = false) => unweighedWholes(wholesOf(roots[airframe ? 1 : 0]!.root));
const lb = unitTable.get("lb")!;

test("what is not weighed yet, the heaviest assembly first and in it the heaviest part", () => {
  // the engine was weighed as a whole
  expect(groupsOf().map(it => [it.path, ...it.rows.map(row => row.path)])).toEqual([
    ["wing", "wing.spar"],
    ["tail", "tail.fin", "tail.bolt", "tail.skid"],
  ]);
});

test("of an airframe, side by side, without what it removes and what it weighed", () => {
  expect(groupsOf(true).flatMap(it => it.rows.map(row => row.path))).toEqual([
    "wing.RH.spar",
    "tail.fin",
    "tail.bolt",
  ]);
});

test("assemblies that may be weighed as a whole stand last, the heaviest first, where all their masses are known", () => {
  expect(wholes().map(it => it.path)).toEqual(["wing", "tail"]);
  // one side has its tip weighed and its spar not; the other has both, as the engine is a whole
  expect(wholes(true).map(it => [it.path, it.before?.basis])).toEqual([
    ["wing.RH", "by its parts"],
    ["tail", "by its parts"],
  ]);
});

test("as CSV: of one piece, in the aircraft's unit, and nothing in it is a formula", () => {
  expect(csvOf(groupsOf(), wholes(), lb, ".")).toBe(
    [
      "path,part number,name,pieces,expected,reading,unit,scale,date,note",
      "wing.spar,,,2,21,,lb,,,",
      "tail.fin,'@T-1,'=Fin; one,1,3,,lb,,,",
      "tail.bolt,,,4,0.125,,lb,,,",
      "tail.skid,,,1,,,lb,,,",
      "wing,,Wing & tips (whole assembly),2,22.1,,lb,,,",
      "tail,,whole assembly,1,,,lb,,,",
      "",
    ].join("\r\n"),
  );
  expect(csvOf(groupsOf(), wholes(), lb, ",")).toContain(
    `tail.fin;'@T-1;"'=Fin; one";1;3;;lb;;;\r\ntail.bolt;;;4;0,125;;lb;;;\r\n`,
  );
});

test("as a page: escaped, with part numbers, cautions and blanks, and no other file", () => {
  const titleOf = (path: string) => (path === "wing" ? "Wing & tips" : undefined);
  const page = pageOf(groupsOf(), wholes(), {
    title: "Kite <1>",
    on: "2026-11-25",
    unit: lb,
    titleOf,
  });
  expect(page).toContain("<h1>Weigh sheet: Kite &lt;1&gt;</h1>");
  expect(page).toContain("2026-11-25. 4 parts not weighed yet, 45.5 lb as far as known.");
  expect(page).toContain("<caption>Wing &amp; tips <small>wing</small></caption>");
  expect(page).toContain(
    "<tr><td><b>fin</b><br>=Fin; one</td><td>@T-1</td><td></td><td>3</td><td></td><td></td><td></td></tr>",
  );
  expect(page).toContain("<caption>Assemblies, each as a whole <small>complete and drained; ");
  expect(page).toContain(
    "<tr><td><b>wing</b><br>Wing &amp; tips</td><td></td><td>2</td><td>22.1</td><td></td><td></td><td></td></tr>",
  );
  expect(page).toContain("does not replace weighing the aircraft");
  expect(page).not.toMatch(/<script|<link|src=|url\(|https?:/);
});
