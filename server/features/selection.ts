import { type Position, placeAt, positionsOf, type Source } from "../../grammar/source";
import type { Item, Span } from "../../grammar/tree";
import { type Project, sourceOf } from "../project";
import { marksOf } from "./marks";
import { nodesAt } from "./place";

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/**
 * What to select around a position, step by step: the word, the expressions and the clause it stands
 * in, the statement, what is in the block, the block with its head, and so on outwards.
 */
export function selection(project: Project, path: string, position: Position): readonly Range[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  const nodes = nodesAt(project, path, position)?.nodes ?? [];
  const within = [...nodes].reverse().map(node => positionsOf(source, node));
  const ranges = [...wordAt(source, position), ...within, ...blocksAt(source, position)];
  const around = ranges.filter(it => !isBefore(position, it.start) && !isBefore(it.end, position));
  const steps: Range[] = [];
  for (const range of around) {
    const last = steps.at(-1);
    if (last === undefined || isWider(range, last)) steps.push(range);
  }
  return steps.length > 0 ? steps : [{ start: position, end: position }];
}

/** The token there, of a text in quotes first what is between them; or the comment. */
function wordAt(source: Source, position: Position): readonly Range[] {
  const { line, offset } = placeAt(source, position);
  const touching = marksOf(line).filter(
    ({ from, text }) => from <= offset && offset <= from + text.length,
  );
  // between two words that touch, the one that is a word
  const mark = touching.find(({ text }) => /^[\p{L}\p{N}"/]/u.test(text)) ?? touching[0];
  if (mark === undefined) return [];
  const { from, text } = mark;
  const whole = { line, from, to: from + text.length };
  const quoted = text.length > 2 && text.startsWith('"') && text.endsWith('"');
  const inner = { line, from: from + 1, to: whole.to - 1 };
  return (quoted ? [inner, whole] : [whole]).map((it: Span) => positionsOf(source, it));
}

/** From the innermost block around a position outwards: what is between its braces, then all of it. */
function blocksAt(source: Source, position: Position): readonly Range[] {
  const found: Range[] = [];
  let items: readonly Item[] = source.items;
  for (;;) {
    const item = items.find(it => {
      const { start, end } = wholeOf(source, it);
      return !isBefore(position, start) && !isBefore(end, position);
    });
    if (item === undefined) return found.reverse();
    found.push(wholeOf(source, item));
    const [first, last] = [item.items[0], item.items.at(-1)];
    if (first && last)
      found.push({ start: wholeOf(source, first).start, end: wholeOf(source, last).end });
    items = item.items;
  }
}

function wholeOf(source: Source, item: Item): Range {
  const { start } = positionsOf(source, item.head);
  const last = item.items.at(-1);
  const { end } = item.close
    ? positionsOf(source, item.close)
    : last
      ? wholeOf(source, last)
      : positionsOf(source, item.head);
  return { start, end };
}

const isBefore = (a: Position, b: Position) =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

function isWider(range: Range, than: Range): boolean {
  const around = !isBefore(than.start, range.start) && !isBefore(range.end, than.end);
  return around && (isBefore(range.start, than.start) || isBefore(than.end, range.end));
}
