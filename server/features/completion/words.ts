import * as t from "../../../grammar/tokens";
import type { Clause, Item, Span } from "../../../grammar/tree";
import { keywords, statementWords } from "../../../grammar/words";
import { clausesOf } from "../../model/clauses";
import { standsAlready } from "../../model/once";
import { around } from "../place";
import { clausesIn, statementsIn } from "./holds";
import type { Offer } from "./offer";
import { blockOf, PROBE, previousToken, type Reading, readingWith, type Typed } from "./typed";

/**
 * The words of the language that fit. The grammar itself is asked: each is put where the cursor stands, and
 * those it takes as words (not as somebody's name) are offered, but for what the model would not read there
 * and what stands there already.
 * @param items those of the file
 */
export function wordsAt(typed: Typed, items: readonly Item[]): readonly Offer[] {
  const now = readingWith(typed, PROBE);
  const fitting = now.begins ? beginning(typed) : going(typed);
  return fitting
    .filter(it => isRead(typed, items, it, now.begins))
    .map(({ word, rank }) => ({
      ...{ label: word, kind: "keyword", rank, doc: { word } },
      // the words that follow it are always the same
      ...(word === "for" && { text: "for every loading" }),
    }));
}

interface Candidate {
  readonly word: string;
  readonly reading: Reading;
  readonly rank: number;
}

function candidates(typed: Typed, words: readonly string[]): readonly Candidate[] {
  return [...new Set(words)].flatMap((word, rank) => {
    const reading = readingWith(typed, word);
    return isTaken(reading) ? [{ word, reading, rank }] : [];
  });
}

/** What a statement or a clause on a line of its own may begin with. */
function beginning(typed: Typed): readonly Candidate[] {
  const kind = blockOf(typed)?.head.kind;
  const own = kind === undefined ? [] : clausesIn(kind);
  // an aircraft says a good deal of itself before its members
  const words =
    kind === "aircraft" ? [...own, ...statementsIn(kind)] : [...statementsIn(kind), ...own];
  return candidates(typed, words).filter(it => it.reading.begins);
}

/** Words that go on, and begin nothing. */
const inside = keywords.filter(it => !statementWords.includes(it));

/** Within a statement: what it asks for, where that is known, and all else it could go on with. */
function going(typed: Typed): readonly Candidate[] {
  const before = readingWith(typed, "");
  const { wants, statement } = before;
  const order = statement === undefined ? [] : clausesIn(statement.kind);
  const all = candidates(typed, [
    ...order,
    ...(isInstalled(before) ? statementsIn("installed") : []),
    ...inside,
  ]).filter(({ reading }) => reading.statement?.from !== reading.word.from || isInstalled(reading));
  const answers = ({ says }: Reading) => [...wants].some(it => !says.has(it));
  const figure = readingWith(typed, "1");
  const previous = previousToken(typed);
  const asked = answers(figure);
  if (asked || (isTaken(figure) && previous !== undefined && t.isKeyword(previous.tokenType)))
    return all.filter(({ word, reading }) => {
      if (clauseBegun(reading)) return false;
      const then = readingWith(typed, `${word} 1`);
      return (isTaken(then) && endsInFigure(then) && (!asked || answers(then))) || answers(reading);
    });
  // of what is installed, the kind of thing comes first
  if (isInstalled(before) && previous?.startOffset === statement?.from) return all;
  const direct = all.filter(it => answers(it.reading));
  const others = [PROBE, '"x"', "2026-01-01"].some(it => answers(readingWith(typed, it)));
  if (direct.length > 0 || others) return direct;
  const soon = (it: Candidate) => wants.size > 0 && clauseBegun(it.reading) === undefined;
  return all.map(it => (soon(it) ? { ...it, rank: it.rank - keywords.length } : it));
}

/** The grammar goes on over it, and not as a name that somebody gave. */
function isTaken({ nodes, word }: Reading): boolean {
  const isName = (it: Span) => "text" in it && !("kind" in it);
  return (
    nodes.length > 0 && !nodes.some(it => isName(it) && it.from <= word.from && it.to >= word.to)
  );
}

/** `install part`: the statement is the part. */
const isInstalled = ({ statement }: Reading) =>
  statement !== undefined && "clauses" in statement && statement.installed;

/** All was read, the number at its end as a figure. */
function endsInFigure({ statement, word }: Reading): boolean {
  const { length } = word.line.text;
  if (statement?.to !== length) return false;
  return around(statement, length - 1).some(it => "kind" in it && it.kind === "quantity");
}

/** Does the model read it there, and is it not there already? */
function isRead(
  typed: Typed,
  items: readonly Item[],
  { word, reading }: Candidate,
  begins: boolean,
): boolean {
  const clause = clauseBegun(reading);
  const block = blockOf(typed);
  const { statement } = reading;
  if (clause === undefined) {
    if (!begins && isInstalled(reading) && statement?.from === reading.word.from)
      return statementsIn("installed").includes(word);
    return begins || (!isSaid(reading) && isAmount(reading));
  }
  const declares = statement !== undefined && "clauses" in statement;
  const kind = declares ? statement.kind : block?.head.kind;
  if (kind === undefined || kind === "airframe" || kind === "change" || kind === "weighing")
    return true;
  if (!clausesIn(kind).includes(word)) return false;
  const item = declares ? itemAt(typed, items, reading) : block;
  const others = (item ? clausesOf(item) : []).filter(
    it => it.line !== typed.line || it.from !== typed.from,
  );
  if (kind === "envelope") return rows.has(word) || others.every(it => it.kind !== word);
  return !standsAlready(word, others);
}
const rows = new Set(["cg", "lateral", "note"]);

/** Of a load: what is usable is some amount, and what is burnt is not all. */
function isAmount({ statement }: Reading): boolean {
  const amount = statement && "amount" in statement ? statement.amount : undefined;
  if (amount === undefined || !("full" in amount)) return true;
  if (amount.usable) return amount.value !== undefined;
  return !amount.full || statement?.kind === "load" || statement?.kind === "aboard";
}

/** The clause that begins with the word. */
function clauseBegun({ statement, word }: Reading): Clause | undefined {
  if (statement === undefined) return undefined;
  const all =
    "clauses" in statement
      ? statement.clauses
      : statement.kind === "clause"
        ? [statement.clause]
        : [];
  return all.find(it => it.from === word.from);
}

/** Of a clause each word stands once; what follows `..`, `(` or `:` is another place or limit. */
function isSaid({ statement, nodes, word }: Reading): boolean {
  const clause = nodes.find((it, i) => i > 0 && "kind" in it) ?? statement;
  if (clause === undefined) return false;
  const { text } = word.line;
  const said = text
    .slice(clause.from, word.from)
    .split(/\.\.|[(:]/)
    .at(-1)!;
  const own = text.slice(word.from, word.to);
  return (
    own !== "note" &&
    new RegExp(`(?<![\\p{L}\\p{N}_."])${own}(?![\\p{L}\\p{N}_."])`, "u").test(said)
  );
}

/** The statement as it stands in the file, with its block. */
function itemAt(
  { blocks, line, from }: Typed,
  items: readonly Item[],
  { statement, word }: Reading,
) {
  const at = (statement?.from ?? 0) + from - word.from;
  return (blocks.at(-1)?.items ?? items).find(({ head }) => head.line === line && head.from === at);
}
