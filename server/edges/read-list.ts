import { readFileSync, statSync } from "node:fs";
import type { Cell, Table } from "../lists/cells";
import { headingsIn } from "../lists/layout";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

export interface ListFile {
  readonly table: Table;
  /** What was read of the file itself, in words. */
  readonly told: string;
  readonly modified: Date;
  readonly likelyDecimal: "," | ".";
}

/** A table that is read to the letter, and where each row of it begins in its file. */
export interface FilledFile {
  readonly table: Table;
  readonly lineOf: (row: number) => number;
  readonly likelyDecimal: "," | ".";
}

/**
 * The cells of a CSV or XLSX file in which every cell counts: a line that cannot be read is said, and
 * nothing is guessed.
 * @param worth how well a table goes with what is looked for: which mark parts its cells, which sheet it is
 */
export async function readFilled(
  path: string,
  worth: (table: Table) => number,
): Promise<FilledFile> {
  const bytes = bytesOf(path);
  if (isWorkbook(bytes)) {
    const sheets = await sheetsOf(bytes, path);
    const table = most(sheets, it => worth(it.table))?.table ?? [];
    const width = Math.max(0, ...table.map(row => row.length));
    // a workbook keeps no cells behind the last one that was filled
    const padded = table.map(row => [...row, ...Array<null>(width - row.length).fill(null)]);
    return { table: padded, lineOf: row => row + 1, likelyDecimal: "." };
  }
  const { text } = decoded(bytes);
  const read = ([";", "\t", ",", "|"] as const).map(delimiter => strictCells(text, delimiter));
  const best = most(read, it => ("broken" in it ? -1 : worth(it.table)))!;
  if ("broken" in best)
    throw new WrongUse(`${shownPath(path)}: ${best.broken}; nothing is written`);
  return { ...best, likelyDecimal: best.delimiter === ";" ? "," : "." };
}

function strictCells(text: string, delimiter: string) {
  const options = { delimiter, relax_column_count: true, relax_quotes: true, info: true } as const;
  try {
    const rows = chunk().parse(text, options) as unknown as readonly {
      readonly record: string[];
      readonly info: { readonly lines: number };
    }[];
    const ends = rows.map(it => it.info.lines);
    const lineOf = (row: number) => (row === 0 ? 1 : (ends[row - 1] ?? 0) + 1);
    return { delimiter, table: rows.map(it => it.record), lineOf };
  } catch (error) {
    const line = error instanceof Error && /at line (\d+)/.exec(error.message)?.[1];
    return { delimiter, broken: `line ${line || "?"}: a quote that nothing closes` };
  }
}

/** The cells of a CSV or XLSX file; of several sheets those of the one that looks most like a list of parts. */
export async function readList(path: string, sheet: string | undefined): Promise<ListFile> {
  const bytes = bytesOf(path);
  const modified = statSync(path).mtime;
  if (!isWorkbook(bytes)) return { ...fromText(bytes), modified };
  return { ...(await fromWorkbook(bytes, path, sheet)), modified };
}

function bytesOf(path: string): Buffer {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (stat === undefined) throw new WrongUse(`${shownPath(path)} does not exist`);
  if (!stat.isFile()) throw new WrongUse(`${shownPath(path)} is no file`);
  if (stat.size > LARGEST) throw new WrongUse(`${shownPath(path)} is larger than 64 MB`);
  const bytes = readFileSync(path);
  if (bytes.subarray(0, 4).toString("latin1") === "\u00d0\u00cf\u0011\u00e0")
    throw new WrongUse(`${shownPath(path)} is an old .xls: save it as .xlsx or .csv`);
  return bytes;
}

const LARGEST = 64 * 2 ** 20;
const isWorkbook = (bytes: Buffer) => bytes.subarray(0, 2).toString("latin1") === "PK";

// esbuild leaves this `require` alone: .config/build.mjs calls the chunk external.
const chunk = (): typeof import("./lists-chunk") => require("./lists.js");

async function sheetsOf(bytes: Buffer, path: string) {
  const sheets = await chunk()
    .readWorkbook(new Uint8Array(bytes).buffer, { trim: false })
    .catch((error: unknown) => {
      const why = error instanceof Error ? error.message : String(error);
      throw new WrongUse(`${shownPath(path)} cannot be read as a workbook: ${why.split("\n")[0]}`);
    });
  return sheets.map(({ sheet, data }) => ({ sheet, table: data.map(row => row.map(cellOf)) }));
}

async function fromWorkbook(bytes: Buffer, path: string, wanted: string | undefined) {
  const tables = await sheetsOf(bytes, path);
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
