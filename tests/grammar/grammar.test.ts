import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { Statements } from "../../grammar/statements";
import { axes, functions, inertias, keywords, unitWords } from "../../grammar/words";
import { unitTable } from "../../server/quantity/units";

/** The grammar as the language's design wrote it down; the parser is looser and may not be narrower. */
const ebnf = readFileSync(fileURLToPath(new URL("grammar.ebnf", import.meta.url)), "utf8");
const rules = ebnf.replaceAll(/^#.*$/gm, "");

/** Throws where two alternatives begin alike, a loop reads nothing, a rule calls itself first … */
test("no two rules of the parser contradict each other", () => {
  expect(() => new Statements(true)).not.toThrow();
});

test("every word of the written grammar is a word of the language, and the other way round", () => {
  const written = new Set([...rules.matchAll(/'([\p{L}_]+)'/gu)].map(([, word]) => word!));
  expect([...written].filter(word => !keywords.includes(word))).toEqual([]);
  // AXIS, INERTIA and BASIS stand for theirs; KIND's and TOWARD's are listed in the page's head
  const named = [...axes, ...inertias, "estimated", "calculated", "quoted", "weighed"];
  const listed = new Set(ebnf.match(/[\p{L}_]+/gu));
  expect(keywords.filter(word => !listed.has(word) && !named.includes(word))).toEqual([]);
  expect(written.size).toBeGreaterThan(90);
});

test("no keyword is a unit, and none is listed twice", () => {
  expect(keywords.filter(word => unitWords.includes(word))).toEqual([]);
  for (const words of [keywords, unitWords, functions])
    expect(new Set(words).size).toBe(words.length);
});

test("the grammar's units are those that have a measure", () => {
  expect([...unitWords].sort()).toEqual([...unitTable.keys()].filter(it => it !== "%").sort());
});
