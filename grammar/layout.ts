import * as t from "./tokens";
import { typeOfWord } from "./tokens";
import type { Context, Line, Statement } from "./tree";

/** How a file is laid out, for where its braces cannot be trusted. */
export interface Layout {
  /** Most blocks stand further right than their heads. */
  readonly trusted: boolean;
  /** By how many columns, most often. */
  readonly step: number;
}

export function layoutOf(lines: readonly Line[]): Layout {
  const steps = new Map<number, number>();
  let blocks = 0;
  let deeper = 0;
  let head: number | undefined;
  for (const line of lines) {
    if (!says(line)) continue;
    const indent = indentOf(line);
    if (head !== undefined && !beginsWithClose(line)) {
      blocks++;
      if (indent > head) {
        deeper++;
        steps.set(indent - head, (steps.get(indent - head) ?? 0) + 1);
      }
    }
    head = endsWithOpen(line) ? indent : undefined;
  }
  const [step] = [...steps].sort((a, b) => b[1] - a[1])[0] ?? [2];
  return { trusted: deeper * 2 >= blocks, step };
}

/** Is there anything on the line but blanks and a comment? */
export function says(line: Line): boolean {
  const text = line.text.trimStart();
  return text !== "" && !text.startsWith("//");
}

export function indentOf(line: Line): number {
  return line.text.length - line.text.trimStart().length;
}

// Both go by the text alone: what else stands on a line reads differently in each kind of block.

export function beginsWithClose(line: Line): boolean {
  return line.text.trimStart().startsWith("}");
}

function endsWithOpen(line: Line): boolean {
  const brace = line.pieces.findLast(piece => piece.kind !== "statement");
  return brace?.kind === "open" && /^\s*(\/\/.*)?$/.test(line.text.slice(brace.at.to));
}

/** What a line without its block's head most likely stands in. */
export function guessContext(line: Line): Context {
  const [first = "", second = ""] = line.text.trim().split(/[\s(]+/, 2);
  const type = typeOfWord(first);
  if (["scale", "aboard", "missing"].includes(first)) return "weighing";
  if (["choose", "remove", "omit", "install", "add", "move"].includes(first)) return "fits";
  if (type === t.Basis && /^\p{L}.*\./u.test(second)) return "fits";
  if (first === "swing" && !/^[\d(+-]/.test(second)) return "configuration";
  return t.beginsStatement(type, "body") ? "body" : "loading";
}

/** What a missing brace is for. */
export function closing(head: Statement | undefined): string {
  const name =
    head === undefined
      ? undefined
      : "path" in head && head.path && "words" in head.path
        ? head.path.text
        : "name" in head
          ? head.name?.text
          : undefined;
  return name === undefined ? "a } is missing here" : `a } is missing here, to end ${name}`;
}
