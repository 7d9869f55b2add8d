import {
  type Cell,
  type Decimal,
  decimalOf,
  figureIn,
  letterOf,
  type Table,
  textOf,
} from "../lists/cells";
import { folded, headingOf, parted } from "../lists/headings";
import { layoutOf, headingsIn as listHeadingsIn } from "../lists/layout";
import { isMass, unitCalled } from "../lists/units";
import { numeral } from "../lists/write";
import type { Unit } from "../quantity/units";
import type { Reading } from "./weigh-in";

/** What a column of a weigh sheet holds. */
export const columns = [
  ["path", "path,part path,pfad,chemin"],
  ["pn", "part number,part no,p n,pn,drawing number,drawing no,teilenummer,reference"],
  ["sn", "serial number,serial no,s n,sn,seriennummer,numero de serie"],
  ["name", "name,part,title,description,benennung,bezeichnung,designation"],
  ["pieces", "pieces,qty,quantity,stuckzahl,anzahl,quantite"],
  ["expected", "expected,expected mass,erwartet,attendu"],
  [
    "reading",
    "reading,reads,weighed,as weighed,scale reading,ablesung,gewogen,wagung,lecture,pese,pesee,mesure,releve",
  ],
  ["unit", "unit,units,einheit,unite"],
  ["scale", "scale,by,weighed on,waage,balance"],
  ["date", "date,on,datum"],
  ["note", "note,notes,remark,remarks,bemerkung,notiz,remarque"],
] as const;
export type Column = (typeof columns)[number][0];

const meanings = new Map<string, Column>(
  columns.flatMap(([column, names]) => names.split(",").map(name => [name, column] as const)),
);

/** `Masse pesée`, `Weighed mass`: what a scale showed; a mass alone may be what a list thinks of a part. */
const looseReading =
  /^(?=.*\b(mass|weight|masse|gewicht|poids)\b).*\b(weighed|measured|scale|gewogen\w*|gemessen\w*|pesee?s?|mesuree?s?|relevee?s?)\b/;

function looseColumn(heading: string): Column | undefined {
  if (looseReading.test(folded(heading))) return "reading";
  return headingOf(heading).meaning === "pn" ? "pn" : undefined;
}

/** The filled rows of a weigh sheet, or what is wrong with it, each with its line. */
export interface Sheet {
  readonly readings: readonly Reading[];
  /** Rows without a reading: not weighed yet. */
  readonly blank: number;
  /** Those of them that say so (`n/a`, `?`), each with its line. */
  readonly unknown: readonly string[];
  readonly broken: readonly string[];
}

/** What a row leaves open. */
export interface Usual {
  /** ISO. */
  readonly on: string;
  readonly by: string;
  readonly decimal: Decimal | undefined;
  /** Where every cell may be read either way. */
  readonly likelyDecimal: Decimal;
}

/** How many columns of a weigh sheet the first row with a reading's heading has; 0: it is none. */
export function headingsIn(table: Table): number {
  return headingRow(table)?.found.size ?? 0;
}

/** How well a table goes with a sheet; a parts list is worth something, for it is told that it is one. */
export const worthOf = (table: Table) => headingsIn(table) + listHeadingsIn(table) / 1000;

/**
 * Reads a weigh sheet. A row that has not as many cells as the headings is broken: a decimal comma
 * between commas would else be read as another figure.
 * @param lineOf the line of the file that a row of the table begins in
 */
