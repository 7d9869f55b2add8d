import { readFileSync, statSync } from "node:fs";
import type { Cell, Table } from "../lists/cells";
import { headingsIn } from "../lists/layout";
import { WrongUse } from "./check";
import { shownPath } from "./places";

export interface ListFile {
  readonly table: Table;
  /** What was read of the file itself, in words. */
  readonly told: string;
  readonly modified: Date;
  readonly likelyDecimal: "," | ".";
}

/** The cells of a CSV or XLSX file; of several sheets those of the one that looks most like a list of parts. */
export async function readList(path: string, sheet: string | undefined): Promise<ListFile> {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (stat === undefined) throw new WrongUse(`${shownPath(path)} does not exist`);
  if (!stat.isFile()) throw new WrongUse(`${shownPath(path)} is no file`);
  if (stat.size > LARGEST) throw new WrongUse(`${shownPath(path)} is larger than 64 MB`);
  const bytes = readFileSync(path);
  const modified = stat.mtime;
  if (bytes.subarray(0, 4).toString("latin1") === "\u00d0\u00cf\u0011\u00e0")
    throw new WrongUse(`${shownPath(path)} is an old .xls: save it as .xlsx or .csv`);
  if (bytes.subarray(0, 2).toString("latin1") !== "PK") return { ...fromText(bytes), modified };
  return { ...(await fromWorkbook(bytes, path, sheet)), modified };
}

const LARGEST = 64 * 2 ** 20;

// esbuild leaves this `require` alone: .config/build.mjs calls the chunk external.
const chunk = (): typeof import("./lists-chunk") => require("./lists.js");

async function fromWorkbook(bytes: Buffer, path: string, wanted: string | undefined) {
  const sheets = await chunk()
    .readWorkbook(new Uint8Array(bytes).buffer, { trim: false })
    .catch((error: unknown) => {
      const why = error instanceof Error ? error.message : String(error);
      throw new WrongUse(`${shownPath(path)} cannot be read as a workbook: ${why.split("\n")[0]}`);
    });
  const tables = sheets.map(({ sheet, data }) => ({
    sheet,
    table: data.map(row => row.map(cellOf)),
  }));
  const named = tables.filter(({ sheet }, i) => wanted === sheet || wanted === `${i + 1}`);
  if (wanted !== undefined && named.length === 0)
    throw new WrongUse(`there is no sheet ${wanted}, but ${tables.map(it => it.sheet).join(", ")}`);
  const best = most(wanted === undefined ? tables : named, it => headingsIn(it.table));
  return {
    table: best?.table ?? [],
    told: `sheet "${best?.sheet ?? ""}"${tables.length > 1 ? ` of ${tables.length}` : ""}`,
    likelyDecimal: "." as const,
  };
}

/** Spreadsheets make dates of some part numbers. */
function cellOf(value: unknown): Cell {
  if (value === null || typeof value === "string" || typeof value === "number") return value;
  return value instanceof Date ? value.toISOString().slice(0, 10) : String(value);
}

function fromText(bytes: Buffer) {
  const { text, encoding } = decoded(bytes);
  const [, said] = text.match(/^sep=(.)\r?\n/) ?? [];
  const tried = (said ? [said] : [";", "\t", ",", "|"]).map(delimiter => ({
    delimiter,
    table: cellsOf(text, delimiter),
  }));
  const best = most(tried, ({ table }) => headingsIn(table) + width(table) / 1e6)!;
  const between = best.delimiter === "\t" ? "tabs" : `"${best.delimiter}"`;
  return {
    table: best.table,
    told: `${between} between cells, ${encoding}`,
    likelyDecimal: best.delimiter === ";" ? ("," as const) : ("." as const),
  };
}

const width = (table: Table) => table.slice(0, 30).reduce((sum, row) => sum + row.length, 0);

function cellsOf(text: string, delimiter: string): Table {
  const { parse } = chunk();
  const options = { delimiter, relax_column_count: true, relax_quotes: true };
  try {
    return parse(text, options);
  } catch {
    // an inch sign at the start of a cell opens a quote that nothing closes
    return parse(text, { ...options, quote: false });
  }
}

/** What spreadsheets write: UTF-8, UTF-16, and on older Windows one byte a letter. */
function decoded(bytes: Buffer): { readonly text: string; readonly encoding: string } {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return decode("utf-16le", bytes, "UTF-16");
  if (a === 0xfe && b === 0xff) return decode("utf-16be", bytes, "UTF-16");
  try {
    return {
      text: new TextDecoder("utf-8", { fatal: true }).decode(bytes),
      encoding: "UTF-8",
    };
  } catch {
    return decode("windows-1252", bytes, "not UTF-8, read as Windows-1252");
  }
}

const decode = (label: string, bytes: Buffer, encoding: string) => ({
  text: new TextDecoder(label).decode(bytes),
  encoding,
});

function most<T>(all: readonly T[], worth: (it: T) => number): T | undefined {
  return all.reduce<T | undefined>(
    (best, it) => (best === undefined || worth(it) > worth(best) ? it : best),
    undefined,
  );
}
