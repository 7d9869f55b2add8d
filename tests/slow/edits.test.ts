import fc from "fast-check";
import { expect, test } from "vitest";
import { listOf } from "../../grammar/lines";
import { edit, type Position, placeAt, positionsOf, read, textOf } from "../../grammar/source";
import { spansIn } from "../grammar/print";
import { contentOf, specs } from "../grammar/specs";

const snippets = [
  ...["{", "}", "(", ")", ",", "..", "±", ";", "\n", "\n\n", "  ", "// note\n", '"', "/", "+"],
  ...[
    "part",
    "assembly x {\n",
    "weighed 3 lb",
    "at FS 12,",
    "at",
    "loading l {\npilot 180 lb\n}\n",
  ],
  ...["cg 900 lb: FS 1 .. 2", "let a = (3 lb +\n", "airframe s serial 1 {", "é", "\u0000", "€"],
  ...[
    "\r\n",
    "was",
    "burn t to 3 gal",
    "weighing w of s on 2026-11-12 {\n",
    "swing gear",
    "was a 3 lb",
  ],
  ...["// half\n", "/", "limit 3 lb of a,\n", "growth estimated 3%,\n", "swing 3 deg about (", "*"],
];

/** A text broken here and there, as files are while they are written. */
const texts = fc
  .tuple(fc.constantFrom(...specs.values()), fc.nat(80), fc.integer({ min: 1, max: 25 }))
  .map(([text, from, count]) =>
    text
      .split("\n")
      .slice(from, from + count)
      .join("\n"),
  );
const words = fc.constantFrom(...snippets, "of", "to", "12", "lb", "2026-02-11", "%", "mirrored");
const soup = fc
  .array(fc.oneof(words, fc.constant("\n")), { maxLength: 40 })
  .map(it => it.join(" "));

type Change =
  | { readonly kind: "text"; readonly at: number; readonly gone: number; readonly text: string }
  | {
      readonly kind: "row";
      readonly at: number;
      readonly how: "away" | "twice" | "joined" | "moved";
    };
const place = fc.double({ min: 0, max: 0.999, noNaN: true });
const change: fc.Arbitrary<Change> = fc.oneof(
  fc.record({
    kind: fc.constant("text" as const),
    at: place,
    gone: fc.oneof(fc.constant(0), fc.nat(12), fc.nat(80)),
    text: fc.oneof(fc.constantFrom(...snippets), fc.constant("")),
  }),
  fc.record({
    kind: fc.constant("row" as const),
    at: place,
    how: fc.constantFrom("away", "twice", "joined", "moved"),
  }),
);

/** Where a change stands in a text, and what it leaves there. */
function apply(change: Change, text: string): [from: number, to: number, put: string] {
  if (change.kind === "text") {
    const from = Math.floor(change.at * (text.length + 1));
    return [from, Math.min(text.length, from + change.gone), change.text];
  }
  const rows = text.split("\n");
  const row = Math.floor(change.at * rows.length);
  const from = rows.slice(0, row).join("\n").length + (row > 0 ? 1 : 0);
  const to = from + rows[row]!.length;
  const behind = Math.min(text.length, to + 1);
  switch (change.how) {
    case "away":
      return [from, behind, ""];
    case "twice":
      return [from, from, `${rows[row]}\n`];
    case "joined":
      return [to, behind, " "];
    case "moved":
      return [from, from, "  "];
  }
}

function positionAt(text: string, offset: number): Position {
  const rows = text.slice(0, offset).split("\n");
  return { line: rows.length - 1, character: rows.at(-1)!.length };
}

test("after every edit stands the tree of the text it leaves", () => {
  fc.assert(
    fc.property(
      fc.oneof({ weight: 3, arbitrary: texts }, soup),
      fc.array(change, { minLength: 1, maxLength: 8 }),
      (start, changes) => {
        let source = read("x.poise", start);
        let text = textOf(source);
        for (const it of changes) {
          const [from, to, put] = apply(it, text);
          source = edit(source, positionAt(text, from), positionAt(text, to), put);
          text = (text.slice(0, from) + put + text.slice(to)).replaceAll("\r\n", "\n");
          expect(textOf(source)).toBe(text);
          expect(contentOf(source)).toBe(contentOf(read("x.poise", text)));
        }
      },
    ),
    {
      numRuns: 1500,
      seed: 20261125,
      examples: [
        // a row without a token is no comment
        ["\n € \n {", [{ kind: "text", at: 0, gone: 0, text: "{" }]],
        // what stands on a line does not say how the file is laid out
        [" 3 quoted 1 lb at FS 2\n}", [{ kind: "row", at: 0, how: "joined" }]],
        // an open brace without a head is a fault of the braces too
        ["part spar\nfoo {", [{ kind: "row", at: 0, how: "moved" }]],
      ],
    },
  );
});

test("every node stands somewhere in the text, and a place leads back to its line", () => {
  fc.assert(
    fc.property(fc.oneof(texts, soup), text => {
      const source = read("x.poise", text);
      for (const [span] of spansIn([source.items, listOf(source.lines).map(line => line.faults)])) {
        expect(span.from).toBeLessThanOrEqual(span.to);
        expect(span.to).toBeLessThanOrEqual(span.line.text.length);
        const { start } = positionsOf(source, span);
        expect(placeAt(source, start)).toEqual({ line: span.line, offset: span.from });
      }
    }),
    { numRuns: 300, seed: 20261125 },
  );
});

test("no text at all makes the reader throw", () => {
  const any = fc.oneof(
    fc.string({ unit: "binary" }),
    fc.array(words).map(it => it.join(" ")),
  );
  fc.assert(
    fc.property(any, text => {
      expect(textOf(read("any.poise", text))).toBe(
        text.replace(/^\ufeff/, "").replaceAll(/\r\n?/g, "\n"),
      );
    }),
    { numRuns: 2000, seed: 20261125 },
  );
});
