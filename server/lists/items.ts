import type { Basis } from "../../grammar/tree";
import { bases } from "../../grammar/words";
import type { Unit } from "../quantity/units";
import { type Cell, figureIn, letterOf, type Table, textOf } from "./cells";
import type { Meaning } from "./headings";
import type { Layout } from "./layout";
import { depthsOf } from "./levels";
import { isLength, isMass, unitCalled } from "./units";
import { plainTitle } from "./words";

export type Axis = "FS" | "BL" | "WL";

/** A figure of the list, in the unit it stands in there. */
export interface Amount {
  readonly value: number;
  readonly unit: Unit;
}

/** A row of the list: a part, or with others below it an assembly. */
export interface ListItem {
  /** From 1, as a spreadsheet numbers them. */
  readonly row: number;
  readonly title: string;
  /** In the spec, as `poise equipment` writes it. */
  readonly path?: string | undefined;
  readonly pn: string | undefined;
  readonly rev: string | undefined;
  readonly maker: string | undefined;
  /** With that of the assemblies around it: the language counts pieces, not assemblies. */
  readonly qty: number;
  /** Of one piece, or of all where `total` is set. Undefined: nobody knows. */
  readonly mass: (Amount & { readonly total: boolean }) | undefined;
  /** Undefined: as the whole list. */
  readonly basis?: Basis | undefined;
  readonly at: Readonly<Partial<Record<Axis, Amount>>>;
  readonly items: readonly ListItem[];
}

export interface Reading {
  readonly items: readonly ListItem[];
  /** What could not be taken as it stands, each with its row and column. */
  readonly remarks: readonly string[];
}

/** The rows of a table as parts and assemblies. Whatever is no figure is remarked on and left unknown. */
export function itemsOf(table: Table, layout: Layout): Reading {
  const remarks: string[] = [];
  const rows = rowsOf(table, layout, remarks);
  const depths = depthsOf(
    rows.map(({ cells }) => cells),
    layout,
  );
  const flat = rows.map(({ cells, row }, i) => ({
    depth: depths[i]!,
    item: itemOf(cells, row, layout, remarks),
  }));
  const items = nested(flat, 0, flat.length, 1, layout, remarks);
  return { items, remarks };
}

interface Row {
  readonly cells: readonly Cell[];
  readonly row: number;
}

function rowsOf(table: Table, layout: Layout, remarks: string[]): readonly Row[] {
  const heading = table[layout.headingRow]!.map(textOf).join("\u0000");
  return table.slice(layout.firstRow).flatMap((cells, i): Row[] => {
    const row = layout.firstRow + i + 1;
    if (cells.every(it => textOf(it).trim() === "")) return [];
    // printed lists repeat their headings on each page
    if (cells.map(textOf).join("\u0000") === heading) return [];
    const [name, pn] = (["name", "pn"] as const).map(it => plainTitle(textIn(cells, it, layout)));
    const said = name || pn || plainTitle(textIn(cells, "path", layout));
    if (
      isSum(said || plainTitle(textOf(cells.find(it => textOf(it).trim() !== "")))) &&
      !(name && pn)
    ) {
      remarks.push(
        `row ${row}: "${said || "a sum"}" is taken for a sum of the list, not for a part`,
      );
      return [];
    }
    if (
      !said &&
      !["mass", "total"].some(it => textIn(cells, it as Meaning, layout).trim() !== "")
    ) {
      remarks.push(`row ${row}: neither a name, a part number nor a mass: passed over`);
      return [];
    }
    return [{ cells, row }];
  });
}

const isSum = (text: string) =>
  /^((grand|sub|sous)[ -]?)?(total|totals|sum|summe|gesamt|gesamtsumme|zwischensumme|somme)\b[ :]*(mass|weight|gewicht|masse|poids|général)?[ :]*$/iu.test(
    text,
  );

const textIn = (cells: readonly Cell[], meaning: Meaning, { columns }: Layout): string => {
  const column = columns.get(meaning);
  return column ? textOf(cells[column.index]) : "";
};

/** An item without the ones below it. */
function itemOf(cells: readonly Cell[], row: number, layout: Layout, remarks: string[]): ListItem {
  const text = (meaning: Meaning) => plainTitle(textIn(cells, meaning, layout)) || undefined;
  const pn = text("pn");
  const path = text("path");
  const name = text("name")?.replace(/^[-–•·.>+\s]+(?=\S)/u, "");
  const read = (meaning: Meaning, fits: (unit: Unit) => boolean, usual: Unit) =>
    amountIn(cells, row, meaning, layout, fits, usual, remarks);
  const one = read("mass", isMass, layout.mass.unit);
  const all = one === undefined ? read("total", isMass, layout.mass.unit) : undefined;
  const mass = one ? { ...one, total: false } : all && { ...all, total: true };
  const negative = mass !== undefined && mass.value < 0;
  if (negative) remarks.push(`row ${row}: a mass of ${mass.value} ${mass.unit.name} is left out`);
  const at: Partial<Record<Axis, Amount>> = {};
  for (const axis of ["FS", "BL", "WL"] as const) {
    const amount = read(axis, isLength, layout.length.unit);
    if (amount) at[axis] = amount;
  }
  return {
    row,
    title: name || pn || path?.split(".").at(-1) || `item ${row}`,
    path,
    pn,
    basis: basisIn(text("basis"), row, remarks),
    rev: text("rev"),
    maker: text("maker"),
    qty: qtyIn(cells, row, layout, remarks),
    mass: negative ? undefined : mass,
    at,
    items: [],
  };
}

