import type { Basis } from "../../grammar/tree";
import type { Amount, Axis, ListItem } from "./items";
import { freeWord, quoted, wordOf } from "./words";

/** What every record that comes from a list says of itself. */
export interface Origin {
  readonly basis: Basis;
  /** ISO. */
  readonly on: string;
  /** The file's name. */
  readonly by: string;
}

/** Declarations, one a row. @param taken the names that stand at this level already */
export function declarationsOf(
  items: readonly ListItem[],
  origin: Origin,
  indent: string,
  taken: Set<string> = new Set(),
): readonly string[] {
  return items.flatMap(item => {
    const name = freeWord(wordOf(item.title) || wordOf(item.pn ?? "") || `item_${item.row}`, taken);
    const plain = item.title === name || item.title === item.pn;
    const title = plain ? "" : ` ${quoted(item.title)}`;
    const facts = [
      item.pn && `pn ${quoted(item.pn)}`,
      item.rev && `rev ${quoted(item.rev)}`,
      item.maker && `maker ${quoted(item.maker)}`,
    ].filter(it => it !== undefined);
    if (item.items.length > 0) {
      const head = [`assembly ${name}${title}`, ...facts].join(" ");
      const inside = declarationsOf(item.items, origin, `${indent}  `);
      return [`${indent}${head} {`, ...inside, `${indent}}`];
    }
    const clauses = [
      ...facts,
      ...(item.qty === 1 ? [] : [`qty ${item.qty}`]),
      ...(item.mass ? [recordOf(item.mass, { ...origin, basis: item.basis ?? origin.basis })] : []),
      ...placeOf(item),
    ];
    const row = [`${indent}part ${name}${title}`, ...clauses].join(" ");
    if (row.length <= WIDEST) return [row];
    return [
      `${indent}part ${name}${title} {`,
      ...clauses.map(it => `${indent}  ${it}`),
      `${indent}}`,
    ];
  });
}

/** As the formatter has it: what is wider goes into braces. */
const WIDEST = 100;

export function recordOf(mass: NonNullable<ListItem["mass"]>, { basis, on, by }: Origin): string {
  return `${basis} ${mass.total ? "total " : ""}${written(mass)} on ${on} by ${quoted(by)}`;
}

/** The place of a piece; an FS that the list leaves out is unknown, and said to be. */
export function placeOf({ at }: ListItem): readonly string[] {
  const said = (["BL", "WL"] as const).filter(it => at[it]);
  if (at.FS === undefined && said.length === 0) return [];
  const coords = [
    at.FS ? `FS ${written(at.FS)}` : "FS",
    ...said.map((axis: Axis) => `${axis} ${written(at[axis]!)}`),
  ];
  return [`at ${coords.join(", ")}`];
}

/** As the list has it, in its own unit, without an exponent. */
export function written({ value, unit }: Amount): string {
  return `${numeral(value)} ${unit.name}`;
}

export function numeral(value: number): string {
  const text = String(value);
  const [, sign, whole, rest = "", power] = text.match(/^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/) ?? [];
  if (power === undefined) return text;
  const digits = whole + rest;
  const places = Number(power);
  return places < 0
    ? `${sign}0.${"0".repeat(-places - 1)}${digits}`
    : `${sign}${digits.padEnd(places + 1, "0")}`;
}
