import { expect, test } from "vitest";
import { read } from "../../grammar/source";
import { functions, keywords, unitWords } from "../../grammar/words";
import { print } from "./print";
import { faultsOf } from "./specs";

/** Words that say something else where a tank, a seat or a bay is filled. */
const ofAmounts = ["full", "total", "each", "usable"];
const words = [...keywords, ...unitWords, ...functions];

function reads(text: string, tree: string): string | undefined {
  const source = read("x.poise", text);
  const said = faultsOf(source).map(it => it.message);
  return said.length === 0 && print(source.items) === tree ? undefined : `${text}: ${said}`;
}

test.each(["part", "assembly", "tank", "seat", "bay", "option", "aircraft"])(
  "a %s may be called by any word",
  kind => {
    expect(words.flatMap(it => reads(`${kind} ${it}`, `(${kind} ${it})`) ?? [])).toEqual([]);
    const behind = words.map(it => reads(`${kind} ${it} at FS 3`, `(${kind} ${it} (at <FS 3>))`));
    expect(behind.filter(it => it !== undefined)).toEqual([]);
  },
);

test.each(["choice", "envelope", "configuration", "loading", "airframe"])(
  "a %s may be called by any word",
  kind => {
    expect(words.flatMap(it => reads(`${kind} ${it} {}`, `(${kind} ${it}) {}`) ?? [])).toEqual([]);
  },
);

test("a path may hold any word", () => {
  const trees = words.map(it => reads(`part wing.${it}.a`, `(part wing.${it}.a)`));
  expect(trees.filter(it => it !== undefined)).toEqual([]);
  const asked = words.map(it => reads(`let x = mass(a.${it})`, `(let x mass(a.${it}))`));
  expect(asked.filter(it => it !== undefined)).toEqual([]);
});

test("a function may be asked about a thing of any name", () => {
  const asked = words.map(it => reads(`let x = mass(${it})`, `(let x mass(${it}))`));
  expect(asked.filter(it => it !== undefined)).toEqual([]);
});

test("a loading may fill a tank of any name", () => {
  const filled = words
    .filter(it => !ofAmounts.includes(it))
    .map(it => reads(`loading l { ${it} 5 gal }`, `(loading l) {\n  (load ${it} (5[gal]))\n}`));
  expect(filled.filter(it => it !== undefined)).toEqual([]);
});

test("an airframe may weigh, remove, move and budget a thing of any name", () => {
  for (const word of words.filter(it => it !== "total"))
    expect(
      reads(
        `airframe s { weighed ${word} 3 lb; remove ${word}; move ${word} to FS 3; budget ${word} 4 lb }`,
        [
          "(airframe s) {",
          `  (record-of (record weighed 3[lb]) ${word})`,
          `  (remove ${word})`,
          `  (move ${word} target=<FS 3>)`,
          `  (clause (budget of=${word} 4[lb]))`,
          "}",
        ].join("\n"),
      ),
    ).toBeUndefined();
});
