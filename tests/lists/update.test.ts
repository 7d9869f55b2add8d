import { expect, test } from "vitest";
import { read } from "../../grammar/source";
import type { Table } from "../../server/lists/cells";
import { itemsOf } from "../../server/lists/items";
import { layoutOf } from "../../server/lists/layout";
import { applied } from "../../server/lists/splice";
import { type Told, updated } from "../../server/lists/update";
import { unitTable } from "../../server/quantity/units";
import { faultsOf } from "../grammar/specs";

const heading = ["Level", "Name", "PN", "Qty", "Mass [kg]", "X [mm]", "Z [mm]"];

/** Brings a spec up to a list of 2026-06-01. */
function update(text: string, ...rows: Table) {
  const table = [heading, ...rows];
  const { items } = itemsOf(table, layoutOf(table, {})!);
  const origin = { basis: "calculated", on: "2026-06-01", by: "b.csv" } as const;
  const file = { text, source: read("kite.poise", text) };
  const result = updated([file], [], items, origin, unitTable.get("mm"));
  const after = applied(text, result.splices.get("kite.poise")!);
  expect(faultsOf(read("kite.poise", after))).toEqual([]);
  const said = (all: readonly Told[]) => all.map(it => it.says);
  return {
    text: after,
    changed: said(result.changed),
    added: said(result.added),
    vanished: said(result.vanished),
    others: said(result.others),
    kept: said(result.kept),
  };
}

const spec = `// kept by hand
aircraft kite "Kite" { units kg, mm; budget 90 kg }

// the wing, and why
assembly wing "Wing" pn "W-1" budget 40 kg {
  part   spar "Spar" pn "W-11" calculated 9.5 kg on 2026-03-01 by "a.csv" at FS 1200, WL 40 // oddly spaced
  part rib "Rib" {
    pn "W-12"
    calculated 1.5 kg on 2026-03-01 by "a.csv" // thin
    at FS 1300 mm, WL 40 mm
  }
  part nut "Nut" pn "N-1" calculated 2 g at FS 1250
}
part seat estimated 4 kg at FS 900 // not from a list
`;

const asBefore: Table = [
  [0, "Wing", "W-1", 1, null, null, null],
  [1, "Spar", "W-11", 1, 9.5, 1200, 40],
  [1, "Rib", "W-12", 1, 1.5, 1300, 40],
  [1, "Nut", "N-1", 1, 0.002, 1250, null],
];

/** The list with some rows in the place of those of their part numbers. */
const withRows = (...rows: Table): Table =>
  asBefore.map(row => rows.find(it => it[2] === row[2]) ?? row);

test("a list that says the same changes no byte", () => {
  const { text, changed, added, vanished, others } = update(spec, ...asBefore);
  expect(text).toBe(spec);
  expect([changed, added, vanished]).toEqual([[], [], []]);
  expect(others).toEqual(["seat"]);
});

test("a changed mass becomes a record behind the old one, on one line and in a block", () => {
  const { text, changed } = update(
    spec,
    ...withRows([1, "Spar", "W-11", 1, 9.75, 1200, 40], [1, "Rib", "W-12", 1, 1.25, 1300, 40]),
  );
  expect(text).toBe(
    spec
      .replace(
        '9.5 kg on 2026-03-01 by "a.csv"',
        '9.5 kg on 2026-03-01 by "a.csv" calculated 9.75 kg on 2026-06-01 by "b.csv"',
      )
      .replace("// thin\n", '// thin\n    calculated 1.25 kg on 2026-06-01 by "b.csv"\n'),
  );
  expect(changed).toEqual([
    "wing.spar: 9.5 kg becomes 9.75 kg",
    "wing.rib: 1.5 kg becomes 1.25 kg",
  ]);
});

test("a moved CG changes its coordinate and nothing else", () => {
  const { text, changed } = update(
    spec,
    ...withRows([1, "Spar", "W-11", 1, 9.5, 1210.5, 40], [1, "Nut", "N-1", 1, 0.002, 1250, 55]),
  );
  expect(text).toBe(
    spec.replace("at FS 1200,", "at FS 1210.5,").replace("at FS 1250", "at FS 1250, WL 55 mm"),
  );
  expect(changed).toEqual(["wing.spar: FS 1200 becomes 1210.5", "wing.nut: WL 55 mm"]);
});