export function readingsIn(table: Table, lineOf: (row: number) => number, usual: Usual): Sheet {
  const heading = headingRow(table);
  if (heading === undefined)
    return {
      readings: [],
      blank: 0,
      unknown: [],
      broken: [
        isPartsList(table) ? partsList : "no row is headed path or part number, and reading",
      ],
    };
  const { row: first, found, width, unit: headed } = heading;
  const cells = table.slice(first + 1).map(it => it[found.get("reading")!]);
  const decimal = usual.decimal ?? decimalOf(cells, usual.likelyDecimal).mark;
  // each cell by itself, where it leaves no doubt
  const markOf = (cell: Cell | undefined) => usual.decimal ?? decimalOf([cell], decimal).mark;
  const isMixed = usual.decimal === undefined && new Set(cells.flatMap(sureMark)).size > 1;
  const readings: Reading[] = [];
  const broken: string[] = [];
  const unknown: string[] = [];
  let blank = 0;
  for (let row = first + 1; row < table.length; row++) {
    const cells = table[row]!;
    if (cells.every(isBlank)) continue;
    const where = `line ${lineOf(row)}`;
    const text = (column: Column) => {
      const at = found.get(column);
      return at === undefined ? "" : textOf(cells[at]).trim();
    };
    if (cells.length !== width) {
      broken.push(`${where}: ${cells.length} cells where the headings are ${width}`);
      continue;
    }
    const at = found.get("reading")!;
    const said = text("unit") === "" ? headed : unitCalled(text("unit"));
    if (said !== undefined && !isMass(said)) broken.push(`${where}: ${said.name} is no mass`);
    else if (text("unit") !== "" && said === undefined)
      broken.push(`${where}: ${text("unit")} is no unit`);
    else if (isMixed && decimalOf([cells[at]], ".").guessed)
      broken.push(
        `${where}: ${text("reading")} may be thousands or a fraction, and the sheet writes both marks; --decimal says which is the decimal one`,
      );
    else {
      const figure = figureText(cells[at], markOf(cells[at]));
      if (figure === undefined) {
        blank++;
        if (text("reading") !== "") unknown.push(`${where}: "${text("reading")}"`);
      } else if (text("path") === "" && text("pn") === "")
        broken.push(
          `${where}: a reading in column ${letterOf(at)} without a path or a part number`,
        );
      else
        readings.push({
          where,
          path: text("path"),
          // as the sheet guards what a spreadsheet would take for a formula
          pn: text("pn").replace(/^'(?=[=+\-@])/, ""),
          figure,
          unit: said,
          on: dateIn(text("date")) || usual.on,
          by: text("scale") || usual.by,
          note: text("note"),
        });
    }
  }
  return { readings, blank, unknown, broken };
}

const partsList =
  "this is a parts list: no column of masses is headed reading or weighed; poise import takes it in";

function isPartsList(table: Table): boolean {
  const columns = layoutOf(table, {})?.columns;
  return columns !== undefined && (columns.has("mass") || columns.has("total"));
}

/** The decimal mark of a cell, where it shows one beyond doubt. */
function sureMark(cell: Cell | undefined): readonly Decimal[] {
  const marks = ([".", ","] as const).map(it => decimalOf([cell], it));
  return marks.every(it => !it.guessed && it.mark === marks[0]!.mark) ? [marks[0]!.mark] : [];
}

const isBlank = (cell: Cell | undefined) => textOf(cell).trim() === "";

/** Titles may stand above the headings. */
const DEEPEST = 30;

function headingRow(table: Table) {
  for (const [row, cells] of table.slice(0, DEEPEST).entries()) {
    const found = new Map<Column, number>();
    let unit: Unit | undefined;
    const columnOf = {
      exact: (whole: string, words: string) =>
        meanings.get(folded(whole)) ?? meanings.get(folded(words)),
      loose: (_: string, words: string) => looseColumn(words),
    };
    // what a heading says to the letter comes before what another may mean
    for (const how of ["exact", "loose"] as const)
      for (const [index, cell] of cells.entries()) {
        const whole = textOf(cell).trim();
        const [words, said] = parted(whole);
        const column = columnOf[how](whole, words);
        if (column === undefined || found.has(column) || [...found.values()].includes(index))
          continue;
        found.set(column, index);
        if (column === "reading") unit = said;
      }
    if (found.has("reading") && (found.has("path") || found.has("pn")))
      return { row, found, unit, width: cells.length };
  }
  return undefined;
}

/** A cell as a reading: `4,06` as 4.06, `4 lb 1 oz` and `total 1,84 kg` as they stand. */
function figureText(cell: Cell | undefined, decimal: Decimal): string | undefined {
  const figure = figureIn(cell, decimal);
  if (figure === undefined) return undefined;
  if (figure !== "unreadable") {
    const unit = figure.unit === "" ? undefined : unitCalled(figure.unit);
    if (figure.unit === "" || unit) return `${numeral(figure.value)} ${unit?.name ?? ""}`.trim();
  }
  const text = textOf(cell).trim();
  if (decimal === ",") return text.replace(/(?<=\d),(?=\d)/g, ".");
  // three digits may be thousands
  return text.includes(".") ? text : text.replace(/(?<=\d),(?=(\d{1,2}|\d{4,})(?!\d))/g, ".");
}

/** A spreadsheet turns 2026-11-25 into its own country's manner; what could be two days, or is none, is left as it is. */
function dateIn(text: string): string {
  const [, a, mark, b, year] = text.match(/^(\d{1,2})([./])(\d{1,2})\2(\d{4})$/) ?? [];
  if (a === undefined || b === undefined) return text;
  const iso = (month: string, day: string) =>
    `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  const [first, second] = [Number(a), Number(b)];
  if (second <= 12 && (mark === "." || first > 12 || a === b)) return iso(b, a);
  return mark === "/" && first <= 12 && second > 12 ? iso(a, b) : text;
}
