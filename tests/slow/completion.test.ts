import fc from "fast-check";
import { expect, test } from "vitest";
import { listOf } from "../../grammar/lines";
import { scan, type Token } from "../../grammar/scan";
import { positionsOf } from "../../grammar/source";
import * as t from "../../grammar/tokens";
import type { Line } from "../../grammar/tree";
import { completion } from "../../server/features/completion";
import { emptyProject, type Project, sourceOf, withEdit, withText } from "../../server/project";
import { specs } from "../grammar/specs";

/** What only its author can know, or what is gone for a line of the same file says so. */
const unknowable = new Set(["carpet", "paddle", "sandbag"]);

/** The words of a line that are neither new names nor the second unit of a product. */
function words(line: Line): readonly Token[] {
  const heads = line.pieces.flatMap(it => (it.kind === "statement" ? [it.item.head] : []));
  const declared = new Set(
    heads.flatMap(it =>
      "clauses" in it
        ? (it.path?.words.map(word => word.from) ?? [])
        : "name" in it && it.name
          ? [it.name.from]
          : [],
    ),
  );
  const { tokens } = scan(line.text);
  return tokens.filter(({ tokenType, startOffset, image }, i) => {
    const word = tokenType === t.Call || tokenType.CATEGORIES?.includes(t.Word);
    const product = tokenType === t.Unit && tokens[i - 1]?.tokenType === t.Unit;
    return word && !product && !declared.has(startOffset) && !unknowable.has(image);
  });
}

const amphibian = [...specs].reduce(
  (all, [path, text]) => (path.startsWith("tests") ? withText(all, `/${path}`, text) : all),
  emptyProject(["/tests"]),
);

/** The rows of the amphibian, each with one of its words that is not offered where it begins. */
function missed(project: (line: Line, from: number) => Project, every: number): readonly string[] {
  let seen = 0;
  return [...specs.keys()].flatMap(path => {
    const source = sourceOf(amphibian, `/${path}`);
    return (source ? listOf(source.lines) : []).flatMap(line =>
      words(line).flatMap(({ image, startOffset: from }) => {
        if (seen++ % every !== 0) return [];
        const { start } = positionsOf(source!, { line, from, to: from });
        const found = completion(project(line, from), `/${path}`, start, "2026-11-28");
        const named = found?.offers.some(it => it.label.split(/[ ./^]/)[0] === image);
        return named ? [] : [`${line.text.slice(0, from)}| ${image}`];
      }),
    );
  });
}

test("every word of a spec is offered where it stands", () => {
  expect(missed(() => amphibian, 1)).toEqual([]);
}, 120_000);

test("also while its line ends there, and the brace of its block with it", () => {
  const cut = (line: Line, from: number) => {
    const source = sourceOf(amphibian, line.file)!;
    const { start, end } = positionsOf(source, { line, from, to: line.text.length });
    return withEdit(amphibian, line.file, start, end, "");
  };
  expect(missed(cut, 11)).toEqual([]);
}, 120_000);

test("a text broken anywhere is answered, and only letters that are typed are replaced", () => {
  const [path, text] = [...specs].find(([it]) => it.endsWith("leafcutter.poise"))!;
  const at = fc.nat({ max: text.length });
  const piece = fc.constantFrom(
    "{",
    "}",
    "(",
    '"',
    "..",
    "\n",
    ";",
    "%",
    "wing.",
    "over-",
    "3 ",
    "é",
  );
  fc.assert(
    fc.property(at, at, piece, at, (from, length, put, cursor) => {
      const broken = text.slice(0, from) + put + text.slice(from + (length % 40));
      const before = broken.slice(0, cursor).split("\n");
      const position = { line: before.length - 1, character: before.at(-1)!.length };
      const project = withText(emptyProject(["/"]), `/${path}`, broken);
      const found = completion(project, `/${path}`, position, "2026-11-28");
      for (const { back = 0 } of found?.offers ?? []) {
        const replaced = before.at(-1)!.slice(-found!.typed.length - back || before.at(-1)!.length);
        expect(replaced).toMatch(/^[\p{L}\p{N}_-]*$/u);
      }
    }),
    { numRuns: 150 },
  );
}, 120_000);
