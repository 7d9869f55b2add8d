import type { Span } from "../../../grammar/tree";
import { showNumber } from "../../quantity/show";

/** One line of a derivation, and the place in a spec it comes from, if it comes from one. */
export interface WhyLine {
  readonly text: string;
  readonly at: Span | undefined;
}

/** A step: what it is called, how it goes, where it is written. */
export type Step = readonly [label: string, text: string, at?: Span | undefined];

/** A row of figures in the column's unit; what is not known is a "?". */
export interface Row {
  readonly name: string;
  readonly cells: readonly (number | "?" | "")[];
  readonly at: Span | undefined;
  /** Lines under it that say how it comes about. */
  readonly details?: readonly WhyLine[];
}

export const line = (text: string, at?: Span): WhyLine => ({ text, at });

/** A heading and its steps, the labels in one column; nothing where there are none. */
export function section(title: string, steps: readonly Step[]): readonly WhyLine[] {
  if (steps.length === 0) return [];
  const width = longest(steps.map(([label]) => label));
  return [
    line(""),
    line(title),
    ...steps.map(([label, text, at]) => line(`  ${label.padEnd(width)}  ${text}`.trimEnd(), at)),
  ];
}

/** A long text as steps of one label, as wide as a page. */
export function folded(label: string, text: string, at?: Span): readonly Step[] {
  const rows: string[] = [];
  for (const word of text.split(" ")) {
    const last = rows.at(-1);
    if (last === undefined || last.length + 1 + word.length > WIDE) rows.push(word);
    else rows[rows.length - 1] = `${last} ${word}`;
  }
  return rows.map((row, i): Step => (i === 0 ? [label, row, at] : ["", row]));
}
const WIDE = 84;

/** Texts in columns, the headings first; set in by two. */
export function textTable(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, i) => longest(rows.map(row => row[i] ?? "")));
  return rows.map(row =>
    `  ${row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join("  ")}`.trimEnd(),
  );
}

/** What a column holds, and in which unit. */
export type Heading = readonly [what: string, unit: string];

/** Figures under their headings, point under point; a rule stands between two groups of rows. */
export function table(
  title: string,
  headings: readonly Heading[],
  groups: readonly (readonly Row[])[],
): readonly WhyLine[] {
  const filled = groups.filter(group => group.length > 0);
  const rows = filled.flat();
  const columns = headings.map((heading, i) =>
    column(
      heading,
      rows.map(row => row.cells[i] ?? ""),
    ),
  );
  const names = [title, "", ...rows.map(row => `  ${row.name}`)];
  const width = longest(names);
  const [first, units, ...lines] = names.map((name, i) =>
    [name.padEnd(width), ...columns.map(cells => cells[i]!)].join("   ").trimEnd(),
  );
  const across = columns.reduce((sum, [heading]) => sum + 3 + heading!.length, width - 2);
  const rule = line(`  ${"─".repeat(across)}`);
  let next = 0;
  const drawn = filled.map(group =>
    group.flatMap(({ at, details = [] }) => [{ text: lines[next++]!, at }, ...details]),
  );
  return [
    line(""),
    line(first!),
    line(units!),
    ...drawn.flatMap((group, i) => (i === 0 ? group : [rule, ...group])),
  ];
}

/** At most this many decimals are added to show figures alike that are to be added up. */
const ALIKE = 2;

function column(heading: Heading, cells: Row["cells"]): readonly string[] {
  const usual = cells.map(it => (typeof it === "number" ? decimalsOf(showNumber(it)) : 0));
  const alike = Math.min(ALIKE, most(usual));
  const figures = cells.map((it, i) =>
    typeof it === "number" ? showNumber(it, Math.max(alike, usual[i]!)) : it,
  );
  const behind = most(figures.map(behindOf));
  const pointed = figures.map(it => it + " ".repeat(behind - behindOf(it)));
  const width = longest([...heading, ...pointed]);
  return [...heading, ...pointed].map(it => it.padStart(width));
}

/** Not Math.max: an assembly may have more members than a call has room for. */
const most = (numbers: readonly number[]) => numbers.reduce((a, b) => Math.max(a, b), 0);
export const longest = (texts: readonly string[]) => most(texts.map(it => it.length));

const decimalsOf = (figure: string) => figure.split(".")[1]?.length ?? 0;
/** With the point. */
const behindOf = (figure: string) => (figure.includes(".") ? decimalsOf(figure) + 1 : 0);
