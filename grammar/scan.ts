import type { IToken, TokenType } from "chevrotain";
import * as t from "./tokens";

/** A token as Chevrotain wants it, with nothing it does not need. */
export interface Token extends IToken {
  readonly endOffset: number;
}

export interface Scanned {
  readonly tokens: readonly Token[];
  readonly faults: readonly Fault[];
}

interface Fault {
  readonly from: number;
  readonly to: number;
  readonly message: string;
}

/**
 * The tokens of a logical line. Scans by hand: a Chevrotain lexer costs four times the parser, and
 * a word's meaning (a unit, a function, a plain name) hangs on what touches it.
 * Never fails: what is no token is a fault and is passed over.
 */
export function scan(text: string): Scanned {
  const tokens: Token[] = [];
  let faults: Fault[] | undefined;
  const length = text.length;
  let at = 0;

  const push = (type: TokenType, from: number, to: number, image = text.slice(from, to)) => {
    tokens.push({
      image,
      startOffset: from,
      endOffset: to - 1,
      tokenTypeIdx: type.tokenTypeIdx!,
      tokenType: type,
    });
    at = to;
  };
  const fault = (from: number, to: number, message: string) => {
    faults ??= [];
    faults.push({ from, to, message });
  };

  while (at < length) {
    const c = text.charCodeAt(at);
    if (c === SPACE || c === TAB || c === NEWLINE || c === NBSP) at++;
    else if (isLetter(c, text, at)) {
      const end = endOfWord(text, at);
      const image = text.slice(at, end);
      const type = t.typeOfWord(image);
      // `about (FS …` is often typed without its space; it is no function
      const call = text.charCodeAt(end) === PAREN && image !== "about" && image !== "of";
      push(call ? t.Call : type, at, end, image);
    } else if (isDigit(c) || (c === DOT && isDigit(text.charCodeAt(at + 1)))) {
      const end = endOfDate(text, at);
      if (end > at) push(t.DateText, at, end);
      else push(t.Num, at, endOfNumber(text, at));
    } else if (c === QUOTE) {
      const end = endOfString(text, at);
      const closed = end > at + 1 && text.charCodeAt(end - 1) === QUOTE;
      if (!closed) fault(at, end, "this text has no closing quote");
      push(t.Str, at, end, text.slice(at + 1, closed ? end - 1 : end));
    } else if (c === SLASH && text.charCodeAt(at + 1) === SLASH) {
      const end = text.indexOf("\n", at);
      at = end < 0 ? length : end;
    } else if (c === SLASH && text.charCodeAt(at + 1) === STAR) {
      const end = endOfRow(text, at);
      fault(at, end, COMMENT);
      at = end;
    } else {
      const two = text.slice(at, at + 2);
      const double = doubles.get(two);
      const single = double ? undefined : singles.get(c);
      if (double) push(double, at, at + 2);
      else if (c === PLUS && text.startsWith("+/-", at)) push(t.PlusMinus, at, at + 3);
      // 48 kg +- 2 kg is meant as people write it, never as a sum with something negative
      else if (c === PLUS && text.charCodeAt(at + 1) === MINUS) push(t.PlusMinus, at, at + 2);
      else if (c === PERCENT) {
        const end = endOfMac(text, at + 1);
        push(end > 0 ? t.PercentMac : t.Percent, at, end > 0 ? end : at + 1);
      } else if (single) push(single, at, at + 1, same.get(c));
      else {
        const from = at;
        const other = otherwiseWritten(text, at);
        if (other) {
          fault(from, other.end, other.message);
          at = other.end;
          continue;
        }
        // a run of strangers is one fault, and a pair of surrogates one character
        while (at < length && isStranger(text, at)) at++;
        fault(from, at, `${shown(text.slice(from, at))} means nothing here`);
      }
    }
  }
  return { tokens, faults: faults ?? none };
}

const none: Scanned["faults"] = [];
const SPACE = 32;
const TAB = 9;
const NEWLINE = 10;
const NBSP = 160;
const QUOTE = 34;
const PERCENT = 37;
const PAREN = 40;
const STAR = 42;
const PLUS = 43;
const MINUS = 45;
const DOT = 46;
const SLASH = 47;

const singles = new Map<number, TokenType>(
  (
    [
      ["{", t.Open],
      ["}", t.Close],
      ["(", t.LParen],
      [")", t.RParen],
      [",", t.Comma],
      [";", t.Semicolon],
      [":", t.Colon],
      [".", t.Dot],
      ["±", t.PlusMinus],
      ["=", t.Equals],
      ["<", t.Compare],
      [">", t.Compare],
      ["≤", t.Compare],
      ["≥", t.Compare],
      ["≠", t.Compare],
      ["+", t.Sign],
      ["-", t.Sign],
      ["−", t.Sign],
      ["*", t.Times],
      ["/", t.Times],
      ["×", t.Times],
      ["·", t.Times],
      ["^", t.Power],
    ] as const
  ).map(([sign, type]) => [sign.charCodeAt(0), type]),
);
/** Signs that are typed in another way than they are read. */
const same = new Map<number, string>([
  ["−".charCodeAt(0), "-"],
  ["×".charCodeAt(0), "*"],
  ["·".charCodeAt(0), "*"],
  ["≤".charCodeAt(0), "<="],
  ["≥".charCodeAt(0), ">="],
  ["≠".charCodeAt(0), "!="],
]);
const doubles = new Map<string, TokenType>([
  ["..", t.Range],
  ["<=", t.Compare],
  [">=", t.Compare],
  ["==", t.Compare],
  ["!=", t.Compare],
]);

