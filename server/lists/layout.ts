import { type Unit, unitTable } from "../quantity/units";
import { type Cell, type Decimal, decimalOf, type Table, textOf } from "./cells";
import { type Heading, headingOf, type Meaning } from "./headings";
import { isLength, isMass, unitCalled } from "./units";

export interface Column {
  readonly index: number;
  readonly heading: string;
  readonly unit: Unit | undefined;
}

/** How a list is read: which column holds what, where its rows begin, how its numbers are written. */
export interface Layout {
  readonly headingRow: number;
  readonly firstRow: number;
  readonly columns: ReadonlyMap<Meaning, Column>;
  readonly unused: readonly (Column & { readonly why: string })[];
  readonly decimal: Decimal;
  readonly decimalGuessed: boolean;
  readonly mass: UnitReading;
  readonly length: UnitReading;
}

export interface UnitReading {
  readonly unit: Unit;
  readonly from: "heading" | "asked" | "spec" | "guess";
}

export interface Wanted {
  readonly mass?: Unit | undefined;
  readonly length?: Unit | undefined;
  readonly decimal?: Decimal | undefined;
  /** What to take where the list does not say: the spec's own units. */
  readonly spec?: { readonly mass: Unit; readonly length: Unit } | undefined;
  readonly likelyDecimal?: Decimal | undefined;
}

/** How many different things the likeliest row of headings names; 0 where there is none. */
export function headingsIn(table: Table): number {
  return bestRow(table)?.meanings ?? 0;
}

/** The best reading of a table; undefined where no row has headings of a part and something else. */
export function layoutOf(table: Table, wanted: Wanted): Layout | undefined {
  const best = bestRow(table);
  if (best === undefined) return undefined;
  const { row: headingRow } = best;
  const unitRow = unitsOfRow(table[headingRow + 1] ?? []);
  const firstRow = headingRow + (unitRow ? 2 : 1);
  const headings = (table[headingRow] ?? []).map(cell => textOf(cell).replace(/\s+/g, " ").trim());
  const columns = new Map<Meaning, Column & Heading>();
  const unused: (Column & { readonly why: string })[] = [];
  for (const [index, heading] of headings.entries()) {
    const said = headingOf(heading);
    const unit = said.unit ?? unitRow?.[index];
    const column = { ...said, index, heading, unit };
    const { meaning } = said;
    const why = reasonAgainst(meaning, unit);
    if (meaning === undefined || why !== undefined) {
      if (heading !== "") unused.push({ ...column, why: why ?? "" });
      continue;
    }
    const before = columns.get(meaning);
    if (before && before.rank <= said.rank)
      unused.push({ ...column, why: `${before.heading} is taken` });
    else {
      if (before) unused.push({ ...before, why: `${heading} is taken` });
      columns.set(meaning, column);
    }
  }
  const position = columns.get("position");
  if (position && !columns.has("name") && isOfWords(table.slice(firstRow), position.index)) {
    columns.delete("position");
    columns.set("name", position);
  }
  if (!["name", "pn", "path"].some(it => columns.has(it as Meaning))) return undefined;
  const numbers = (["mass", "total", "FS", "BL", "WL"] as const).flatMap(
    it => columns.get(it) ?? [],
  );
  const cells = table.slice(firstRow).flatMap(row => numbers.map(it => row[it.index]));
  const decimal = wanted.decimal
    ? { mark: wanted.decimal, guessed: false }
    : decimalOf(cells, wanted.likelyDecimal ?? ".");
  const [mass, length] = unitsOf(columns, wanted, decimal.mark);
  return {
    headingRow,
    firstRow,
    columns,
    unused,
    decimal: decimal.mark,
    decimalGuessed: decimal.guessed,
    mass,
    length,
  };
}

/**
 * Rows that have not as many cells as the headings: one that is missing or a comma too many has moved the
 * others under the wrong headings. A single cell is a title; empty ones at the end say nothing.
 */
