import { expect, test } from "vitest";
import { listOf } from "../../grammar/lines";
import { edit, read, textOf } from "../../grammar/source";
import type { Item } from "../../grammar/tree";
import { faultsOf } from "./specs";

const messages = (text: string) => [
  ...new Set(faultsOf(read("x.poise", text)).map(it => it.message)),
];
const many = (text: string, times = 10_000) => text.repeat(times);

test.each([
  ["open braces", many("assembly a {\n")],
  ["open braces on a row", many("assembly a {", 8_000)],
  ["braces in pairs", many("assembly a {\n") + many("}\n")],
  [
    "braces further and further right",
    Array.from({ length: 2_000 }, (_, i) => `${" ".repeat(i)}assembly a {`).join("\n"),
  ],
])("blocks end at a hundred deep: %s", (_, text) => {
  const source = read("x.poise", text);
  const deep = (items: readonly Item[]): number =>
    items.length === 0 ? 0 : 1 + Math.max(...items.map(it => deep(it.items)));
  expect(deep(source.items)).toBeLessThanOrEqual(101);
  expect(textOf(source)).toBe(text);
  const found = faultsOf(source).map(it => it.message);
  expect(found[0]).toBe("blocks stand more than 100 deep here; what is deeper is left out");
  expect(found.length).toBeLessThanOrEqual(101);
});

test.each([
  ["open", `let x = ${many("(")}`],
  ["in pairs", `let x = ${many("(")}1${many(")")}`],
  ["calls", `let x = ${many("min(")}`],
  ["calls in pairs", `let x = ${many("min(")}1${many(")")}`],
])("parentheses end at sixty-four deep: %s", (_, text) => {
  expect(messages(text)).toEqual(["parentheses stand more than 64 deep here"]);
});

test("sixty-three are read", () => {
  expect(messages(`let x = ${many("(", 63)}1${many(")", 63)}`)).toEqual([]);
});

test.each([
  ["signs", `let x = ${many("-")}1`],
  ["a sum", `let x = 1${many(" + 1")}`],
  ["a product", `let x = 1${many(" * 1")}`],
  ["a path", `let x = a${many(".a")}`],
  ["units", `let x = 1${many(" kg")}`],
  ["arguments", `let x = min(1${many(", 1")})`],
  ["rows of a sum", `let x = 1${many("\n  + 1")}`],
  ["rows of arguments", `let x = min(\n${many("1,\n")}1)`],
  ["semicolons", many(";")],
])("a long list is a long list: %s", (_, text) => {
  expect(messages(text)).toEqual([]);
});

test.each([
  ["a letter", many("x", 1_000_000)],
  ["a text", `part p note "${many("x", 999_986)}"`],
  ["braces", many("{}", 500_000)],
])("a row of a megabyte is passed over, and the rows around it count: %s", (_, row) => {
  const source = read("x.poise", `part a weighed 1 lb\n${row}\npart b weighed 2 lb`);
  expect(faultsOf(source).map(it => it.message)).toEqual([
    "this line has 1,000,000 characters; Poise reads lines of up to 100,000",
  ]);
  expect(source.items).toHaveLength(2);

  const gone = edit(source, { line: 1, character: 0 }, { line: 1, character: 1_000_000 }, "");
  expect(faultsOf(gone)).toEqual([]);
});

test("rows that belong together stop doing so before they are too long a line", () => {
  const source = read("x.poise", `limit 3 lb of a${many("\n  , b", 60_000)}`);
  for (const line of listOf(source.lines)) expect(line.text.length).toBeLessThanOrEqual(100_000);
  expect(faultsOf(source).length).toBeGreaterThan(0);
});

test("what cannot be read again and again is said again and again", () => {
  expect(faultsOf(read("x.poise", many(") part ", 3_000)))).toHaveLength(6_000);
  expect(faultsOf(read("x.poise", many("€ ")))).toHaveLength(10_000);
});

test.each([
  [
    "NUL",
    "part p\u0000 weighed\u0000 3 lb",
    ["a character that cannot be shown means nothing here"],
  ],
  [
    "half a pair",
    "part p \ud83d weighed 3 lb",
    ["a character that cannot be shown means nothing here"],
  ],
  ["many pairs", `part p ${"🛩".repeat(20)}`, [`${"🛩".repeat(12)}… means nothing here`]],
  ["an undecodable byte", "part p\ufffd", ["a character that cannot be shown means nothing here"]],
  ["many strangers", "part p ¿¿¿¿¿¿¿¿¿¿¿¿¿¿¿¿", ["¿¿¿¿¿¿¿¿¿¿¿¿… means nothing here"]],
  ["a no-break space", "part\u00a0p weighed 3\u00a0lb", []],
])("a character that is none of the language: %s", (_, text, expected) => {
  expect(messages(text)).toEqual(expected);
  expect(read("x.poise", text).items).toHaveLength(1);
});
