import { expect, test } from "vitest";
import { windowOf } from "../../server/edges/formats/row";

/** The row as it is drawn, and the carets under it. */
function drawn(text: string, marked: string): string {
  const from = text.indexOf(marked);
  const { row, before, width } = windowOf(text, from, from + marked.length);
  return `${row}\n${" ".repeat(before)}${"^".repeat(width)}`;
}

test("carets stand under what is meant", () => {
  expect(drawn("part spar 6 lb", "spar")).toBe("part spar 6 lb\n     ^^^^");
});

test("a tab is two cells wide", () => {
  expect(drawn("\tpart\tspar", "spar")).toBe("  part  spar\n        ^^^^");
});

test("an emoji and a letter of East Asia fill two cells, an accent none", () => {
  expect(drawn('"😀" spar', "spar")).toBe('"😀" spar\n     ^^^^');
  expect(drawn('"翼" spar', "翼")).toBe('"翼" spar\n ^^');
  expect(drawn('"e\u0301" spar', "spar")).toBe('"e\u0301" spar\n    ^^^^');
});

test("a place behind the end of the row gets one caret", () => {
  expect(windowOf("part", 4, 4)).toEqual({ row: "part", before: 4, width: 1 });
});

test("a finding over several rows is marked to the end of its first", () => {
  expect(windowOf("part spar", 5, Number.POSITIVE_INFINITY)).toMatchObject({ before: 5, width: 4 });
});

test("of a long row what stands around the finding is shown", () => {
  const { row, before, width } = windowOf(`${"a".repeat(1000)}spar${"b".repeat(1000)}`, 1000, 1004);
  expect(row).toBe(`…${"a".repeat(60)}spar${"b".repeat(96)}…`);
  expect(row.slice(before, before + width)).toBe("spar");
});

test("what commands a terminal is shown as a mark of its own", () => {
  expect(windowOf("a\u001b[2Jb", 0, 1).row).toBe("a\ufffd[2Jb");
});
