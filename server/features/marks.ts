import type { TokenType } from "chevrotain";
import { scan } from "../../grammar/scan";
import * as t from "../../grammar/tokens";
import type { Line, Span } from "../../grammar/tree";

/** A token or a comment of a line, as it is printed. */
export interface Mark {
  readonly text: string;
  readonly from: number;
  /** Absent: a comment. */
  readonly type: TokenType | undefined;
  /** It is the first of its row. */
  readonly breaks: boolean;
  /** A sign that is no operator: `-4` touches what follows, `lb/ft`, `3/8` and `over-budget` both. */
  readonly binds: "ahead" | "both" | undefined;
}

/** What a logical line is made of, in order. Nothing of a line without faults is left out but blanks. */
export function marksOf(line: Line): readonly Mark[] {
  const { text } = line;
  const signs = signsIn(line);
  const marks: Mark[] = [];
  let end = 0;
  const comments = (to: number): boolean => {
    let breaks = marks.length === 0;
    let rest = end;
    for (const { 0: comment, index } of text.slice(end, to).matchAll(/\/\/[^\n]*/g)) {
      const from = end + index;
      breaks ||= text.slice(rest, from).includes("\n");
      marks.push({ text: comment.trimEnd(), from, type: undefined, breaks, binds: undefined });
      breaks = false;
      rest = from;
    }
    return breaks || text.slice(rest, to).includes("\n");
  };
  for (const { tokenType: type, startOffset: from, endOffset } of scan(text).tokens) {
    const breaks = comments(from);
    end = endOffset + 1;
    const said = type === t.PercentMac ? "%MAC" : text.slice(from, end);
    marks.push({ text: said, from, type, breaks, binds: bindsAs(type, signs.get(from)) });
  }
  comments(text.length);
  return marks;
}

/** On one row, single spaces where there are any. */
export function joined(marks: readonly Mark[]): string {
  let row = "";
  let before: Mark | undefined;
  for (const mark of marks) {
    row += before === undefined || touches(before, mark) ? mark.text : ` ${mark.text}`;
    before = mark;
  }
  return row;
}

function touches(before: Mark, mark: Mark): boolean {
  if (before.type === undefined || mark.type === undefined) return false;
  // min( touches, about ( does not
  if (mark.type === t.LParen && before.type === t.Call) return true;
  if (before.binds !== undefined || mark.binds === "both") return true;
  return touchesNext.has(before.type) || touchesLast.has(mark.type);
}

const touchesNext = new Set<TokenType>([t.LParen, t.Dot, t.Power]);
const touchesLast = new Set<TokenType>([
  ...[t.Comma, t.Colon, t.RParen, t.Dot, t.Power, t.Percent],
]);

function bindsAs(type: TokenType, sign: SignOf | undefined): Mark["binds"] {
  if (sign === "operator") return undefined;
  if (sign === "code" || type === t.Times) return "both";
  return type === t.Sign ? "ahead" : undefined;
}

type SignOf = "operator" | "code";

/** Where the signs of a line stand that its tree says something of. */
function signsIn({ text, pieces }: Line): ReadonlyMap<number, SignOf> {
  const signs = new Map<number, SignOf>();
  for (const piece of pieces) {
    if (piece.kind !== "statement") continue;
    const { head } = piece.item;
    gatherOperators(head, signs);
    const code = head.kind === "waive" ? head.code : undefined;
    for (let at = code?.from ?? 0; at < (code?.to ?? 0); at++)
      if (text[at] === "-") signs.set(at, "code");
  }
  return signs;
}

/** The tree is plain data, and each of its operators says where it stands. */
function gatherOperators(node: unknown, into: Map<number, SignOf>): void {
  if (typeof node !== "object" || node === null) return;
  if ("operatorAt" in node) into.set((node.operatorAt as Span).from, "operator");
  for (const [key, value] of Object.entries(node)) if (key !== "line") gatherOperators(value, into);
}
