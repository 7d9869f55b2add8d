import fc from "fast-check";
import { expect, test } from "vitest";
import { read } from "../../grammar/source";
import type { Cell } from "../../server/lists/cells";
import { itemsOf } from "../../server/lists/items";
import { layoutOf } from "../../server/lists/layout";
import { updated } from "../../server/lists/update";
import { declarationsOf } from "../../server/lists/write";
import { unitTable } from "../../server/quantity/units";
import { faultsOf } from "../grammar/specs";

const headings = ["Level", "Name", "Part No", "Qty", "Mass", "X", "Y", "Z", "Rev"];
const cell: fc.Arbitrary<Cell> = fc.oneof(
  fc.constant(null),
  fc.double(),
  fc.string({ unit: "binary", maxLength: 12 }),
  fc.constantFrom(
    "0",
    "1",
    "2",
    "1.1",
    "1,5",
    "-3",
    "1e-30",
    '"',
    "//",
    "{",
    "}",
    "\n",
    "part",
    "é",
  ),
);
const table = fc
  .array(fc.array(cell, { minLength: 9, maxLength: 9 }), { minLength: 1, maxLength: 8 })
  .map(rows => [headings, ...rows]);
const origin = { basis: "calculated", on: "2026-03-01", by: 'a "b".csv' } as const;

test("whatever stands in the cells, the spec can be read, and the list then has nothing to change", () => {
  fc.assert(
    fc.property(table, rows => {
      const { items } = itemsOf(rows, layoutOf(rows, {})!);
      const text = `${declarationsOf(items, origin, "").join("\n")}\n`;
      const source = read("kite.poise", text);
      expect(faultsOf(source)).toEqual([]);
      const again = updated([{ text, source }], [], items, origin, unitTable.get("mm"));
      expect(again.splices.get("kite.poise")).toEqual([]);
      expect(again.vanished).toEqual([]);
    }),
    { numRuns: 400 },
  );
});
