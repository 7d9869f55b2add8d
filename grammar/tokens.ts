import { createToken, Lexer, type TokenType } from "chevrotain";
import type { Context } from "./tree";
import * as words from "./words";

/** Chevrotain's token types. The scanner makes the tokens by hand, so none has a pattern. */
function token(name: string, ...categories: TokenType[]): TokenType {
  return createToken({ name, pattern: Lexer.NA, categories });
}

export const Word = token("Word");
/** A word that is no keyword and no unit: the only kind a `let` may be called. */
export const Ident = token("Ident", Word);
export const Unit = token("Unit", Word);
export const Keyword = token("Keyword", Word);
/** A word that its opening parenthesis touches. */
export const Call = token("Call");

export const Num = token("Number");
export const DateText = token("Date");
export const Str = token("String");

export const Open = token("{");
export const Close = token("}");
export const LParen = token("(");
export const RParen = token(")");
export const Comma = token(",");
export const Semicolon = token(";");
export const Colon = token(":");
export const Dot = token(".");
export const Range = token("..");
export const PlusMinus = token("±");
export const Equals = token("=");
export const Percent = token("%");
export const PercentMac = token("%MAC");
export const Compare = token("comparison");
export const Sign = token("sign");
export const Times = token("times or over");
export const Power = token("^");

export const Basis = token("a basis", Keyword);
export const AxisWord = token("FS, BL or WL", Keyword);
export const InertiaWord = token("Ixx, Iyy …", Keyword);
export const KindWord = token("a kind", Keyword);
export const TowardWord = token("a direction", Keyword);
export const ShapeWord = token("a shape", Keyword);
export const WeightLimit = token("a weight limit", Keyword);
export const TextClause = token("a text clause", Keyword);
export const Declare = token("a declaration", Keyword);
export const Figure = token("a figure's declaration", Keyword);

const groups: readonly (readonly [TokenType, readonly string[]])[] = [
  [Basis, words.bases],
  [AxisWord, words.axes],
  [InertiaWord, words.inertias],
  [KindWord, words.kinds],
  [TowardWord, words.directions],
  [ShapeWord, words.shapes],
  [WeightLimit, words.weightLimits],
  [TextClause, words.textClauses],
  [Declare, words.declarations],
  [Figure, words.figures],
];

const byWord = new Map<string, TokenType>();
for (const [type, members] of groups) for (const word of members) byWord.set(word, type);
for (const unit of words.unitWords) byWord.set(unit, Unit);
// in quotes, for a rule of the parser may be called like its keyword
for (const word of words.keywords)
  if (!byWord.has(word)) byWord.set(word, token(`'${word}'`, Keyword));

/** What a word is where nothing says otherwise. */
export function typeOfWord(word: string): TokenType {
  return byWord.get(word) ?? Ident;
}

/** The token type of a keyword that stands alone in its group. */
export function keyword(word: string): TokenType {
  const type = byWord.get(word);
  if (type === undefined) throw new Error(`${word} is not a keyword`);
  return type;
}

export const isKeyword = (type: TokenType): boolean => type.CATEGORIES?.includes(Keyword) === true;

export const allTokens: readonly TokenType[] = [
  ...[Word, Ident, Unit, Keyword, Call, Num, DateText, Str, Open, Close, LParen, RParen, Comma],
  ...[Semicolon, Colon, Dot, Range, PlusMinus, Equals, Percent, PercentMac, Compare, Sign, Times],
  ...[Power, ...new Set(byWord.values())],
];

const inBody = new Set<TokenType>(
  [...words.statementWords, ...words.clauseWords].map(word => typeOfWord(word)),
);
const inFits = new Set<TokenType>(
  ["choose", "remove", "omit", "install", "add", "move", "note", "budget", "was"].map(keyword),
).add(Basis);
const inWeighing = new Set<TokenType>(["scale", "aboard", "missing", "note"].map(keyword));

/** Can a statement (or a clause on a line of its own) begin with this token? */
export function beginsStatement(type: TokenType, context: Context): boolean {
  switch (context) {
    case "body":
      return inBody.has(type);
    case "fits":
      return inFits.has(type);
    case "weighing":
      return inWeighing.has(type);
    case "configuration":
      return type === keyword("swing");
    case "loading":
      return type.CATEGORIES?.includes(Word) === true;
  }
}
