import { missingParts } from "./missing-parts";
import type { RowGroup } from "./rows";
import type { Token } from "./scan";
import { statementParser } from "./statements";
import * as t from "./tokens";
import type { Clause, Context, Fault, Item, Line, Piece, Span, Statement } from "./tree";
import { closest, isBareMac, unexpected, withoutComma } from "./unexpected";
import { statementWords } from "./words";

/** The kinds of block around a line, innermost first: `outer(0)` is the one it stands in. */
export type Around = (depth: number) => Context;

/**
 * Reads one logical line. Never fails: what cannot be read is a fault, and the rest of the line counts.
 * @param around what the line stands in; a line that closes blocks asks for those further out too
 */
export function readLine(file: string, group: RowGroup, rank: number, around: Around): Line {
  const pieces: Piece[] = [];
  const faults: Fault[] = [];
  const contexts: Context[] = [around(0)];
  const line: Line = { file, text: group.text, rows: group.rows, rank, contexts, pieces, faults };
  for (const { from, to, message } of group.scanned.faults)
    faults.push({ at: { line, from, to }, message });

  const opened: Context[] = [];
  let context = contexts[0]!;
  let head: Statement | undefined;
  const { tokens } = group.scanned;
  let start = 0;
  for (let i = 0; i <= tokens.length; i++) {
    const type = tokens[i]?.tokenType;
    if (type !== undefined && type !== t.Open && type !== t.Close && type !== t.Semicolon) continue;
    if (i > start) {
      const statements = readSegment(line, context, tokens.slice(start, i), faults);
      for (const statement of statements)
        pieces.push({
          kind: "statement",
          item: { head: statement, items: noItems, open: undefined, close: undefined },
        });
      head = statements.at(-1);
    }
    start = i + 1;
    if (type === t.Open) {
      const at = spanOf(line, tokens[i]!);
      pieces.push({ kind: "open", at });
      // of a head that could not be read this was said
      if (isUnread(head)) head = undefined;
      else if (!takesBlock(head)) faults.push({ at, message: noBlock(head) });
      opened.push(context);
      context = contextIn(head, context);
      head = undefined;
    } else if (type === t.Close) {
      pieces.push({ kind: "close", at: spanOf(line, tokens[i]!) });
      head = undefined;
      const inner = opened.pop();
      if (inner === undefined) {
        context = around(contexts.length);
        contexts.push(context);
      } else context = inner;
    } else head = undefined;
  }
  return line;
}

/** What the lines inside a block are read as. */
export function contextIn(head: Statement | undefined, around: Context): Context {
  switch (head?.kind) {
    case "loading":
    case "weighing":
    case "configuration":
      return head.kind;
    case "airframe":
    case "change":
      return "fits";
    case undefined:
    case "nameless":
      return around;
    default:
      return "body";
  }
}

export function takesBlock(head: Statement | undefined): boolean {
  return head !== undefined && ("clauses" in head || blockHeads.has(head.kind));
}

const blockHeads = new Set<Statement["kind"]>([
  ...([
    "choice",
    "envelope",
    "configuration",
    "loading",
    "airframe",
    "change",
    "weighing",
  ] as const),
]);

function noBlock(head: Statement | undefined): string {
  return head === undefined || head.kind === "clause"
    ? "a block begins here, and nothing says of what"
    : `${head.kind} takes no block`;
}

