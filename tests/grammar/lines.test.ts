import { expect, test } from "vitest";
import { listOf } from "../../grammar/lines";
import { read } from "../../grammar/source";

/** The rows of each logical line, a blank row between lines. */
const grouped = (text: string) => linesOf(text).join("\n\n");
const linesOf = (text: string) => listOf(read("x.poise", text).lines).map(line => line.text);

/** What goes on in the next row is shown by the trees; here is what does not. */
test.each([
  ["a comma before a keyword", "part spar at FS 12,\npart rib"],
  ["a comma before a clause", "at FS 12,\nmirrored"],
  ["a comma before a basis, outside of growth and spread", "at FS 12,\nweighed 3 lb"],
  ["a comma before a moment of inertia, outside of inertia", "at FS 12,\nIxx 3 kg m^2"],
  ["a comma before a load", "limit 3 lb of a,\npilot 180 lb"],
  ["a comma before a closing brace", "limit 3 lb of a,\n}"],
  ["a comma before a blank row", "limit 3 lb of a,\n\nb"],
  ["an operator before a keyword", "let a = 3 lb +\nlet b = 4 lb"],
  ["an operator before a closing brace", "let a = 3 lb +\n}"],
  ["an operator that is alone on its row", "let a = 3 lb\n+"],
  ["a parenthesis before a statement", "let a = (3 lb\npart spar weighed 3 lb"],
  ["a parenthesis before a load", "let a = min(3 lb\npilot 180 lb"],
  ["a parenthesis before a closing brace", "let a = (3 lb\n}"],
  ["a range that is open", "effective 5 ..\nqty 3"],
  ["a spread that is not typed yet", "weighed 3 lb ±\n0.1 lb"],
  ["a comment, blank rows", "// a\n// b\n\n\n// c"],
  ["a row of strange signs", "weighed 3 lb\n€\n± 3%"],
])("a line ends behind %s", (_, text) => {
  const rows = text.split("\n");
  expect(linesOf(text)).toEqual(rows);
});

test("a comment below a line that goes on belongs to it, and any other is alone", () => {
  expect(grouped("// above\nlimit 3 lb of a,\n  // within\n  b\n// below\npart p")).toBe(
    "// above\n\nlimit 3 lb of a,\n  // within\n  b\n\n// below\n\npart p",
  );
});
