import { expect, test } from "vitest";
import { type Node, nodeAt, nodesOf } from "../../client/budget-nodes";
import { bar, type Entry, moreText, rowText } from "../../client/budget-text";
import { say } from "./say";

const wing: Entry = {
  kind: "assembly",
  path: "wing",
  title: "Wing",
  sides: 1,
  basic: "38.2 lb",
  predicted: "39 lb",
  spread: "0.7 lb",
  budget: {
    budget: "40 lb",
    verdict: "within",
    by: "1 lb",
    basicShare: 0.955,
    predictedShare: 0.975,
  },
  guessed: 0.1,
  complete: true,
};
const shares = (basicShare: number, predictedShare: number) => ({
  ...wing.budget!,
  basicShare,
  predictedShare,
});

test("a row says what is left, and from what to what of what", () => {
  expect(rowText(wing, "mass", say)).toEqual({
    label: "▄▄▄▄▄▁ Wing",
    description: "1 lb left · 38.2 lb → 39 lb of 40 lb",
    spoken: "Wing: basic 38.2 lb, predicted 39 lb, budget 40 lb, 1 lb left, plus or minus 0.7 lb",
    tone: "plain",
  });
});

test("a bar has what is there, what growth adds and what is left; it is full where nothing is", () => {
  expect(bar(shares(0, 0))).toBe("▁▁▁▁▁▁");
  expect(bar(shares(0.5, 0.7))).toBe("▄▄▄▂▁▁");
  expect(bar(shares(0.999, 0.999))).toBe("▄▄▄▄▄▁");
  expect(bar(shares(0.9, 1.1))).toBe("▄▄▄▄▄▂");
  expect(bar(shares(1, 1))).toBe("▄▄▄▄▄▄");
  expect(bar(shares(2, 3))).toBe("▄▄▄▄▄▄");
});

test("what is over says so in words, now or with growth", () => {
  const over = { ...wing, budget: { ...shares(1.1, 1.1), verdict: "over" as const, by: "4 lb" } };
  expect(rowText(over, "mass", say)).toMatchObject({ tone: "over", label: "▄▄▄▄▄▄ Wing" });
  expect(rowText(over, "mass", say).description).toMatch(/^4 lb over · /);
  const risk = { ...wing, budget: { ...shares(0.9, 1.1), verdict: "at-risk" as const } };
  expect(rowText(risk, "mass", say)).toMatchObject({ tone: "at-risk" });
  expect(rowText(risk, "mass", say).spoken).toContain("1 lb over with growth");
});

test("a guess, one of two sides, an unknown mass, a reserve: each is said", () => {
  const { budget: _, spread: __, ...plain } = wing;
  const of = (some: Partial<Entry>) => rowText({ ...plain, ...some }, "mass", say);
  expect(of({ guessed: 0.6 })).toMatchObject({
    tone: "guess",
    description: "38.2 lb → 39 lb · mostly estimated",
  });
  expect(of({ kind: "part", guessed: 1, predicted: "38.2 lb" }).description).toBe(
    "38.2 lb · estimated",
  );
  expect(of({ sides: 2 }).spoken).toBe("Wing: basic 38.2 lb, predicted 39 lb, each side");
  expect(of({ complete: false }).spoken).toContain("incomplete: a mass is not known");
  expect(of({ kind: "reserve" })).toMatchObject({ tone: "guess" });
  expect(rowText(wing, "spread", say).description).toBe(
    "1 lb left · ± 0.7 lb · 38.2 lb → 39 lb of 40 lb",
  );
  expect(moreText({ count: 1, predicted: "2 lb" }, say)).toBe("one more part, 2 lb");
  expect(moreText({ count: 3, predicted: "2 lb" }, say)).toBe("3 more parts, 2 lb");
});

const place = (from: number, to: number) => ({
  uri: "file:///kite.poise",
  range: { start: { line: from, character: 5 }, end: { line: from, character: 9 } },
  whole: {
    start: { line: from, character: 0 },
    end: { line: to, character: from === to ? 60 : 1 },
  },
});
const part = (path: string, line: number) => ({
  ...wing,
  kind: "part" as const,
  path,
  ...place(line, line),
  inside: [],
});
const tree = (more?: Entry["more"]) =>
  nodesOf(
    {
      ...wing,
      kind: "aircraft",
      path: "",
      ...place(0, 0),
      inside: [
        {
          ...wing,
          ...place(2, 6),
          inside: [part("wing.spar", 3), part("wing.spar", 4), part("wing.skin", 5)],
          ...(more && { more }),
        },
      ],
    },
    "kite#",
  );
const idAt = (line: number, selected?: Node) =>
  nodeAt(tree(), "file:///kite.poise", { line, character: 7 }, selected)?.id;

test("the narrowest row around the cursor; between things the one around them", () => {
  expect([3, 4, 5, 6, 0, 9].map(it => idAt(it))).toEqual([
    "kite#//wing/wing.spar",
    "kite#//wing/wing.spar#1",
    "kite#//wing/wing.skin",
    undefined,
    "kite#/",
    undefined,
  ]);
  const at = { line: 6, character: 0 };
  expect(nodeAt(tree(), "file:///kite.poise", at)?.id).toBe("kite#//wing");
  expect(nodeAt(tree(), "file:///moth.poise", at)).toBeUndefined();
});

test("every row has an id of its own, what is left out too, and knows what is around it", () => {
  const top = tree({ count: 2, predicted: "3 lb" });
  const [inner] = top.inside;
  expect(inner!.inside.map(it => it.id).at(-1)).toBe("kite#//wing/…");
  expect(inner!.inside.at(-1)).toMatchObject({ more: { count: 2 }, outer: inner });
  expect(inner!.outer).toBe(top);
});
