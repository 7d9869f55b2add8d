import type { Line } from "./tree";

/**
 * The lines of a file, one or more. They stand in chunks that the next picture shares: an edit copies
 * the chunk it touches and the short list of chunks. One flat list of 100,000 lines, copied at each
 * key, keeps the garbage collector busy for longer than all the rest.
 */
export interface Lines {
  readonly chunks: readonly Chunk[];
  readonly length: number;
}

interface Chunk {
  readonly lines: readonly Line[];
  /** In which row each begins, from the first of the chunk; behind the last, how many rows there are. */
  readonly starts: readonly number[];
  /** Where in the file the chunk begins. */
  readonly index: number;
  readonly row: number;
}

export function linesOf(all: readonly Line[]): Lines {
  return placed(cut(all));
}

export function listOf({ chunks }: Lines): readonly Line[] {
  return chunks.flatMap(chunk => chunk.lines);
}

export function lineAt(lines: Lines, index: number): Line | undefined {
  if (index < 0 || index >= lines.length) return undefined;
  const chunk = lines.chunks[chunkWith(lines, it => it.index <= index)]!;
  return chunk.lines[index - chunk.index];
}

export function slice(lines: Lines, from: number, to: number): readonly Line[] {
  const found: Line[] = [];
  for (let i = from; i < to; i++) found.push(lineAt(lines, i)!);
  return found;
}

/** With some lines in the place of others. */
export function spliced(lines: Lines, at: number, gone: number, fresh: readonly Line[]): Lines {
  const { chunks } = lines;
  const first = chunkWith(lines, it => it.index <= at);
  let last = chunkWith(lines, it => it.index <= at + gone);
  const before = chunks[first]!;
  const after = chunks[last]!;
  const between = [
    ...before.lines.slice(0, at - before.index),
    ...fresh,
    ...after.lines.slice(at + gone - after.index),
  ];
  // many lines deleted one by one leave no trail of small chunks
  while (between.length < LEAST && last + 1 < chunks.length)
    for (const line of chunks[++last]!.lines) between.push(line);
  return placed([...chunks.slice(0, first), ...cut(between), ...chunks.slice(last + 1)]);
}

/** Which line a row belongs to: the last one for a row behind the end. */
export function indexAtRow(lines: Lines, row: number): number {
  const chunk = lines.chunks[chunkWith(lines, it => it.row <= row)]!;
  return chunk.index + lastOf(chunk.lines.length, i => chunk.starts[i]! <= row - chunk.row);
}

export function rowAt(lines: Lines, index: number): number {
  const chunk = lines.chunks[chunkWith(lines, it => it.index <= index)]!;
  return chunk.row + chunk.starts[index - chunk.index]!;
}

/** Where a line of these stands. */
export function indexOf(lines: Lines, line: Line): number {
  const chunk = lines.chunks[chunkWith(lines, it => it.lines[0]!.rank <= line.rank)]!;
  return chunk.index + lastOf(chunk.lines.length, i => chunk.lines[i]!.rank <= line.rank);
}

const LEAST = 64;
const USUAL = 256;
const MOST = 512;

type Unplaced = Pick<Chunk, "lines" | "starts">;

function cut(lines: readonly Line[]): Unplaced[] {
  const size = lines.length <= MOST ? MOST : USUAL;
  const chunks: Unplaced[] = [];
  for (let from = 0; from < lines.length; from += size) {
    const some = lines.slice(from, from + size);
    const starts = [0];
    let row = 0;
    for (const line of some) {
      row += line.rows;
      starts.push(row);
    }
    chunks.push({ lines: some, starts });
  }
  return chunks;
}

function placed(chunks: readonly (Unplaced | Chunk)[]): Lines {
  let index = 0;
  let row = 0;
  const all = chunks.map((chunk): Chunk => {
    const { lines, starts } = chunk;
    const same = "index" in chunk && chunk.index === index && chunk.row === row;
    const here = same ? chunk : { lines, starts, index, row };
    index += lines.length;
    row += starts[lines.length]!;
    return here;
  });
  return { chunks: all, length: index };
}

function chunkWith({ chunks }: Lines, begins: (chunk: Chunk) => boolean): number {
  return lastOf(chunks.length, i => begins(chunks[i]!));
}

/** The last place of which something holds that holds up to some place and no further; at least 0. */
function lastOf(length: number, holds: (at: number) => boolean): number {
  let low = 0;
  let high = length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (holds(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}
