import { DEEPEST } from "./expressions";
import type { Token } from "./scan";
import * as t from "./tokens";
import type { Context, Statement } from "./tree";
import { clauseWords, keywords, statementWords } from "./words";

/**
 * What to say of a token that fits nowhere: what is wrong, and what would be right if that is known.
 * @param from where the reading began that could not go on
 */
export function unexpected(
  tokens: readonly Token[],
  from: number,
  at: number,
  context: Context,
  before: Statement | undefined,
): string {
  const token = tokens[at]!;
  const word = token.image;
  const type = token.tokenType;
  if (type === t.RParen) return "this parenthesis closes nothing";
  if ((type === t.LParen || type === t.Call) && parensAround(tokens.slice(from, at)) >= DEEPEST)
    return `parentheses stand more than ${DEEPEST} deep here`;
  const comma = [at - 1, at, at + 1].find(i => isDecimalComma(tokens, i));
  if (comma !== undefined)
    return (
      ungrouped(tokens, comma) ??
      `write a decimal point: ${tokens[comma - 1]!.image}.${tokens[comma + 1]!.image}`
    );
  const name = misnamed(tokens, at, before);
  if (name !== undefined) return name;
  if (isBareMac(before)) return NO_CHORD;
  if (word === "of" && before?.kind === "tank")
    return "of how much? write holds and an amount before it: holds 14 gal of fuel";
  if (before?.kind === "load" && before.amount?.usable && type === t.Num)
    return "this amount belongs in front of usable";
  if (type === t.Comma) return "this comma does not fit here";
  const here = saidInstead(word);
  if (here !== undefined && type !== t.Str) return `${word} does not fit here; ${here}`;
  if (type === t.Ident || type === t.Call) {
    // of two words as near, the one that may stand here
    const rather = before === undefined ? statementWords : clauseWords;
    const close = closest(word, [...rather, ...keywords]);
    if (close !== undefined)
      return `${word} is not a word of the language here; did you mean ${close}?`;
    return before === undefined && context === "body"
      ? `${word} begins no statement`
      : `${word} does not fit here`;
  }
  if (type === t.Num) {
    if (before !== undefined && "clauses" in before)
      return "a figure stands alone: say what it is, such as estimated, at FS or qty";
    return "a figure stands alone here";
  }
  if (type === t.Str) return "a text stands alone here; notes begin with the word note";
  if (t.isKeyword(type))
    return context === "body"
      ? `${word} does not fit here`
      : `${word} does not fit in ${article(context)}`;
  return `${word} does not fit here`;
}

/** What is written where the trade has another word for it. */
export const saidInstead = (word: string): string | undefined => instead.get(word.toLowerCase());

const instead: ReadonlyMap<string, string> = new Map([
  ...["mtow", "mtom", "mauw"].map(it => [it, "in an envelope write takeoff and a mass"] as const),
  ...["mzfw", "mzfm"].map(it => [it, "in an envelope write zero_fuel and a mass"] as const),
  ...["mlw", "mlm"].map(it => [it, "in an envelope write landing and a mass"] as const),
  ...["capacity", "volume"].map(it => [it, "a tank holds so much: holds 70 L of fuel"] as const),
  ...["max", "maximum", "limit_weight"].map(
    it => [it, "a seat or a bay has a range: range 0 kg .. 110 kg"] as const,
  ),
  ...["sta", "station", "arm"].map(it => [it, "a station is written at FS 120"] as const),
  ...["mass", "weight"].map(
    it => [it, "say what a mass rests on: estimated, calculated, quoted or weighed"] as const,
  ),
  ...["quantity", "count", "x"].map(it => [it, "pieces are written qty 4"] as const),
  ["density", "a fluid's density stands behind its name: fluid mogas 6 lb/gal"],
  ["choose", "it stands in an airframe; in the design, choice … default says which option counts"],
]);
/** `mac 600 1200`: what it needs is there, and cannot be read. */
export const isBareMac = (before: Statement | undefined): boolean => {
  if (before === undefined) return false;
  const clause = before.kind === "clause" ? before.clause : undefined;
  const last = clause ?? ("clauses" in before ? before.clauses.at(-1) : undefined);
  return last?.kind === "mac" && last.at === undefined && last.length === undefined;
};

export const NO_CHORD =
  "the mean aerodynamic chord needs its leading edge: mac at FS 121 length 54";

