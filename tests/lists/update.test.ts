import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import type { Cell, Table } from "../../server/lists/cells";
import { itemsOf } from "../../server/lists/items";
import { layoutOf } from "../../server/lists/layout";
import { applied } from "../../server/lists/splice";
import { type Told, updated } from "../../server/lists/update";
import { unitTable } from "../../server/quantity/units";
import { faultsOf } from "../grammar/specs";

const heading = ["Level", "Name", "PN", "Qty", "Mass [kg]", "X [mm]", "Z [mm]"];

/** Brings a spec up to a list of 2026-06-01. */
const update = (text: string, ...rows: Table) => updateOf(heading, text, ...rows);

function updateOf(heading: readonly Cell[], text: string, ...rows: Table) {
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
    sides: { both: said(result.sides.both), one: said(result.sides.one) },
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

test.each([
  [
    "its record",
    "calculated 3 kg on 2026-07-01",
    "the list of 2026-06-01 is older than its record of 2026-07-01",
  ],
  [
    "the reading that governs",
    "calculated 3 kg on 2026-01-01 weighed 3.1 kg on 2026-07-01",
    "the list of 2026-06-01 is older than its record of 2026-07-01",
  ],
])("a list that is older than %s takes nothing back, neither mass nor place", (_, records, why) => {
  const text = `part spar pn "A" ${records} at FS 1 mm\n`;
  const { text: after, kept, changed } = update(text, [0, "s", "A", 2, 4, 7, null]);
  expect(after).toBe(text);
  expect(changed).toEqual([]);
  expect(kept).toEqual([
    `spar: ${why}, so nothing is taken of it: qty 1 becomes 2; 3 kg becomes 4 kg; FS 1 mm becomes 7 mm`,
  ]);
  expect(update(text, [0, "s", "A", 1, 3, 1, null]).kept).toEqual([]);
});

describe("a new revision", () => {
  const revised = (text: string, rev: string, mass: number | null = 4, at = 1) =>
    updateOf([...heading, "Rev"], text, [0, "s", "A", 1, mass, at, null, rev]);

  test("governs with the list's figure: a reading of the old one is history, and says so", () => {
    const { text, changed } = revised(
      'part spar pn "A" rev "B" calculated 3 kg weighed 3.2 kg on 2026-02-01 at FS 1 mm\n',
      "C",
    );
    expect(text).toBe(
      'part spar pn "A" rev "C" calculated 3 kg rev "B" weighed 3.2 kg on 2026-02-01 rev "B" calculated 4 kg on 2026-06-01 by "b.csv" at FS 1 mm\n',
    );
    expect(changed).toEqual([
      "spar: rev B becomes C; weighed 3.2 kg is of rev B and counts no longer",
      "spar: now 4 kg",
    ]);
    expect(revised(text, "C").text).toBe(text);
  });

  test("in a block, with a figure that stayed the same", () => {
    const part = (rev: string, old: string, fresh: string) => `part spar {
  pn "A"
  rev "${rev}" // as released
  calculated 4 kg${old} // thin
${fresh}  at FS 1 mm
}
`;
    expect(revised(part("B", "", ""), "C").text).toBe(
      part("C", ' rev "B"', '  calculated 4 kg on 2026-06-01 by "b.csv"\n'),
    );
  });

  test("of a part that named none is written down, and a reading of it still governs, which is said", () => {
    const { text, changed, kept } = revised('part spar pn "A" weighed 3.2 kg at FS 1 mm\n', "C");
    expect(text).toBe('part spar pn "A" rev "C" weighed 3.2 kg at FS 1 mm\n');
    expect(changed).toEqual([
      "spar: now rev C; weighed 3.2 kg names no revision and still governs",
    ]);
    expect(kept).toEqual(["spar: weighed is the firmer word; the list's 4 kg is not taken"]);
  });

  test.each([
    [
      "without a mass would leave the part without one",
      "C",
      null,
      "the list has rev C without a mass; it stays at rev B",
    ],
    [
      "that is an older one",
      "A",
      4,
      "rev A of the list is older than its rev B, so nothing is taken of it: FS 1 mm becomes 2 mm",
    ],
  ])("%s: nothing changes", (_, rev, mass, why) => {
    const text = 'part spar pn "A" rev "B" weighed 3.2 kg at FS 1 mm\n';
    const { text: after, kept } = revised(text, rev, mass, 2);
    expect(after).toBe(text);
    expect(kept).toEqual([`spar: ${why}`]);
  });
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

const bom = ["Name", "PN", "Qty", "Mass [lb]", "FS [in]", "BL [in]", "WL [in]"];

describe("a mirrored part, whose text is of one side", () => {
  const spar = (qty = "") =>
    `assembly wing "Wing" {
  assembly outer "Outer panel" mirrored pn "W-10" {
    part spar "Main spar" pn "W-12"${qty} calculated 10.9 lb on 2026-03-18 at FS 127.5 in, BL 104 in, WL 48 in
  }
}
`;
  const row = (qty: number, mass: number, bl: number | null) =>
    ["Main spar", "W-12", qty, mass, 127.5, bl, 48] as const;
  const to = (mass: string) =>
    spar().replace(" at FS", ` calculated ${mass} on 2026-06-01 by "b.csv" at FS`);

  test("that a list counts on both sides has as many on each as before", () => {
    const { text, changed, sides } = updateOf(bom, spar(), row(2, 11.4, 104));
    expect(text).toBe(to("11.4 lb"));
    expect(changed).toEqual(["wing.outer.spar: 10.9 lb becomes 11.4 lb"]);
    expect(sides).toEqual({ both: ["wing.outer.spar"], one: [] });
  });

  test("of which the list has one side, the left one, is not turned over", () => {
    const { text, sides } = updateOf(bom, spar(), row(1, 11.4, -104));
    expect(text).toBe(to("11.4 lb"));
    expect(sides).toEqual({ both: [], one: ["wing.outer.spar"] });
    const moved = updateOf(bom, spar(), row(1, 10.9, -106)).text;
    expect(moved).toBe(spar().replace("BL 104 in", "BL 106 in"));
  });

  test.each([
    ["a left and a right row", row(1, 11.4, -104), row(1, 11.4, 104)],
    ["a row for each piece", row(1, 11.4, null), row(1, 11.4, null)],
  ])("is one part, in %s", (_, ...rows) => {
    const { text, added, sides } = updateOf(bom, spar(), ...rows);
    expect(text).toBe(to("11.4 lb"));
    expect([added, sides.both]).toEqual([[], ["wing.outer.spar"]]);
  });

  test("of which there are more has half of them on each side", () => {
    expect(updateOf(bom, spar(" qty 5"), row(12, 10.9, 104)).text).toBe(spar(" qty 6"));
    expect(updateOf(bom, spar(), row(2, 10.9, -104), row(2, 10.9, 104)).text).toBe(
      spar().replace('"Main spar" pn', '"Main spar" qty 2 pn'),
    );
  });

  test("keeps all it has where the pieces do not divide over two sides", () => {
    const { text, kept } = updateOf(bom, spar(), row(3, 11.4, 110));
    expect(text).toBe(spar());
    expect(kept).toEqual(["wing.outer.spar: the list's 3 do not divide over its two sides"]);
  });

  test("keeps its BL where the list has the one of both together, and its mass where the two differ", () => {
    const together = updateOf(bom, spar(), row(2, 10.9, 0));
    expect(together.text).toBe(spar());
    expect(together.kept).toEqual([
      "wing.outer.spar: the list's BL 0 is of both sides together; the BL of each is not changed",
    ]);
    const uneven = updateOf(bom, spar(), row(1, 11.4, -104), row(1, 11.6, 104));
    expect(uneven.text).toBe(spar());
    expect(uneven.kept).toEqual([
      "wing.outer.spar: its rows say 11.4 lb and 11.6 lb, and what is mirrored has one figure for both",
    ]);
  });

  test("mirrored inside something mirrored is left alone: its spec is wrong", () => {
    const twice = spar().replace('pn "W-12"', 'mirrored pn "W-12"');
    const { text, kept } = updateOf(bom, twice, row(4, 11.4, 104));
    expect(text).toBe(twice);
    expect(kept).toEqual(["wing.outer.spar: it is mirrored inside something mirrored"]);
  });

  test("that bears its number with another mirrored part is left alone where a row may be of either", () => {
    const two = `${spar()}part strut mirrored pn "W-12" calculated 9 lb at FS 9 in, BL 50 in\n`;
    const rows = [-104, 104, -50, 50].map(bl => row(1, 11.4, bl));
    const { text, kept, added } = updateOf(bom, two, ...rows);
    expect(text).toBe(two);
    expect(added).toEqual([]);
    const why =
      "rows 2, 3, 4, 5 bear one number or name with 2 mirrored parts, and which is which cannot be told";
    expect(kept).toEqual([`strut: ${why}`, `wing.outer.spar: ${why}`]);
  });

  test("with a total mass has the one of a piece in the list, whatever the list counts", () => {
    const head = bom.map(it => (it === "Mass [lb]" ? "Total mass [lb]" : it));
    expect(updateOf(head, spar(), row(2, 22.8, 104)).text).toBe(to("total 22.8 lb"));
    expect(updateOf(head, spar(" qty 3"), row(3, 34.2, 104)).text).toContain(
      'qty 3 calculated 10.9 lb on 2026-03-18 calculated 11.4 lb on 2026-06-01 by "b.csv"',
    );
  });

  const levels = ["Level", ...bom];
  const panel = (qty: number) => [1, "Outer panel", "W-10", qty, null, null, null, null];
  const inside = (qty: number, bl: number | null) => [2, ...row(qty, 10.9, bl)];
  const clip = (qty: number, bl: number | null) => [2, "Clip", "W-19", qty, 0.1, 130, bl, 48];
  const wing = [0, "Wing", null, 1, null, null, null, null];
  const withClip = (qty: string) =>
    spar().replace(
      "  }\n",
      `    part clip "Clip" {
      pn "W-19"
${qty}      calculated 0.1 lb on 2026-06-01 by "b.csv"
      at FS 130 in, BL 99 in, WL 48 in
    }
  }
`,
    );

  test.each([
    ["twice what is in it once", [panel(2), inside(1, 104), clip(1, 99)]],
    ["once what is in it twice", [panel(1), inside(2, 104), clip(2, 99)]],
    ["once what is of one side", [panel(1), inside(1, 104), clip(1, 99)]],
    [
      "apart on each side",
      [panel(1), inside(1, -104), clip(1, -99), panel(1), inside(1, 104), clip(1, 99)],
    ],
  ])("stands in an assembly that the list has %s, with what is new in it", (_, rows) => {
    const { text, added } = updateOf(levels, spar(), wing, ...rows);
    expect(text).toBe(withClip(""));
    expect(added).toEqual(["wing.outer: Clip"]);
  });

  test("has beside it no new part of which the two sides cannot have as many", () => {
    const odd = updateOf(levels, spar(), wing, panel(1), inside(2, 104), clip(3, 99));
    expect(odd.text).toBe(spar());
    expect(odd.kept).toEqual([
      `wing.outer: "Clip" is not added: the list's 3 do not divide over its two sides`,
    ]);
  });
});
