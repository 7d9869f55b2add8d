import { describe, expect, test } from "vitest";
import { read, textOf } from "../../grammar/source";
import { statementParser } from "../../grammar/statements";
import type { Path, Word } from "../../grammar/tree";
import { cases as files } from "./cases";
import { print, spansIn } from "./print";
import { contentOf, faultsOf, specs } from "./specs";

describe.each(files)("%s", (_, cases) => {
  test.each(cases)("$title", ({ source, tree }) => {
    const found = read("x.poise", source);
    expect(faultsOf(found).map(it => it.message)).toEqual([]);
    expect(print(found.items)).toBe(tree);
  });

  test.each(cases)(
    "with carriage returns and a byte order mark too: $title",
    ({ source, tree }) => {
      const rows = source.split("\n");
      for (const text of [`\ufeff${rows.join("\r\n")}`, rows.join("\r")]) {
        const found = read("x.poise", text);
        expect(faultsOf(found)).toEqual([]);
        expect(textOf(found)).toBe(source);
        expect(print(found.items)).toBe(tree);
      }
    },
  );
});

const texts = [...specs.values(), ...files.flatMap(([, cases]) => cases.map(it => it.source))];

test("what is plain enough to be read without the rules reads as the rules do", () => {
  const plain = [...texts, ...nearlyPlain].map(text => contentOf(read("x.poise", text)));
  const parser = statementParser();
  parser.shortcuts = false;
  const byTheRules = [...texts, ...nearlyPlain].map(text => contentOf(read("x.poise", text)));
  parser.shortcuts = true;
  expect(plain).toEqual(byTheRules);
});

/** A plain start, and each way it may go on. */
const nearlyPlain = [
  "part a weighed 3 lb",
  "part a weighed 3",
  "at FS 12 in",
  "at FS 1, BL 2",
].flatMap(start =>
  ["oz", "4 oz", "1/2 in", "%", "% MAC", "+ 1 lb", "* 2", "^ 2", "/ft", ".. 4", "± 1", "±", ","]
    .concat([", BL", ", BL 3", ", 3", "on", "on 2026-09-19", "on 2026-09-19 on 2026-09-20"])
    .concat(['by "me"', 'rev "B"', 'note "x"', "effective 5 ..", "was", "mirrored", ")", "x"])
    .map(rest => `${start} ${rest}`),
);

test("every node is a stretch of its line, inside the node it belongs to", () => {
  let nodes = 0;
  for (const text of texts)
    for (const [span, around] of spansIn(read("x.poise", text).items)) {
      nodes++;
      const where = span.line.text.slice(span.from, span.to);
      expect(span.from, where).toBeLessThanOrEqual(span.to);
      expect(span.to, where).toBeLessThanOrEqual(span.line.text.length);
      if (around?.line !== span.line) continue;
      expect(span.from, where).toBeGreaterThanOrEqual(around.from);
      expect(span.to, where).toBeLessThanOrEqual(around.to);
    }
  expect(nodes).toBeGreaterThan(5000);
});

test("a word, a path and a quoted text stand where their letters stand", () => {
  for (const text of texts)
    for (const [span] of spansIn(read("x.poise", text).items)) {
      if (!("text" in span) || typeof span.text !== "string") continue;
      const { text: said, line, from, to } = span as Word | Path;
      expect([said, `"${said}"`]).toContain(line.text.slice(from, to));
    }
});

test("nothing of a text is lost", () => {
  for (const text of texts) expect(textOf(read("x.poise", text))).toBe(text);
});
