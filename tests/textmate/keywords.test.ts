import { expect, test } from "vitest";
import * as words from "../../grammar/words";
import { scopesOf } from "./fixture";

/** A word the language learns later must get a colour on the same day. */
test("every keyword has a colour of its role", () => {
  const roles = /^(keyword|storage|constant\.language|entity\.other)\b/;
  const plain = words.keywords.filter(word => !roles.test(scopesOf(`${word} "x"`, word).join()));
  expect(plain).toEqual([]);
});

test.each([
  ["bases", words.bases, "keyword.control.basis"],
  ["declarations", words.declarations, "storage.type"],
  ["declarations with a figure", words.figures, "storage.type"],
  ["axes", words.axes, "entity.other.attribute-name.axis"],
  ["inertias", words.inertias, "entity.other.attribute-name.inertia"],
  ["kinds", words.kinds, "constant.language.kind"],
  ["directions", words.directions, "constant.language.direction"],
  ["shapes", words.shapes, "constant.language.shape"],
  ["weight limits", words.weightLimits, "keyword.other.weight-limit"],
  ["text clauses", words.textClauses, "keyword.other.clause"],
])("%s look alike", (_, members, role) => {
  const others = members.filter(word => !scopesOf(`${word} "x"`, word).join().startsWith(role));
  expect(others).toEqual([]);
});

test("every function is known where its parenthesis touches it", () => {
  const others = words.functions.filter(
    name => scopesOf(`let a = ${name}(wing)`, name).join() !== "support.function",
  );
  expect(others).toEqual([]);
});

test("every unit is one after a number", () => {
  const others = words.unitWords.filter(
    unit => scopesOf(`qty 5 ${unit}`, unit).join() !== "keyword.other.unit",
  );
  expect(others).toEqual([]);
});

/** `qty 4 quoted …`: after a number a keyword begins the next clause. */
test("no keyword is taken for a unit", () => {
  const units = words.keywords.filter(word =>
    scopesOf(`qty 4 ${word} "x"`, word).includes("keyword.other.unit"),
  );
  expect(units).toEqual([]);
});
