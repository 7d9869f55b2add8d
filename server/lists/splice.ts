import { positionsOf, type Source } from "../../grammar/source";
import type { Span } from "../../grammar/tree";

/** A stretch of a text as it stands on the disk, and what comes in its place. */
export interface Splice {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/**
 * A text with pieces of it replaced, everything else byte for byte.
 * @param text as it stands on the disk, with its own ends of lines; they are those of what is new
 * @param source the same text as read
 */
export function spliced(
  text: string,
  source: Source,
  edits: readonly { readonly at: Span; readonly text: string }[],
): string {
  return applied(text, splicesOf(text, source, edits));
}

export function splicesOf(
  text: string,
  source: Source,
  edits: readonly { readonly at: Span; readonly text: string }[],
): readonly Splice[] {
  const offset = offsetsIn(text, source);
  const newline = newlineOf(text);
  return edits.map(({ at, text: fresh }) => ({
    from: offset(at, "start"),
    to: offset(at, "end"),
    text: fresh.replaceAll("\n", newline),
  }));
}

export const newlineOf = (text: string) => text.match(/\r\n|\n|\r/)?.[0] ?? "\n";

/** Where a span begins or ends in the text its source was read from. */
export function offsetsIn(
  text: string,
  source: Source,
): (at: Span, end: "start" | "end") => number {
  const starts = rowStarts(text);
  return (at, end) => {
    const { line, character } = positionsOf(source, at)[end];
    return starts[line]! + character;
  };
}

export function applied(text: string, edits: readonly Splice[]): string {
  let result = "";
  let at = 0;
  // sorting keeps the order of what is put at one place
  for (const edit of [...edits].sort((a, b) => a.from - b.from)) {
    result += text.slice(at, edit.from) + edit.text;
    at = edit.to;
  }
  return result + text.slice(at);
}

/** Where each row begins in a text whose rows end in any way; a mark of byte order is no part of a row. */
function rowStarts(text: string): readonly number[] {
  const starts = [text.startsWith("\ufeff") ? 1 : 0];
  for (const { index, 0: end } of text.matchAll(/\r\n|\n|\r/g)) starts.push(index + end.length);
  return starts;
}

export function rowEnd(text: string, from: number): number {
  const end = /[\r\n]/g;
  end.lastIndex = from;
  return end.exec(text)?.index ?? text.length;
}

export function rowStart(text: string, at: number): number {
  if (at === 0) return 0;
  const row = text.lastIndexOf("\n", at - 1) + 1;
  return row + text.slice(row, at).lastIndexOf("\r") + 1;
}
