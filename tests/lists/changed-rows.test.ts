import { expect, test } from "vitest";
import { changedRows } from "../../server/lists/changed-rows";

/** Replaces words of a text, each by another. */
const change = (text: string, ...words: readonly [string, string][]) =>
  changedRows(
    text,
    words.map(([was, now]) => {
      const from = text.indexOf(was);
      return { from, to: from + was.length, text: now };
    }),
  );

const text = "one\r\ntwo three\r\nfour\r\nfive\r\n";

test("shows the rows that change, before and after, and no others", () => {
  expect(change(text, ["five", "5"], ["two", "2"], ["three", "3"])).toEqual([
    { line: 2, gone: ["two three"], fresh: ["2 3"] },
    { line: 4, gone: ["five"], fresh: ["5"] },
  ]);
});

test("a row that comes in between has none in its place", () => {
  expect(change(text, ["three", "three\r\nnew"])).toEqual([{ line: 3, gone: [], fresh: ["new"] }]);
  expect(change(text, ["one", "new\r\none"])).toEqual([{ line: 1, gone: [], fresh: ["new"] }]);
  expect(change("", ["", "new"])).toEqual([{ line: 1, gone: [""], fresh: ["new"] }]);
});

test("what is replaced by itself is no change", () => {
  expect(change(text, ["one", "one"])).toEqual([{ line: 2, gone: [], fresh: [] }]);
});
