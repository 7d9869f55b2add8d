import fc from "fast-check";
import { expect, test } from "vitest";
import { indexAtRow, indexOf, lineAt, linesOf, listOf, rowAt, spliced } from "../../grammar/lines";
import { edit, read, textOf } from "../../grammar/source";
import type { Line } from "../../grammar/tree";
import { contentOf } from "./specs";

const line = (rank: number, rows: number): Line => ({
  ...{ file: "x.poise", text: "\n".repeat(rows - 1), rows, rank },
  ...{ contexts: ["body"], pieces: [], faults: [] },
});
const several = (from: number, count: number, step: number) =>
  Array.from({ length: count }, (_, i) => line(from + i * step, 1 + (i % 3 === 0 ? i % 4 : 0)));

const share = fc.double({ min: 0, max: 1, noNaN: true });
const change = fc.record({
  at: share,
  gone: fc.oneof(fc.nat({ max: 3 }), fc.nat({ max: 900 })),
  fresh: fc.oneof(fc.nat({ max: 3 }), fc.nat({ max: 1200 })),
});

test("lines in chunks are the lines of a flat list, however they were edited", () => {
  fc.assert(
    fc.property(fc.nat({ max: 2000 }), fc.array(change, { maxLength: 12 }), (more, changes) => {
      let flat = several(0, 1 + more, 1);
      let lines = linesOf(flat);
      for (const { at, gone, fresh } of changes) {
        const index = Math.floor(at * (flat.length - 1));
        const count = Math.min(gone, flat.length - index - 1);
        const low = flat[index - 1]?.rank ?? -1;
        const step = (flat[index + count]!.rank - low) / (fresh + 1);
        const added = several(low + step, fresh, step);
        lines = spliced(lines, index, count, added);
        flat = flat.toSpliced(index, count, ...added);
      }
      expect(listOf(lines)).toEqual(flat);
      expect(lines.length).toBe(flat.length);
      for (const chunk of lines.chunks) expect(chunk.lines.length).toBeLessThanOrEqual(512);
      let row = 0;
      for (const [i, it] of flat.entries()) {
        const found = [lineAt(lines, i), indexOf(lines, it), rowAt(lines, i)];
        expect(found).toEqual([it, i, row]);
        row += it.rows;
        expect(indexAtRow(lines, row - 1)).toBe(i);
      }
      expect(indexAtRow(lines, row + 5)).toBe(flat.length - 1);
      expect([lineAt(lines, -1), lineAt(lines, flat.length)]).toEqual([undefined, undefined]);
    }),
    { numRuns: 20 },
  );
});

test("an edited file of thousands of lines is the same file read anew", () => {
  const rows = Array.from({ length: 2000 }, (_, i) => `  part p${i} weighed ${i % 9} lb`);
  let source = read("x.poise", ["assembly a {", ...rows, "}", ""].join("\n"));
  const edits: [from: number, to: number, text: string][] = [
    ...([
      [512, 512, "  part new weighed\n"],
      [512, 513, ""],
      [0, 1500, ""],
    ] as const),
    ...([
      [3, 3, rows.join("\n")],
      [1700, 1701, "  assembly b {\n"],
      [2501, 2501, "}\n"],
    ] as const),
    ...([
      [100, 101, "  part half weighed 3 lb at FS 12,\n"],
      [2000, 2010, "\n\n// a\n"],
    ] as const),
  ].map(([from, to, text]) => [from, to, text]);
  for (const [from, to, text] of edits) {
    const [start, end] = [
      { line: from, character: 0 },
      { line: to, character: 0 },
    ];
    source = edit(source, start, end, text);
    expect(contentOf(source)).toBe(contentOf(read("x.poise", textOf(source))));
  }
});
