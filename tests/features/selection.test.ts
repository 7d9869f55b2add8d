import { expect, test } from "vitest";
import { placeAt, positionsOf, textOf } from "../../grammar/source";
import { type Range, selection } from "../../server/features/selection";
import { emptyProject, sourceOf, withText } from "../../server/project";
import { specs } from "../grammar/specs";
import { opened } from "./cursor";

/** What is selected step by step, rows joined with `⏎`. */
function steps(text: string): readonly string[] {
  const { project, path, position } = opened({ "x.poise": text });
  const rows = textOf(sourceOf(project, path)!).split("\n");
  return selection(project, path, position).map(({ start, end }) => {
    const within = rows.slice(start.line, end.line + 1);
    within.push(within.pop()!.slice(0, end.character));
    within[0] = within[0]!.slice(start.character);
    return within.map(it => it.trim()).join("⏎");
  });
}

test("from a name in an expression to the file's outermost block", () =>
  expect(
    steps(`let gap = 3 lb
assembly wing {
  assembly outer {
    part spar calculated 2 * (ar$0ea - 1 ft^2) * 0.17 lb/ft^2 on 2026-03-02 at FS 1
    part skin
  }
  part tip
}`),
  ).toEqual([
    "area",
    "(area - 1 ft^2)",
    "2 * (area - 1 ft^2)",
    "2 * (area - 1 ft^2) * 0.17 lb/ft^2",
    "calculated 2 * (area - 1 ft^2) * 0.17 lb/ft^2 on 2026-03-02",
    "part spar calculated 2 * (area - 1 ft^2) * 0.17 lb/ft^2 on 2026-03-02 at FS 1",
    "part spar calculated 2 * (area - 1 ft^2) * 0.17 lb/ft^2 on 2026-03-02 at FS 1⏎part skin",
    "assembly outer {⏎part spar calculated 2 * (area - 1 ft^2) * 0.17 lb/ft^2 on 2026-03-02 at FS 1⏎part skin⏎}",
    "assembly outer {⏎part spar calculated 2 * (area - 1 ft^2) * 0.17 lb/ft^2 on 2026-03-02 at FS 1⏎part skin⏎}⏎part tip",
    "assembly wing {⏎assembly outer {⏎part spar calculated 2 * (area - 1 ft^2) * 0.17 lb/ft^2 on 2026-03-02 at FS 1⏎part skin⏎}⏎part tip⏎}",
  ]));

test("a text in quotes first without them, a path word by word, a head before its block", () => {
  expect(steps('part a note "as dr$0awn"').slice(0, 3)).toEqual([
    "as drawn",
    '"as drawn"',
    'note "as drawn"',
  ]);
  expect(steps("limit 3 lb of wing.sp$0ar.LH, b")).toEqual([
    "spar",
    "wing.spar.LH",
    "limit 3 lb of wing.spar.LH, b",
  ]);
  expect(steps("assem$0bly wing {\n  part a\n}")).toEqual([
    "assembly",
    "assembly wing",
    "assembly wing {⏎part a⏎}",
  ]);
});

test("in a comment the comment, on an empty row what is around it", () => {
  expect(steps("assembly wing {\n  // what li$0fts it\n  part a\n}")).toEqual([
    "// what lifts it",
    "assembly wing {⏎// what lifts it⏎part a⏎}",
  ]);
  expect(steps("part a\n$0\npart b")).toEqual([""]);
});

test("anywhere in a spec each step holds the one before and the position", () => {
  const [path, text] = [...specs].find(([it]) => it.endsWith("dunlin/operations.poise"))!;
  const project = withText(emptyProject(["/"]), path, text);
  const source = sourceOf(project, path)!;
  const size = ({ start, end }: Range) =>
    (end.line - start.line) * 1000 + end.character - start.character;
  text.split("\n").forEach((row, line) => {
    for (let character = 0; character <= row.length; character += 3) {
      const found = selection(project, path, { line, character });
      const at = placeAt(source, { line, character });
      const here = positionsOf(source, { line: at.line, from: at.offset, to: at.offset }).start;
      expect(found.length).toBeGreaterThan(0);
      found.forEach((range, i) => {
        const inside =
          (range.start.line - here.line || range.start.character - here.character) <= 0 &&
          (range.end.line - here.line || range.end.character - here.character) >= 0;
        expect(inside).toBe(true);
        if (i > 0) expect(size(range)).toBeGreaterThan(size(found[i - 1]!));
      });
    }
  });
});
