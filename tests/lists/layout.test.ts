import { expect, test } from "vitest";
import type { Table } from "../../server/lists/cells";
import { layoutOf } from "../../server/lists/layout";
import { unitTable } from "../../server/quantity/units";

/** Which heading each meaning was found under. */
function meanings(table: Table) {
  const { columns } = layoutOf(table, {})!;
  return Object.fromEntries([...columns].map(([meaning, { heading }]) => [meaning, heading]));
}

test("Item heads names where words stand below it, and positions where numbers do", () => {
  expect(
    meanings([
      ["Item", "Weight (lb)", "Arm (in)"],
      ["Nose gear", 12, 40],
    ]),
  ).toEqual({
    name: "Item",
    mass: "Weight (lb)",
    FS: "Arm (in)",
  });
  expect(
    meanings([
      ["Item", "Part Number", "Mass"],
      ["1.1", "W-11", 12],
    ]),
  ).toEqual({
    position: "Item",
    pn: "Part Number",
    mass: "Mass",
  });
});

test("of two columns for one thing the surer is taken, and why not the other is said", () => {
  const table = [
    ["Description", "Name", "Weight (N)", "Mass (kg)"],
    ["long", "Spar", 98.1, 10],
  ];
  const { columns, unused } = layoutOf(table, {})!;
  expect(columns.get("name")?.heading).toBe("Name");
  expect(columns.get("mass")?.heading).toBe("Mass (kg)");
  expect(unused.map(it => [it.heading, it.why])).toEqual([
    ["Description", "Name is taken"],
    ["Weight (N)", "N is no mass"],
  ]);
});

test("a list without headings of a part is none", () => {
  expect(
    layoutOf(
      [
        ["Mass", "X"],
        [1, 2],
      ],
      {},
    ),
  ).toBeUndefined();
  expect(
    layoutOf(
      [
        ["Pos", "Mass"],
        ["1", 2],
      ],
      {},
    ),
  ).toBeUndefined();
  expect(layoutOf([], {})).toBeUndefined();
});

test("units that nothing says: as asked, as the spec has them, else what goes with the others", () => {
  const table: Table = [
    ["Name", "Mass (lb)", "X"],
    ["Spar", 3, 100],
  ];
  const [mm, kg] = [unitTable.get("mm")!, unitTable.get("kg")!];
  const lengthOf = (wanted: Parameters<typeof layoutOf>[1]) => {
    const { unit, from } = layoutOf(table, wanted)!.length;
    return `${unit.name} ${from}`;
  };
  expect(lengthOf({})).toBe("in guess");
  expect(lengthOf({ spec: { mass: kg, length: mm } })).toBe("mm spec");
  expect(lengthOf({ spec: { mass: kg, length: mm }, length: unitTable.get("ft") })).toBe(
    "ft asked",
  );
});
