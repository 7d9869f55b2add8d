import { positionsOf, read } from "../../grammar/source";
import { faultsOf } from "./specs";

/** A line under the text it speaks of: `    ^^^^ this part has no name yet`. */
const DRAWN = /^ *\^+ .*\n?/gm;

/** The text without what is drawn in it. */
export const erase = (drawn: string): string => drawn.replace(DRAWN, "").trimEnd();

/** A text with its faults drawn under their rows; one that spans rows, to the end of its first. */
export function draw(text: string): string {
  const source = read("x.poise", text);
  const rows = text.split("\n").map(row => [row]);
  for (const { at, message } of faultsOf(source)) {
    const { start, end } = positionsOf(source, at);
    const row = rows[start.line]!;
    const to = end.line === start.line ? end.character : row[0]!.length;
    const carets = "^".repeat(Math.max(1, to - start.character));
    row.push(`${" ".repeat(start.character)}${carets} ${message}`);
  }
  return rows.flat().join("\n");
}
