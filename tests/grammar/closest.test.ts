import { expect, test } from "vitest";
import { closest } from "../../grammar/unexpected";
import { keywords } from "../../grammar/words";

test.each([
  ["asembly", "assembly"],
  ["weigthed", "weighed"],
  ["estimatd", "estimated"],
  ["prat", "part"],
  ["aprt", "part"],
  ["mirored", "mirrored"],
  ["rnage", "range"],
  ["ta", "at"],
])("%s was meant to be %s", (slip, word) => expect(closest(slip, keywords)).toBe(word));

test.each(["wing", "ship", "hull", "frobnicate"])("%s is no slip of anything", word =>
  expect(closest(word, keywords)).toBeUndefined(),
);

test("of words as near, the first is meant", () => {
  expect(closest("spat", ["spar", "span"])).toBe("spar");
  expect(closest("spat", ["span", "spar"])).toBe("span");
});
