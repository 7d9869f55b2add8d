import type { TokenType } from "chevrotain";
import { type Scanned, scan, type Token } from "./scan";
import * as t from "./tokens";

/** Longer rows are no build spec; reading them token by token would only hang the editor. */
const LONGEST_ROW = 100_000;

/** One or more rows of a file that make one logical line. */
export interface RowGroup {
  readonly text: string;
  readonly rows: number;
  readonly scanned: Scanned;
}

/** A row that was looked at already. */
interface Row {
  readonly row: number;
  readonly scanned: Scanned;
}

/**
 * Groups rows into logical lines: see "Lines, words, quantities" in the language's page.
 * One by one, so that the tokens of a long file need not all live at the same time.
 */
export function* groupRows(rows: readonly string[]): Generator<RowGroup, undefined> {
  let row = 0;
  let ahead: Row | undefined;
  while (row < rows.length) {
    const first = ahead?.row === row ? ahead.scanned : scanRow(rows[row]!);
    let { tokens } = first;
    let joined: Token[] | undefined;
    let { length } = rows[row]!;
    let end = row + 1;
    let parens = openParens(tokens, 0);
    // what has no token is a blank or a comment: it is a line of its own, but a statement that goes
    // on may go on beyond it
    while (tokens.length > 0) {
      ahead = nextTokens(rows, end);
      if (ahead === undefined || !joins(tokens, parens, ahead.scanned.tokens)) break;
      for (let i = end; i <= ahead.row; i++) length += rows[i]!.length + 1;
      if (length > LONGEST_ROW) break;
      parens = openParens(ahead.scanned.tokens, parens);
      joined ??= [...tokens];
      for (const token of ahead.scanned.tokens) joined.push(token);
      tokens = joined;
      end = ahead.row + 1;
    }
    const text = joined === undefined ? rows[row]! : rows.slice(row, end).join("\n");
    yield { text, rows: end - row, scanned: joined === undefined ? first : scan(text) };
    row = end;
  }
}

function scanRow(text: string): Scanned {
  if (text.length <= LONGEST_ROW) return scan(text);
  const length = text.length.toLocaleString("en-US");
  const message = `this line has ${length} characters; Poise reads lines of up to 100,000`;
  return { tokens: [], faults: [{ from: 0, to: text.length, message }] };
}

/** The tokens of the next row that has any, past comments but past nothing else. */
function nextTokens(rows: readonly string[], from: number): Row | undefined {
  for (let row = from; row < rows.length; row++) {
    const text = rows[row]!;
    if (text.length > LONGEST_ROW) return undefined;
    const scanned = scan(text);
    if (scanned.tokens.length > 0) return { row, scanned };
    if (!text.trimStart().startsWith("//")) return undefined;
  }
  return undefined;
}

function openParens(tokens: readonly Token[], before: number): number {
  let open = before;
  for (const { tokenType } of tokens)
    if (tokenType === t.LParen) open++;
    else if (tokenType === t.RParen) open = Math.max(0, open - 1);
  return open;
}

/**
 * Does a line go on in the next row? What follows an operator or a comma only when it can: a
 * half-typed line must not swallow the statement below it.
 */
function joins(line: readonly Token[], parens: number, next: readonly Token[]): boolean {
  const last = line[line.length - 1]!.tokenType;
  const first = next[0]!;
  if (first.tokenType === t.Close) return false;
  // a sign alone on its row is one that is only being typed
  if (leading.has(first.tokenType)) return next.length > 1 || !operators.has(first.tokenType);
  if (last === t.Comma)
    return t.isKeyword(first.tokenType) ? listGoesOn(line, first.tokenType) : !startsAfresh(next);
  if (operators.has(last)) return !t.isKeyword(first.tokenType);
  return parens > 0 && !startsAfresh(next);
}

const operators = new Set<TokenType>([t.Sign, t.Times, t.Power, t.Equals, t.Compare]);
const leading = new Set<TokenType>([
  ...[t.Open, t.RParen, t.Comma, t.Range, t.PlusMinus, t.Colon],
  ...[t.Sign, t.Times, t.Power, t.Equals, t.Compare],
]);

/** A comma before a keyword: only a list of just that sort goes on with it. */
function listGoesOn(line: readonly Token[], type: TokenType): boolean {
  const says = (...words: string[]) => line.some(token => words.includes(token.image));
  if (type === t.AxisWord) return true;
  if (type === t.Basis) return says("growth", "spread");
  return type === t.InertiaWord && says("inertia");
}

/** A row inside an open parenthesis that can only be a new statement. */
function startsAfresh(row: readonly Token[]): boolean {
  const [first, second] = [row[0]!.tokenType, row[1]?.tokenType];
  const word = first === t.Ident || t.isKeyword(first);
  if (!word || first === t.AxisWord) return false;
  if (second === undefined) return t.isKeyword(first);
  if (t.isKeyword(first))
    return ![t.Dot, t.RParen, t.Comma].includes(second) && !operators.has(second);
  return second === t.Num || t.isKeyword(second);
}