function amountIn(
  cells: readonly Cell[],
  row: number,
  meaning: Meaning,
  layout: Layout,
  fits: (unit: Unit) => boolean,
  usual: Unit,
  remarks: string[],
): Amount | undefined {
  const column = layout.columns.get(meaning);
  if (column === undefined) return undefined;
  const figure = figureIn(cells[column.index], layout.decimal);
  if (figure === undefined) return undefined;
  const said = figure !== "unreadable" && figure.unit !== "" ? unitCalled(figure.unit) : undefined;
  if (figure === "unreadable" || (figure.unit !== "" && !(said && fits(said)))) {
    const shown = plainTitle(textOf(cells[column.index])).slice(0, 40);
    const unknown = meaning === "mass" || meaning === "total" ? "mass" : meaning;
    remarks.push(
      `row ${row}, column ${letterOf(column.index)} (${column.heading}): "${shown}" is no figure; the ${unknown} is left unknown`,
    );
    return undefined;
  }
  return { value: figure.value, unit: said ?? column.unit ?? usual };
}

function basisIn(text: string | undefined, row: number, remarks: string[]): Basis | undefined {
  const basis = bases.find(it => it === text?.toLowerCase());
  if (text !== undefined && basis === undefined)
    remarks.push(`row ${row}: "${text.slice(0, 40)}" is no basis, but ${bases.join(", ")}`);
  return basis;
}

function qtyIn(cells: readonly Cell[], row: number, layout: Layout, remarks: string[]): number {
  const column = layout.columns.get("qty");
  const figure = column && figureIn(cells[column.index], layout.decimal);
  if (column === undefined || figure === undefined) return 1;
  if (figure !== "unreadable" && Number.isInteger(figure.value) && figure.value >= 0)
    return figure.value;
  const shown = plainTitle(textOf(cells[column.index])).slice(0, 40);
  remarks.push(
    `row ${row}, column ${letterOf(column.index)} (${column.heading}): "${shown}" is not a number of pieces; one is taken`,
  );
  return 1;
}

type Flat = readonly { readonly depth: number; readonly item: ListItem }[];

/** The items from one row to another, each with the deeper ones that follow it. */
function nested(
  flat: Flat,
  from: number,
  to: number,
  around: number,
  layout: Layout,
  remarks: string[],
): readonly ListItem[] {
  const items: ListItem[] = [];
  for (let i = from; i < to; ) {
    const { depth, item } = flat[i]!;
    let end = i + 1;
    while (end < to && flat[end]!.depth > depth) end++;
    const qty = item.qty * around;
    const inside = nested(flat, i + 1, end, qty, layout, remarks);
    items.push({ ...item, qty, mass: totalOf(item, qty, around), items: inside });
    if (inside.length > 0) remarkOnAssembly({ ...item, qty, items: inside }, around, remarks);
    i = end;
  }
  return items;
}

/** A total is of the pieces in one assembly; the language wants that of all. */
function totalOf({ mass }: ListItem, qty: number, around: number): ListItem["mass"] {
  if (!mass?.total) return mass;
  if (qty === 1) return { ...mass, total: false };
  return { ...mass, value: Number((mass.value * around).toPrecision(12)) };
}

/** An assembly weighs what is in it: a mass of its own is held against that, and never taken. */
function remarkOnAssembly(item: ListItem, around: number, remarks: string[]): void {
  const { row, title, mass, qty } = item;
  if (qty !== around)
    remarks.push(`row ${row}: ${qty / around} of "${title}": the parts in it are counted as often`);
  if (mass === undefined) return;
  const own = mass.value * mass.unit.factor * (mass.total ? around : qty);
  const sum = massOf(item.items);
  const { unit } = mass;
  if (sum.known && Math.abs(own - sum.kg) <= 5e-3 * Math.abs(own)) return;
  const parts = `${Number((sum.kg / unit.factor).toPrecision(6))} ${unit.name}`;
  remarks.push(
    `row ${row}: "${title}" is said to weigh ${Number((own / unit.factor).toPrecision(6))} ${unit.name}, the parts in it ${
      sum.known ? `weigh ${parts}` : `${parts} and what is unknown`
    }: the assembly's own figure is not taken`,
  );
}

function massOf(items: readonly ListItem[]): { readonly kg: number; readonly known: boolean } {
  let kg = 0;
  let known = true;
  for (const item of items) {
    const { mass, qty } = item;
    if (item.items.length > 0) {
      const inside = massOf(item.items);
      kg += inside.kg;
      known &&= inside.known;
    } else if (mass === undefined) known = false;
    else kg += mass.value * mass.unit.factor * (mass.total ? 1 : qty);
  }
  return { kg, known };
}
