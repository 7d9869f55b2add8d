import { expect, test } from "vitest";
import { edit, positionsOf, read, type Source, textOf } from "../../grammar/source";
import type { Item } from "../../grammar/tree";
import { contentOf, faultsOf, specs } from "../grammar/specs";

/** Statements on other rows than the one being typed, each with how deep it stands. */
function outside(source: Source, row: number): string {
  const out: string[] = [];
  const walk = (items: readonly Item[], depth: number) => {
    for (const { head, items: inside } of items) {
      const { start } = positionsOf(source, head);
      if (start.line !== row && head.kind !== "nameless")
        out.push(`${depth} ${head.kind} ${head.line.text.slice(head.from, head.to)}`);
      walk(inside, depth + 1);
    }
  };
  walk(source.items, 0);
  return out.join("\n");
}

test("a line half typed costs nothing on the lines around it", () => {
  let states = 0;
  const lost: string[] = [];
  for (const [path, text] of specs) {
    const whole = read(path, text);
    const rows = text.split("\n");
    rows.forEach((row, at) => {
      const before = outside(whole, at);
      const ends = [...row.matchAll(/[\p{L}\p{N}_.]+|"[^"]*"|[^\s]/gu)].map(
        it => it.index + it[0].length,
      );
      for (const end of [0, ...ends.slice(0, -1)]) {
        const typing = edit(
          whole,
          { line: at, character: end },
          { line: at, character: row.length },
          "",
        );
        states++;
        const elsewhere = faultsOf(typing).some(it => positionsOf(typing, it.at).start.line !== at);
        if (elsewhere || outside(typing, at) !== before)
          lost.push(`${path}:${at + 1} ${row.slice(0, end)}`);
      }
    });
  }
  expect(states).toBeGreaterThan(10_000);
  expect(lost.length / states, lost.join("\n")).toBeLessThan(0.01);
}, 60_000);

test("an edited text is the text read anew, to the last node", () => {
  for (const [path, text] of specs) {
    const whole = read(path, text);
    const rows = text.split("\n");
    // every row once: its end cut off, itself taken away, doubled
    rows.forEach((row, at) => {
      const half = Math.floor(row.length / 2);
      const edits = [
        [{ line: at, character: half }, { line: at, character: row.length }, ""],
        [{ line: at, character: 0 }, { line: Math.min(at + 1, rows.length - 1), character: 0 }, ""],
        [{ line: at, character: 0 }, { line: at, character: 0 }, `${row}\n`],
      ] as const;
      const [from, to, insert] = edits[at % edits.length]!;
      const edited = edit(whole, from, to, insert);
      expect(contentOf(edited)).toBe(contentOf(read(path, textOf(edited))));
    });
  }
}, 60_000);