test("a part that vanished is named and stays", () => {
  const { text, vanished } = update(spec, ...asBefore.filter(it => it[2] !== "W-12"));
  expect(text).toBe(spec);
  expect(vanished).toEqual(["wing.rib (W-12)"]);
});

test("the part number is the identity: another name is no other part", () => {
  const { text, added } = update(
    spec,
    ...withRows([1, "Main spar, machined", "W-11", 1, 9.5, 1200, 40]),
  );
  expect(text).toBe(spec);
  expect(added).toEqual([]);
});

test("what is new goes into its assembly, under a name that is free", () => {
  const { text, added } = update(spec, ...asBefore, [1, "Spar", "W-13", 2, 3, 1400, null]);
  expect(text).toBe(
    spec.replace(
      "at FS 1250\n",
      `at FS 1250
  part spar_2 "Spar" pn "W-13" qty 2 calculated 3 kg on 2026-06-01 by "b.csv" at FS 1400 mm
`,
    ),
  );
  expect(added).toEqual(["wing: Spar"]);
});

test("a changed quantity is changed", () => {
  const { text } = update(spec, ...withRows([1, "Nut", "N-1", 6, 0.002, 1250, null]));
  expect(text).toBe(spec.replace('part nut "Nut" pn', 'part nut "Nut" qty 6 pn'));
});

test("a weighed part keeps its word, and an expression is not for a list to replace", () => {
  const text = `aircraft kite { units kg, mm }
let plate = 2 kg
part spar pn "A" weighed 3 kg at FS 1
part skin pn "B" calculated 2 * plate at FS 2
`;
  const result = update(text, [0, "s", "A", 1, 4, 1, null], [0, "t", "B", 1, 5, 2, null]);
  expect(result.text).toBe(text);
  expect(result.kept).toEqual([
    "spar: weighed is the firmer word; the list's 4 kg is not taken",
    "skin: its mass is an expression; the list has 5 kg",
  ]);
});

test("an older list takes nothing back", () => {
  const text = 'part spar pn "A" calculated 3 kg on 2026-07-01 at FS 1 mm\n';
  const { text: after, kept } = update(text, [0, "s", "A", 1, 4, 1, null]);
  expect(after).toBe(text);
  expect(kept).toEqual(["spar: its record of 2026-07-01 is newer than the list's 4 kg"]);
});

test("the ends of lines and the mark of byte order stay as they are", () => {
  const text = `\ufeff${spec.replaceAll("\n", "\r\n")}`;
  const rows = withRows([1, "Rib", "W-12", 1, 1.25, 1300, 40]);
  expect(update(text, ...rows).text).toBe(
    text.replace("// thin\r\n", '// thin\r\n    calculated 1.25 kg on 2026-06-01 by "b.csv"\r\n'),
  );
});

test("a part without a number is known by its title in its assembly", () => {
  const text = 'assembly wing "Wing" {\n  part n1 "Upper skin" calculated 3 kg at FS 1 mm\n}\n';
  const rows: Table = [
    [0, "Wing", null, 1, null, null, null],
    [1, "Upper skin", null, 1, 3.5, 1, null],
  ];
  expect(update(text, ...rows).changed).toEqual(["wing.n1: 3 kg becomes 3.5 kg"]);
});

test("a list without levels finds its parts in whatever assembly they are", () => {
  const text = "assembly wing {\n  part skin calculated 3 kg at FS 1 mm\n}\n";
  const { changed, added, kept } = update(text, [0, "Skin", null, 1, 3.5, 1, null]);
  expect([changed, added, kept]).toEqual([["wing.skin: 3 kg becomes 3.5 kg"], [], []]);
});

test("a part that the list has elsewhere is not moved, and said", () => {
  const rows = [...asBefore, [0, "Tail", null, 1, null, null, null]];
  const { text, kept } = update(spec, ...rows, [1, "Seat", "S-1", 1, 4, 900, null]);
  expect(text).toContain('assembly tail "Tail" {\n  part seat "Seat" pn "S-1" calculated 4 kg');
  expect(kept).toEqual([]);
  const moved = update(spec, ...asBefore.slice(0, 3), rows[4]!, [1, "Nut", "N-1", 1, 0.002, 1250]);
  expect(moved.text).toBe(spec);
  expect(moved.kept).toEqual(['wing.nut: the list has it under "Tail"; it is not moved']);
});
