import * as t from "../../grammar/tokens";
import type { Line } from "../../grammar/tree";
import * as words from "../../grammar/words";
import { memo } from "../memo";
import { type Mark, marksOf } from "./marks";
import { type Meaning, meaningsIn } from "./meanings";

/** What editors call them; what they have no name for is a modifier of what they have one for. */
export const tokenTypes = [
  ...(["comment", "string", "number", "operator", "keyword", "modifier", "property"] as const),
  ...(["enumMember", "function", "type", "variable"] as const),
] as const;
export const tokenModifiers = ["declaration", "deprecated", "control", "basis", "unit"] as const;
export type TokenType = (typeof tokenTypes)[number];
export type TokenModifier = (typeof tokenModifiers)[number];

export interface Token {
  readonly row: number;
  readonly column: number;
  readonly length: number;
  readonly type: TokenType;
  readonly modifiers: readonly TokenModifier[];
}

/** Rows are counted from the line's first, and `from` from the start of its text. */
export interface LineToken extends Token {
  readonly from: number;
}

/** What a line's words are by themselves: it does not change while the line stands. */
export const tokensOf = memo((line: Line): readonly LineToken[] => {
  const heads = line.pieces.flatMap(it => (it.kind === "statement" ? [it.item.head] : []));
  const { words: names, whole } = meaningsIn(heads);
  const marks = marksOf(line);
  const found: LineToken[] = [];
  let next = 0;
  let row = 0;
  let start = 0;
  for (const mark of marks) {
    const { from, text } = mark;
    // each row of a line holds a word or a comment
    if (mark.breaks && mark !== marks[0]) {
      row++;
      start = line.text.lastIndexOf("\n", from) + 1;
    }
    while ((whole[next]?.to ?? Number.POSITIVE_INFINITY) <= from) next++;
    const stretch = whole[next];
    const inside = stretch !== undefined && stretch.from <= from && mark.type !== undefined;
    const [type, ...modifiers] = sortOf(mark, inside ? stretch.means : names.get(from));
    if (type !== undefined)
      found.push({ from, row, column: from - start, length: text.length, type, modifiers });
  }
  return found;
});

type Sort = readonly [TokenType, ...TokenModifier[]] | readonly [];

function sortOf({ type, text }: Mark, meaning: Meaning | undefined): Sort {
  if (type === undefined) return ["comment"];
  if (meaning !== undefined) return ofNames[meaning];
  if (type === t.Str) return ["string"];
  if (type === t.Num || type === t.DateText) return ["number"];
  if (type === t.Percent || type === t.PercentMac) return ["keyword", "unit"];
  if (operators.has(type)) return ["operator"];
  return ofWords.get(text) ?? [];
}

const ofNames: Readonly<Record<Meaning, Sort>> = {
  declared: ["type", "declaration"],
  let: ["variable", "declaration"],
  reference: ["variable"],
  constant: ["enumMember"],
  side: ["enumMember"],
  function: ["function"],
  unit: ["keyword", "unit"],
  code: ["enumMember"],
};

const operators = new Set<Mark["type"]>([
  ...[t.Sign, t.Times, t.Power, t.Equals, t.Compare, t.Range, t.PlusMinus],
]);

const declares = ["choice", "envelope", "configuration", "loading", "airframe", "weighing"];
/** The roles of the language's words; the later ones are the narrower. */
const ofWords = new Map<string, Sort>();
for (const [sort, members] of [
  [["keyword"], words.keywords],
  [
    ["keyword", "control"],
    ["include", "require", "limit", "waive", "for", "every", "until"],
  ],
  [
    ["keyword", "control"],
    ["burn", "release", "taxi", "choose", "remove", "omit", "install"],
  ],
  [
    ["keyword", "control"],
    ["add", "move"],
  ],
  [
    ["keyword", "declaration"],
    [...words.declarations, ...words.figures, ...declares],
  ],
  [
    ["keyword", "declaration"],
    ["change", "let"],
  ],
  [["keyword", "basis"], words.bases],
  [["modifier"], ["was", "mirrored", "operating", "ground", "total", "each", "usable", "common"]],
  [["property"], [...words.axes, ...words.inertias]],
  [["enumMember"], [...words.kinds, ...words.directions, ...words.shapes, "full"]],
] as const)
  for (const word of members) ofWords.set(word, sort);