/** The statements between two braces or semicolons, with a fault for what is none. */
function readSegment(
  line: Line,
  context: Context,
  written: readonly Token[],
  faults: Fault[],
): readonly Statement[] {
  const parser = statementParser();
  const runs: (readonly Statement[])[] = [];
  let tokens = written;
  let from = 0;
  for (;;) {
    const stuck = parser.read(context, line, tokens, from);
    // a line that ends too early is stuck at its end
    const index = stuck === undefined ? -1 : tokens.indexOf(stuck, from);
    const at = index < 0 ? tokens.length - 1 : index;
    const whole = stuck && withoutComma(tokens, at);
    const before = parser.found.at(-1);
    if (whole === undefined) {
      faults.push(...parser.stumbles);
      // left = 80 kg: the amount is there, behind what cannot be read
      for (const it of parser.found)
        if (!(it === before && stuck && (isBareLoad(it) || isBareMac(it))))
          faults.push(...missingParts(it));
      runs.push(parser.found);
    }
    if (stuck === undefined) return joined(runs);

    const message = unexpected(tokens, from, at, context, before);
    faults.push({ at: spanOf(line, tokens[at]!), message });
    if (whole !== undefined) {
      tokens = whole;
      continue;
    }
    const aside = from === at && isDeclarationMeant(tokens, at, context);
    from = resumeAt(tokens, at + 1, context, aside);
    const end = tokens.at(from < 0 ? -1 : from - 1)!;
    const span = { line, from: tokens[at]!.startOffset, to: end.endOffset + 1 };
    runs.push([{ kind: "clause", ...span, clause: { kind: "unread", ...span } }]);
    if (from < 0) return joined(runs);
  }
}

const isBareLoad = (it: Statement) =>
  it.kind === "load" && (it.amount === undefined || it.amount.from >= it.amount.to);

export const isUnread = (head: Statement | undefined): boolean =>
  head?.kind === "clause" && head.clause.kind === "unread";

/**
 * Where a statement or a clause can begin again after a stumble; -1: nowhere on this line.
 * @param aside only statements: a clause would belong to the one that could not be read
 */
function resumeAt(
  tokens: readonly Token[],
  from: number,
  context: Context,
  aside: boolean,
): number {
  if (context === "loading") return -1;
  for (let i = from; i < tokens.length; i++) {
    const { tokenType, image } = tokens[i]!;
    if (t.beginsStatement(tokenType, context) && !(aside && !statementWords.includes(image)))
      return i;
  }
  return -1;
}

/** `prat shell calculated 48 kg at FS 1700`: its clauses are not those of what it stands in. */
function isDeclarationMeant(tokens: readonly Token[], at: number, context: Context): boolean {
  const [word, next] = [tokens[at]!, tokens[at + 1]];
  if (context !== "body" || word.tokenType !== t.Ident) return false;
  return next?.tokenType === t.Ident || closest(word.image, statementWords) !== undefined;
}

/** The statements of all runs between stumbles. Clauses behind one still belong to the declaration before it. */
function joined(runs: readonly (readonly Statement[])[]): readonly Statement[] {
  const all: Statement[] = [];
  let more: Clause[] = [];
  const settle = () => {
    const last = all.at(-1);
    if (last !== undefined && "clauses" in last && more.length > 0)
      all[all.length - 1] = { ...last, to: more.at(-1)!.to, clauses: [...last.clauses, ...more] };
    more = [];
  };
  for (const run of runs) {
    const last = all.at(-1);
    const inside = last !== undefined && "clauses" in last;
    for (const statement of run)
      if (inside && statement.kind === "clause" && all.at(-1) === last) more.push(statement.clause);
      else if (isUnread(statement) && last !== undefined && isOwn(last))
        all[all.length - 1] = brokenOff(last);
      else {
        settle();
        all.push(statement);
      }
  }
  settle();
  return all;
}

/** Does what follows it unread belong to it alone? */
const isOwn = ({ kind }: Statement) =>
  blockHeads.has(kind) || ["let", "require", "waive", "include"].includes(kind);

/** A statement that the reading did not come to the end of: what it says may be less than what is written. */
function brokenOff(statement: Statement): Statement {
  const { line, to } = statement;
  const missing = { kind: "missing", line, from: to, to } as const;
  if (statement.kind === "let") return { ...statement, value: missing, spread: undefined };
  if (statement.kind === "require")
    return { ...statement, sides: [...statement.sides.slice(0, -1), missing] };
  return blockHeads.has(statement.kind) ? ({ ...statement, unread: true } as Statement) : statement;
}

function spanOf(line: Line, token: Token): Span {
  return { line, from: token.startOffset, to: token.endOffset + 1 };
}

const noItems: readonly Item[] = [];