const isDigit = (c: number) => c >= 48 && c <= 57;
const letter = /\p{L}/u;
const wordPart = /[\p{L}\p{N}\p{M}_]/u;

function isLetter(c: number, text: string, at: number): boolean {
  if (c < 128) return (c >= 97 && c <= 122) || (c >= 65 && c <= 90);
  return letter.test(String.fromCodePoint(text.codePointAt(at)!));
}

function endOfWord(text: string, from: number): number {
  let at = from + (text.codePointAt(from)! > 0xffff ? 2 : 1);
  for (;;) {
    const c = text.charCodeAt(at);
    if ((c >= 97 && c <= 122) || (c >= 65 && c <= 90) || isDigit(c) || c === 95) at++;
    else if (c < 128 || Number.isNaN(c)) return at;
    else {
      const point = text.codePointAt(at)!;
      if (!wordPart.test(String.fromCodePoint(point))) return at;
      at += point > 0xffff ? 2 : 1;
    }
  }
}

/** `12`, `0.17`, `.5`, `1e-3`; the dots of a range stay its own. */
function endOfNumber(text: string, from: number): number {
  let at = from;
  while (isDigit(text.charCodeAt(at))) at++;
  if (text.charCodeAt(at) === DOT && isDigit(text.charCodeAt(at + 1))) {
    at++;
    while (isDigit(text.charCodeAt(at))) at++;
  }
  const e = text.charCodeAt(at) | 32;
  if (e === 101) {
    const sign = text.charCodeAt(at + 1);
    const digits = sign === 43 || sign === 45 ? at + 2 : at + 1;
    if (isDigit(text.charCodeAt(digits))) {
      at = digits;
      while (isDigit(text.charCodeAt(at))) at++;
    }
  }
  return at;
}

function endOfDate(text: string, from: number): number {
  for (let i = 0; i < 10; i++) {
    const c = text.charCodeAt(from + i);
    if (i === 4 || i === 7 ? c !== 45 : !isDigit(c)) return from;
  }
  return isDigit(text.charCodeAt(from + 10)) ? from : from + 10;
}

function endOfString(text: string, from: number): number {
  for (let at = from + 1; at < text.length; at++) {
    const c = text.charCodeAt(at);
    if (c === QUOTE) return at + 1;
    if (c === NEWLINE) return at;
  }
  return text.length;
}

/** Where `MAC` after a percent sign ends, or 0. */
function endOfMac(text: string, from: number): number {
  const at = text.charCodeAt(from) === SPACE ? from + 1 : from;
  if (!text.startsWith("MAC", at)) return 0;
  return endOfWord(text, at) === at + 3 ? at + 3 : 0;
}

function isStranger(text: string, at: number): boolean {
  const c = text.charCodeAt(at);
  return (
    !singles.has(c) &&
    !doubles.has(text.slice(at, at + 2)) &&
    !isDigit(c) &&
    ![SPACE, TAB, NEWLINE, NBSP, QUOTE, PERCENT].includes(c) &&
    !isLetter(c, text, at)
  );
}

const COMMENT = "a comment begins with // and ends with its line";

/** Comments and texts as they are written elsewhere: all of it is passed over, or its words are faults too. */
function otherwiseWritten(
  text: string,
  at: number,
): { readonly end: number; readonly message: string } | undefined {
  const sign = text[at]!;
  const row = endOfRow(text, at);
  if (sign === "#") return { end: row, message: COMMENT };
  const closing = quotes.get(sign);
  if (closing === undefined) return undefined;
  const after = [...closing].map(it => text.indexOf(it, at + 1)).filter(it => it > at && it < row);
  if (after.length === 0) return undefined;
  return { end: Math.min(...after) + 1, message: 'a text stands in straight double quotes: "…"' };
}

const endOfRow = (text: string, at: number) => {
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end;
};

/** What closes a text that one of them opens. */
const quotes: ReadonlyMap<string, string> = new Map([
  ["“", "”"],
  ["”", "”"],
  ["„", "“”"],
  ["«", "»"],
  ["»", "«"],
  ["'", "'"],
  ["‘", "’"],
  ["`", "`"],
]);

function shown(strange: string): string {
  const characters = [...strange];
  const short = characters.length > 12 ? `${characters.slice(0, 12).join("")}…` : strange;
  // controls, halves of a surrogate pair, and what an editor shows for bytes it cannot decode
  return /[\p{Cc}\p{Cs}\ufffd]/u.test(short) ? "a character that cannot be shown" : short;
}
