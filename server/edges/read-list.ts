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
  /** The line of the file that a row begins in; undefined for a workbook, whose cells cannot shift. */
  readonly lineOf?: (row: number) => number;
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
  const { delimiter, ...read } = cellsOf(text, [";", "\t", ",", "|"], worth, path);
  return { ...read, likelyDecimal: delimiter === ";" ? "," : "." };
}

interface Cells {
  readonly delimiter: string;
  readonly table: readonly (readonly string[])[];
  readonly lineOf: (row: number) => number;
}

/** The cells of a text as the mark parts them that fits best; a quote that nothing closes is said. */
function cellsOf(
  text: string,
  delimiters: readonly string[],
  worth: (table: Table) => number,
  path: string,
): Cells {
  const read = delimiters.map(it => parted(text, it));
  const best = most(read, it => worth(it.table))!;
  const line = openQuote(text, best.delimiter);
  if (line === undefined) return best;
  throw new WrongUse(
    `${shownPath(path)}: line ${line}: a quote that nothing closes; nothing is written`,
  );
}

function parted(text: string, delimiter: string): Cells {
  const options = { delimiter, relax_column_count: true, relax_quotes: true, info: true } as const;
  const parse = (quote: '"' | false) =>
    chunk().parse(text, { ...options, quote }) as unknown as readonly {
      readonly record: string[];
      readonly info: { readonly lines: number };
    }[];
  const rows = openQuote(text, delimiter) === undefined ? parse('"') : parse(false);
  const ends = rows.map(it => it.info.lines);
  const lineOf = (row: number) => (row === 0 ? 1 : (ends[row - 1] ?? 0) + 1);
  return { delimiter, table: rows.map(it => it.record), lineOf };
}

/**
 * The line of the quote at the start of a cell that no end of a cell closes: it would swallow cells and rows
 * as far as the next quote.
 */
function openQuote(text: string, delimiter: string): number | undefined {
  let line = 1;
  let isStart = true;
  for (let i = 0; i < text.length; i++) {
    const char = text[i]!;
    if (char === '"' && isStart) {
      let end = i + 1;
      while (end < text.length && (text[end] !== '"' || text[end + 1] === '"'))
        end += text[end] === '"' ? 2 : 1;
      const [, next] = text.slice(end, end + 200).match(/^" *([^ ])?/) ?? [];
      if (end >= text.length || !(next === undefined || next === delimiter || /[\r\n]/.test(next)))
        return line;
      line += text.slice(i, end).match(/\r\n|\r|\n/g)?.length ?? 0;
      i = end;
      isStart = false;
    } else {
      if (char === "\n" || (char === "\r" && text[i + 1] !== "\n")) line++;
      isStart = char === delimiter || char === "\n" || char === "\r";
    }
  }
  return undefined;
}

/** The cells of a CSV or XLSX file; of several sheets those of the one that looks most like a list of parts. */
export async function readList(path: string, sheet: string | undefined): Promise<ListFile> {
  const bytes = bytesOf(path);
  const modified = statSync(path).mtime;
  if (!isWorkbook(bytes)) return { ...fromText(bytes, path), modified };
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

function fromText(bytes: Buffer, path: string) {
  const { text, encoding } = decoded(bytes);
  const [, said] = text.match(/^sep=(.)\r?\n/) ?? [];
  const worth = (table: Table) => headingsIn(table) + width(table) / 1e6;
  const { delimiter, ...read } = cellsOf(text, said ? [said] : [";", "\t", ",", "|"], worth, path);
  const between = delimiter === "\t" ? "tabs" : `"${delimiter}"`;
  return {
    ...read,
    told: `${between} between cells, ${encoding}`,
    likelyDecimal: delimiter === ";" ? ("," as const) : ("." as const),
  };
}

const width = (table: Table) => table.slice(0, 30).reduce((sum, row) => sum + row.length, 0);

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