export function shiftedRows(
  table: Table,
  { headingRow }: Layout,
): readonly { row: number; cells: number; of: number }[] {
  const filled = (cells: readonly Cell[]) =>
    cells.findLastIndex(it => textOf(it).trim() !== "") + 1;
  const headings = table[headingRow]!;
  const of = filled(headings);
  return table.flatMap((cells, row) => {
    const isWhole = cells.length >= of && filled(cells) <= headings.length;
    return row <= headingRow || cells.length <= 1 || isWhole
      ? []
      : [{ row, cells: cells.length, of }];
  });
}

/** Titles and dates may stand above the headings. */
const DEEPEST = 30;

function bestRow(table: Table): { row: number; meanings: number } | undefined {
  let best: { row: number; meanings: number } | undefined;
  for (const [row, cells] of table.slice(0, DEEPEST).entries()) {
    const found = new Set(
      cells.map(cell => (typeof cell === "string" ? headingOf(cell).meaning : undefined)),
    );
    found.delete(undefined);
    if (!["name", "pn", "path", "position"].some(it => found.has(it as Meaning))) continue;
    if (found.size >= 2 && found.size > (best?.meanings ?? 0)) best = { row, meanings: found.size };
  }
  return best;
}

/** A row that says nothing but units below the headings. */
function unitsOfRow(cells: readonly Cell[]): readonly (Unit | undefined)[] | undefined {
  const texts = cells.map(cell =>
    textOf(cell)
      .trim()
      .replace(/^[[(](.*)[\])]$/, "$1"),
  );
  const said = texts.filter(it => it !== "" && it !== "-");
  if (said.length === 0 || !said.some(unitCalled)) return undefined;
  if (!said.every(it => unitCalled(it) ?? /^(pcs|stk|st|pc|ea|each|text|[-–])\.?$/i.test(it)))
    return undefined;
  return texts.map(unitCalled);
}

/** `Item` heads numbers in one list and names in the next. */
function isOfWords(rows: Table, index: number): boolean {
  const texts = rows.map(row => textOf(row[index]).trim()).filter(it => it !== "");
  return texts.filter(it => /\p{L}{2}/u.test(it)).length * 2 > texts.length;
}

function reasonAgainst(meaning: Meaning | undefined, unit: Unit | undefined): string | undefined {
  if (meaning === undefined || unit === undefined) return undefined;
  if (meaning === "mass" || meaning === "total")
    return isMass(unit) ? undefined : `${unit.name} is no mass`;
  if (meaning === "FS" || meaning === "BL" || meaning === "WL")
    return isLength(unit) ? undefined : `${unit.name} is no length`;
  return undefined;
}

/** What headings leave open is taken as asked, else as the spec has it, else as goes with the other. */
function unitsOf(
  columns: ReadonlyMap<Meaning, Column>,
  wanted: Wanted,
  decimal: Decimal,
): readonly [UnitReading, UnitReading] {
  const said = (names: readonly Meaning[]) => names.flatMap(it => columns.get(it)?.unit ?? [])[0];
  const mass = said(["mass", "total"]);
  const length = said(["FS", "BL", "WL"]);
  const inches = (it: Unit | undefined) => it && ["in", "ft", "lb", "oz"].includes(it.name);
  const guess = (other: Unit | undefined, imperial: string, metric: string) =>
    unitTable.get(inches(other) && decimal === "." ? imperial : metric)!;
  const reading = (
    own: Unit | undefined,
    asked: Unit | undefined,
    spec: Unit | undefined,
    guessed: Unit,
  ): UnitReading => {
    if (own) return { unit: own, from: "heading" };
    if (asked) return { unit: asked, from: "asked" };
    return spec ? { unit: spec, from: "spec" } : { unit: guessed, from: "guess" };
  };
  return [
    reading(mass, wanted.mass, wanted.spec?.mass, guess(length ?? wanted.length, "lb", "kg")),
    reading(length, wanted.length, wanted.spec?.length, guess(mass ?? wanted.mass, "in", "mm")),
  ];
}