function parensAround(tokens: readonly Token[]): number {
  let open = 0;
  for (const { tokenType } of tokens)
    if (tokenType === t.LParen) open++;
    else if (tokenType === t.RParen) open--;
  return open;
}

function article(context: Context): string {
  if (context === "fits") return "an airframe or a change";
  return `a ${context}`;
}

/** `21,4 lb`: no space on either side, a digit before and after. */
function isDecimalComma(tokens: readonly Token[], at: number): boolean {
  const [before, comma, after] = [tokens[at - 1], tokens[at], tokens[at + 1]];
  return (
    comma?.tokenType === t.Comma &&
    before?.tokenType === t.Num &&
    after?.tokenType === t.Num &&
    before.endOffset + 1 === comma.startOffset &&
    comma.endOffset + 1 === after.startOffset
  );
}

/**
 * The same tokens with `21,4` as one figure, which is not a number, where the reading is stuck at its comma:
 * the rest of the line is read as if it were written well. Undefined: it is not stuck at one.
 */
export function withoutComma(tokens: readonly Token[], at: number): readonly Token[] | undefined {
  const comma = [at, at - 1].find(i => isDecimalComma(tokens, i));
  if (comma === undefined) return undefined;
  let [first, last] = [comma - 1, comma + 1];
  while (isDecimalComma(tokens, first - 1)) first -= 2;
  while (isDecimalComma(tokens, last + 1)) last += 2;
  const figure = { ...tokens[first]!, endOffset: tokens[last]!.endOffset, image: "NaN" };
  return [...tokens.slice(0, first), figure, ...tokens.slice(last + 1)];
}

/** `1,200` is a thousand and more: a point instead of its comma would make it a thousand times less. */
function ungrouped(tokens: readonly Token[], comma: number): string | undefined {
  let first = comma;
  while (isDecimalComma(tokens, first - 2)) first -= 2;
  let figure = tokens[first - 1]!.image;
  if (!/^[1-9]\d{0,2}$/.test(figure)) return undefined;
  for (let i = first; isDecimalComma(tokens, i); i += 2) {
    const group = tokens[i + 1]!.image;
    if (!/^\d{3}(\.\d*)?$/.test(group)) return undefined;
    figure += group;
  }
  return `leave the comma out: ${figure}`;
}

/** `2nd_rib` and `main-spar` where a name is given. */
function misnamed(
  tokens: readonly Token[],
  at: number,
  before: Statement | undefined,
): string | undefined {
  if (before === undefined) return undefined;
  const named = "name" in before ? before.name : "path" in before ? before.path : undefined;
  const [previous, token, next] = [tokens[at - 1], tokens[at]!, tokens[at + 1]];
  if (next?.tokenType !== t.Ident || token.endOffset + 1 !== next.startOffset) return undefined;
  const rule = "a name is a letter, then letters, digits or _";
  if (token.tokenType === t.Num && named === undefined) return rule;
  if (token.image !== "-" || previous === undefined) return undefined;
  if (previous.endOffset + 1 !== token.startOffset || previous.image !== named?.text)
    return undefined;
  return `${rule}: ${previous.image}_${next.image}`;
}

/**
 * The word that a slip of the fingers most likely meant: at most two letters off, one in a short word;
 * of words as near, the first. Nobody errs in the first letter but by swapping it with the second:
 * wing is no slip of swing.
 */
export function closest(word: string, among: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = word.length < 5 ? 2 : 3;
  for (const candidate of among) {
    if (Math.abs(candidate.length - word.length) >= least || !beginsAlike(word, candidate))
      continue;
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase(), least);
    if (distance < least) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

function beginsAlike(word: string, candidate: string): boolean {
  const [a, b] = [word.toLowerCase(), candidate.toLowerCase()];
  if (a[0] === b[0]) return a.length > 2 || b.length <= 2;
  return a.length > 1 && a[0] === b[1] && a[1] === b[0];
}

/** Letters added, dropped, changed, or two neighbours swapped; stops counting at `enough`. */
function editDistance(a: string, b: string, enough: number): number {
  let previous: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(change, row[j]! + 1, next[j - 1]! + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, previous[j - 2]! + 1);
      next.push(least);
    }
    if (Math.min(...next) >= enough) return enough;
    previous = row;
    row = next;
  }
  return row[b.length]!;
}
