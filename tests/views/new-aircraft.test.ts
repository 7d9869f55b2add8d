import { expect, test } from "vitest";
import { read } from "../../grammar/source";
import { rowEdits } from "../../server/features/format";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import {
  MOST_SEATS,
  nameFrom,
  newAircraft,
  type UnitChoice,
  unitChoices,
} from "../../server/views/new-aircraft";

const every = (Object.keys(unitChoices) as UnitChoice[]).flatMap(units =>
  Array.from({ length: MOST_SEATS }, (_, i) => ({ title: "Kite 2", units, seats: i + 1 })),
);

test.each(every)("begun in $units with $seats seats: nothing is found wrong", beginning => {
  const { text } = newAircraft(beginning);
  const { findings, roots } = judge(withText(emptyProject([]), "/kite.poise", text));
  expect(findings.map(it => `${it.severity} ${it.code}: ${it.message}`)).toEqual([]);
  expect(roots).toMatchObject([{ name: "kite_2", complete: true }]);
});

test("what it writes stands as the formatter would have it", () => {
  for (const beginning of every) {
    const { text } = newAircraft(beginning);
    expect(rowEdits(read("/kite.poise", text))).toEqual([]);
  }
});

test("it says that every figure is a placeholder, and no approval", () => {
  const { text } = newAircraft(every[0]!);
  expect(text).toContain("Every figure is a placeholder");
  expect(text).toContain("does not replace a weighing");
  expect(text).not.toMatch(/part .*(calculated|quoted|weighed)/);
});

test("a name is what the language can call it", () => {
  expect(["Kite 2", "Möwe", "3-seater", "  ", 'The "Big" One'].map(nameFrom)).toEqual([
    "kite_2",
    "mowe",
    "aircraft_3_seater",
    "aircraft_1",
    "the_big_one",
  ]);
  const { text } = newAircraft({ title: 'The "Big" One', units: "kg, m, L", seats: 1 });
  expect(text).toContain(`aircraft the_big_one "The 'Big' One"`);
});
