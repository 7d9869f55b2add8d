import { scan, type Token } from "../../grammar/scan";
import { type Position, placeAt } from "../../grammar/source";
import * as t from "../../grammar/tokens";
import { statementWords } from "../../grammar/words";
import { type Project, sourceOf } from "../project";
import { keywordHelp } from "./keyword-help";
import { clauseSignatures, functionSignatures } from "./signature-table";
import { blocksAt } from "./standing";

/** What may stand where the cursor is: of a clause, a statement or a function. */
export interface Signatures {
  readonly all: readonly Signature[];
  /** The one that is meant, and its place under the cursor. */
  readonly active: number;
  readonly parameter: number;
}

export interface Signature {
  readonly label: string;
  readonly help: string | undefined;
  /** Where each place stands in the label. */
  readonly parameters: readonly Parameter[];
}

export interface Parameter {
  readonly from: number;
  readonly to: number;
  readonly help: string | undefined;
  /** The words before it that lead to it, or the words it may be. */
  readonly marks: readonly string[];
  /** It is itself an axis; it is one of its marks. */
  readonly isAxis: boolean;
  readonly isChoice: boolean;
}

/**
 * Reads the words before the cursor and not the tree: a line is half written where help is wanted.
 * @param first only where the cursor stands right behind the keyword or its shape, or in a function: nothing
 *   that pops up by itself. A fast hand has written the shape before the editor asks.
 */
export function signatures(
  project: Project,
  path: string,
  position: Position,
  first = false,
): Signatures | undefined {
  const source = sourceOf(project, path);
  if (source === undefined) return undefined;
  const { line, offset } = placeAt(source, position);
  const before = line.text.slice(0, offset);
  const { tokens } = scan(before);
  if (isComment(before, tokens)) return undefined;
  const call = callAround(tokens);
  if (call) {
    const signature = functions.get(call.name);
    if (signature === undefined) return undefined;
    const parameter = Math.min(call.commas, signature.parameters.length - 1);
    return { all: [signature], active: 0, parameter };
  }
  const clause = clauseAround(tokens, before);
  if (clause === undefined) return undefined;
  const all = clauses.get(clause.keyword)!;
  if (first && !(clause.words.every(namesShape) && popsUp(all))) return undefined;
  const inEnvelope = blocksAt(source, line).at(-1)?.kind === "envelope";
  const active = meant(all, clause, inEnvelope);
  return { all, active, parameter: parameterAt(all[active]!, clause) };
}

const namesShape = ({ tokenType }: Token) => tokenType === t.ShapeWord;

/** Where there is more to know than what comes next; a record is written too often for that. */
const popsUp = ([one, ...others]: readonly Signature[]) =>
  others.length > 0 || (one!.parameters.length > 1 && !one!.label.includes(" note "));

const readLabel = (label: string, help: string | undefined): Signature => {
  const parameters: Parameter[] = [];
  let shown = "";
  let words = "";
  for (const piece of label.split(/(\{[^}]*\})/)) {
    if (!piece.startsWith("{")) {
      shown += piece;
      words = piece;
      continue;
    }
    const text = piece.slice(1, -1);
    const before = words.match(/[\p{L}_]+|\.\.|<=|[^\s\p{L}_]/gu) ?? [];
    const marks = text.includes(" | ") ? text.split(" | ") : text.startsWith('"') ? ['"'] : before;
    const named = before.findLast(it => keywordHelp.has(it));
    parameters.push({
      from: shown.length,
      to: shown.length + text.length,
      help: named && named !== label.split(" ")[0] ? keywordHelp.get(named) : undefined,
      marks,
      isAxis: text.startsWith("FS, "),
      isChoice: text.includes(" | "),
    });
    shown += text;
  }
  return { label: shown, help, parameters };
};

const clauses: ReadonlyMap<string, readonly Signature[]> = new Map(
  [...new Set(clauseSignatures.map(it => it.split(" ")[0]!))].map(keyword => [
    keyword,
    clauseSignatures
      .filter(it => it.startsWith(`${keyword} `))
      .map(it => readLabel(it, keywordHelp.get(keyword))),
  ]),
);
const functions: ReadonlyMap<string, Signature> = new Map(
  Object.entries(functionSignatures).map(([name, [label, help]]) => [name, readLabel(label, help)]),
);

/** What a function takes and gives, in one line each. */
export const functionHelp = (name: string): Signature | undefined => functions.get(name);

function isComment(before: string, tokens: readonly Token[]): boolean {
  const end = tokens.at(-1)?.endOffset ?? -1;
  const rest = before.slice(end + 1);
  return rest.slice(rest.lastIndexOf("\n") + 1).includes("//");
}

