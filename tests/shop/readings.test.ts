import { describe, expect, test } from "vitest";
import type { Table } from "../../server/lists/cells";
import { readingsIn } from "../../server/shop/readings";

const read = (table: Table, likelyDecimal: "," | "." = ".") =>
  readingsIn(table, row => row + 1, {
    ...{ on: "2026-11-25", by: "scale A", decimal: undefined, likelyDecimal },
  });

const heading = ["Path", "Part number", "Reading", "Unit", "Scale", "Date", "Note"];

test("a filled row is a reading; what it leaves open is as usual, and a blank one is not weighed yet", () => {
  const { readings, blank, unknown, broken } = read([
    ["Weigh sheet of the kite"],
    heading,
    ["wing.spar", "", "4 lb 1 oz", "kg", "", "", ""],
    ["wing.tip", "W-9", 1.5, "kg", "scale B", "2026-11-24", "with paint"],
    ["", "", "", "", "", "", ""],
    ["wing.rib", "", "", "lb", "", "", ""],
    ["", "W-7", "?", "lb", "", "", ""],
  ]);
  expect(broken).toEqual([]);
  expect(blank).toBe(2);
  expect(unknown).toEqual(['line 7: "?"']);
  expect(readings.map(({ unit, ...it }) => ({ ...it, unit: unit?.name }))).toEqual([
    {
      ...{ where: "line 3", path: "wing.spar", pn: "", figure: "4 lb 1 oz", unit: "kg" },
      ...{ on: "2026-11-25", by: "scale A", note: "" },
    },
    {
      ...{ where: "line 4", path: "wing.tip", pn: "W-9", figure: "1.5", unit: "kg" },
      ...{ on: "2026-11-24", by: "scale B", note: "with paint" },
    },
  ]);
});

test.each<[string, string]>([
  ["21,92", "21.92"],
  ["1.234,5", "1234.5"],
  ["total 1,84 kg", "total 1.84 kg"],
  ["1,84 kgs", "1.84 kg"],
  ["4,06 ± 0,02 lb", "4.06 ± 0.02 lb"],
])("with a decimal comma, %s is %s", (cell, figure) => {
  const rows = [
    ["Pfad", "Ablesung"],
    ["a", "0,5"],
    ["b", cell],
  ];
  expect(read(rows, ",").readings.at(-1)?.figure).toBe(figure);
});

test("a cell that leaves no doubt is read by itself, whatever mark the others have", () => {
  const rows = (...cells: string[]) => read([["path", "reading"], ...cells.map(it => ["a", it])]);
  expect(
    rows("47,2", "9.5", "1.234,5", "2,047.25", "total 1,84 kg").readings.map(it => it.figure),
  ).toEqual(["47.2", "9.5", "1234.5", "2047.25", "total 1.84 kg"]);
  expect(rows("47,2", "9.5", "1,234").broken).toEqual([
    "line 4: 1,234 may be thousands or a fraction, and the sheet writes both marks; --decimal says which is the decimal one",
  ]);
});

test("the heading may say the unit, in another order of columns", () => {
  const { readings } = read([
    ["Reading [kg]", "P/N"],
    ["1.5", "W-1"],
  ]);
  expect(readings.map(it => [it.pn, it.unit?.name])).toEqual([["W-1", "kg"]]);
});

test.each([
  ["numéro de pièce", "masse pesée (kg)"],
  ["Teilenummer", "Gewogene Masse [kg]"],
  ["Part No.", "Weighed mass, kg"],
  ["Drawing number", "As weighed [kg]"],
])("a sheet headed %s and %s is of readings", (pn, reading) => {
  const { readings } = read([
    ["Mass [lb]", pn, reading],
    ["9", "W-1", "1.5"],
  ]);
  expect(readings.map(it => [it.pn, it.figure, it.unit?.name])).toEqual([["W-1", "1.5", "kg"]]);
});

test("a parts list has masses, and no readings: import takes it in", () => {
  const { readings, broken } = read([
    ["Part number", "Mass [lb]"],
    ["W-1", "1.5"],
  ]);
  expect(readings).toEqual([]);
  expect(broken).toEqual([
    "this is a parts list: no column of masses is headed reading or weighed; poise import takes it in",
  ]);
});

test.each([
  ["25.11.2026", "2026-11-25"],
  ["1/31/2026", "2026-01-31"],
  ["31/1/2026", "2026-01-31"],
  ["1/2/2026", "1/2/2026"],
  ["12.13.2026", "12.13.2026"],
  ["13/13/2026", "13/13/2026"],
])("the date %s, as a spreadsheet writes it, is %s", (cell, on) => {
  const { readings } = read([
    ["path", "reading", "date"],
    ["a", "1", cell],
  ]);
  expect(readings.map(it => it.on)).toEqual([on]);
});

describe("a broken line is named, whatever the others are", () => {
  test.each<[string, readonly string[], string]>([
    [
      "a decimal comma between commas",
      ["a", "", "21", "92", "lb", "", "", ""],
      "8 cells where the headings are 7",
    ],
    ["too few cells", ["a", "", "21.92"], "3 cells where the headings are 7"],
    [
      "no part",
      ["", "", "21.92", "lb", "", "", ""],
      "a reading in column C without a path or a part number",
    ],
    ["a unit of length", ["a", "", "21.92", "in", "", "", ""], "in is no mass"],
    ["a word for a unit", ["a", "", "21.92", "stones", "", "", ""], "stones is no unit"],
  ])("%s", (_, row, why) => {
    const { broken } = read([heading, ["wing", "", "1", "lb", "", "", ""], row]);
    expect(broken).toEqual([`line 3: ${why}`]);
  });

  test("and a table without the headings is no sheet", () => {
    const why = ["no row is headed path or part number, and reading"];
    expect(
      read([
        ["a", "b"],
        ["wing.spar", "4"],
      ]).broken,
    ).toEqual(why);
    expect(read([]).broken).toEqual(why);
  });
});
