import { expect, test } from "vitest";
import { decimalOf, figureIn, letterOf } from "../../server/lists/cells";

test.each([
  ["12.5", ".", 12.5],
  ["1,234.5", ".", 1234.5],
  ["1.234,5", ",", 1234.5],
  ["1 234,5", ",", 1234.5],
  ["1'234.5", ".", 1234.5],
  ["-0,75", ",", -0.75],
  ["\u22123", ".", -3],
  ["1.2E-3", ".", 0.0012],
  [".5", ".", 0.5],
  ["0", ".", 0],
] as const)("%s with a decimal %s is %d", (text, decimal, value) => {
  expect(figureIn(text, decimal)).toEqual({ value, unit: "" });
});

test("a unit may stand behind it", () => {
  expect(figureIn("12,5 kg", ",")).toEqual({ value: 12.5, unit: "kg" });
});

test.each(["", " ", "-", "TBD", "n/a", "unbekannt", "inconnu", "?"])(
  "'%s' says nothing, and not zero",
  text => {
    expect(figureIn(text, ".")).toBeUndefined();
  },
);

test.each(["heavy", "=1+2", "1,2,3", "12-15", "1.2.3", "3 4", "1e999", "--3"])(
  "'%s' is no figure",
  text => {
    expect(figureIn(text, ".")).toBe("unreadable");
  },
);

test("one cell beyond doubt tells the decimal mark of all", () => {
  expect(decimalOf(["1,234", "1,5"], ".")).toEqual({ mark: ",", guessed: false });
  expect(decimalOf(["1,234", "1,234.5"], ",")).toEqual({ mark: ".", guessed: false });
  expect(decimalOf(["1.234.567"], ".")).toEqual({ mark: ",", guessed: false });
  // a part below one has no thousands
  expect(decimalOf(["0,125"], ".")).toEqual({ mark: ",", guessed: false });
  expect(decimalOf(["1,234"], ",")).toEqual({ mark: ",", guessed: true });
  expect(decimalOf(["12", 3.5], ".")).toEqual({ mark: ".", guessed: false });
});

test("columns are called as a spreadsheet calls them", () => {
  expect([0, 25, 26, 701, 702].map(letterOf)).toEqual(["A", "Z", "AA", "ZZ", "AAA"]);
});
