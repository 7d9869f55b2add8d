import fc from "fast-check";
import { expect, test } from "vitest";
import { edit, read, textOf } from "../../grammar/source";
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
];

test("any sequence of edits gives the tree of the text it leaves", () => {
  const files = [...specs].filter(([, text]) => text.length < 4000);
  fc.assert(
    fc.property(
      fc.constantFrom(...files),
      fc.array(
        fc.record({
          at: fc.double({ min: 0, max: 0.999, noNaN: true }),
          gone: fc.nat(40),
          text: fc.oneof(fc.constantFrom(...snippets), fc.constant("")),
        }),
        { minLength: 1, maxLength: 6 },
      ),
      ([path, start], changes) => {
        let source = read(path, start);
        for (const { at, gone, text } of changes) {
          const whole = textOf(source);
          const from = Math.floor(at * (whole.length + 1));
          const position = (offset: number) => {
            const rows = whole.slice(0, offset).split("\n");
            return { line: rows.length - 1, character: rows.at(-1)!.length };
          };
          const to = Math.min(whole.length, from + gone);
          source = edit(source, position(from), position(to), text);
          expect(textOf(source)).toBe(whole.slice(0, from) + text + whole.slice(to));
        }
        expect(contentOf(source)).toBe(contentOf(read(path, textOf(source))));
      },
    ),
    { numRuns: 300 },
  );
});

test("no text at all makes the reader throw", () => {
  const words = fc.constantFrom(...snippets, "of", "to", "12", "lb", "2026-02-11", "%", "mirrored");
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string({ unit: "binary" }),
        fc.array(words).map(it => it.join(" ")),
      ),
      text => {
        expect(read("any.poise", text).lines.length).toBeGreaterThan(0);
      },
    ),
    { numRuns: 1000 },
  );
});