/** The innermost function whose parenthesis is open, and how many commas behind it. */
function callAround(tokens: readonly Token[]) {
  const open: { readonly name: string; commas: number }[] = [];
  tokens.forEach(({ tokenType }, i) => {
    const last = open.at(-1);
    if (tokenType === t.LParen) {
      const before = tokens[i - 1];
      open.push({ name: before?.tokenType === t.Call ? before.image : "", commas: 0 });
    } else if (tokenType === t.RParen) open.pop();
    else if (tokenType === t.Comma && last) last.commas++;
  });
  return open.findLast(it => it.name !== "");
}

interface ClauseAround {
  readonly keyword: string;
  /** What stands between it and the cursor. */
  readonly words: readonly Token[];
  /** The last of them is finished: a blank is behind it. */
  readonly apart: boolean;
}

/** The last keyword that begins a clause and is no word of the one before. */
function clauseAround(tokens: readonly Token[], before: string): ClauseAround | undefined {
  let found: { keyword: string; words: Token[] } | undefined;
  tokens.forEach((token, i) => {
    const { tokenType, image } = token;
    const last = tokens[i - 1];
    if (tokenType === t.Open || tokenType === t.Close || tokenType === t.Semicolon) {
      found = undefined;
      return;
    }
    // a name may be any word, a path has its dots, a code its hyphens
    const isName =
      last !== undefined &&
      (last.tokenType === t.Dot ||
        names.has(last.image) ||
        (last.image === "-" && touch(tokens[i - 2], last) && touch(last, token)));
    const own = found && clauses.get(found.keyword)!.some(it => hasMark(it, image));
    if (!isName && !own && clauses.has(image) && tokenType !== t.Call)
      found = { keyword: image, words: [] };
    else if (found && !own && !isName && others.has(image)) found = undefined;
    else found?.words.push(token);
  });
  return found && { ...found, apart: /\s$/.test(before) };
}

const names = new Set<string>(statementWords.filter(it => it !== "require" && it !== "limit"));
/** Words that end the clause before them and have no places of their own. */
const others = new Set([
  "mirrored",
  "operating",
  "pn",
  "rev",
  "maker",
  "sn",
  "kind",
  "was",
  "note",
]);

const hasMark = ({ parameters }: Signature, image: string) =>
  parameters.some(({ marks }) => marks.includes(image));

/** Of several the one with a word of its own that is there; in an envelope the one that has a weight. */
function meant(all: readonly Signature[], { words }: ClauseAround, inEnvelope: boolean): number {
  const said = new Set(words.map(it => it.image));
  const own = all.findIndex(({ label }, i) => {
    const others = all.filter((_, at) => at !== i).flatMap(it => it.label.split(/[\s:]+/));
    return label.split(/[\s:]+/).some(it => said.has(it) && !others.includes(it));
  });
  if (own >= 0) return own;
  const rows = all.findIndex(it => it.label.includes(": "));
  return rows >= 0 && (inEnvelope || said.has(":")) ? rows : 0;
}

function parameterAt({ parameters }: Signature, { words, apart }: ClauseAround): number {
  let at = 0;
  let filled = 0;
  const rest = words.filter(it => it.tokenType !== t.ShapeWord);
  rest.forEach((token, i) => {
    const { image, tokenType } = token;
    const isAxis = tokenType === t.AxisWord;
    // about FS: here it is what is asked for
    if (isAxis && filled === 0 && parameters[at]!.isAxis) {
      filled++;
      return;
    }
    const mark = tokenType === t.Str ? '"' : tokenType === t.Compare ? "<=" : image;
    const led = (it: Parameter) => it.marks.includes(mark);
    const next = parameters.findIndex((it, n) => n > at && led(it));
    // a station may be written before another
    const to = next < 0 && isAxis ? parameters.findIndex(led) : next;
    if (to >= 0) {
      at = to;
      filled = 0;
      return;
    }
    if (filled > 0 && !touch(rest[i - 1], token) && follows(parameters, at)) {
      at++;
      filled = 0;
    }
    filled++;
  });
  if (!apart || filled === 0) return at;
  // a figure is whole with its unit, and one of the words may follow
  const isWhole = rest.at(-1)?.tokenType === t.Unit && parameters[at + 1]?.isChoice;
  return isWhole || follows(parameters, at) ? at + 1 : at;
}

const touch = (before: Token | undefined, token: Token) =>
  before !== undefined && before.endOffset + 1 === token.startOffset;

/** The next place stands right behind this one, with no word between. */
const follows = (parameters: readonly Parameter[], at: number) =>
  parameters[at + 1]?.marks.length === 0;
