/** What stands in a cell: a spreadsheet's numbers are numbers, everything else is text. */
export type Cell = string | number | null;
/** Rows count from 0 here; people are told of them from 1, as a spreadsheet numbers them. */
export type Table = readonly (readonly Cell[])[];

export type Decimal = "," | ".";

export function textOf(cell: Cell | undefined): string {
  return cell === null || cell === undefined ? "" : String(cell);
}

/** A column as a spreadsheet calls it: A, B … Z, AA. */
export function letterOf(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : letterOf(Math.floor(column / 26) - 1) + last;
}

/** A number with what stands behind it, as in `12,5 kg`. */
export interface Figure {
  readonly value: number;
  readonly unit: string;
}

/**
 * What a cell says as a number: undefined where it says nothing or that nobody knows (`TBD`, `-`),
 * "unreadable" where it is no number. Nothing is ever read as zero but a zero.
 */
export function figureIn(
  cell: Cell | undefined,
  decimal: Decimal,
): Figure | "unreadable" | undefined {
  if (typeof cell === "number")
    // a spreadsheet keeps 0.1 + 0.2 with all its digits
    return isSane(cell) ? { value: Number(cell.toPrecision(12)), unit: "" } : "unreadable";
  const text = textOf(cell).trim();
  if (text === "" || unknown.test(text)) return undefined;
  const found = text.replaceAll("\u2212", "-").match(numeral);
  if (found === null) return "unreadable";
  const [, digits, exponent = "", unit] = found;
  const plain = pointed(digits!, decimal);
  if (plain === undefined) return "unreadable";
  const value = Number(plain + exponent);
  return isSane(value) ? { value, unit: unit!.trim() } : "unreadable";
}

/** A figure of an aircraft, in whatever unit; what is beyond is a slip or a broken formula. */
const isSane = (value: number) =>
  value === 0 || (Math.abs(value) >= 1e-12 && Math.abs(value) <= 1e12);

/** Nobody knows yet, in the three languages. */
const unknown =
  /^([-–—?.]+|n\/?a|n\.a\.|tb[adc]|k\.?\s?a\.?|unknown|unbekannt|offen|inconnue?|nc|à définir)$/i;
const numeral = /^([+-]?[\d.,'’\u00a0\u202f\u2009 ]*\d[.,]?)(e[+-]?\d+)?(?!\d)\s*([^\d.,+\-=]*)$/iu;

/** Spaces and apostrophes part thousands everywhere, the other mark where it parts threes. */
function pointed(digits: string, decimal: Decimal): string | undefined {
  const bare = digits.replace(/(?<=\d)['’\u00a0\u202f\u2009 ](?=\d{3}(?!\d))/g, "");
  if (/['’\s]/.test(bare)) return undefined;
  const [whole, rest = "", ...more] = bare.split(decimal);
  if (more.length > 0) return undefined;
  const other = decimal === "," ? "." : ",";
  if (rest.includes(other)) return undefined;
  const grouped = whole!.includes(other);
  const thousands = decimal === "," ? /^[+-]?\d{1,3}(\.\d{3})+$/ : /^[+-]?\d{1,3}(,\d{3})+$/;
  if (grouped && !thousands.test(whole!)) return undefined;
  return `${whole!.replaceAll(other, "")}.${rest}`.replace(/\.$/, "");
}

export interface DecimalReading {
  readonly mark: Decimal;
  /** No cell shows it: `1,234` may be either. */
  readonly guessed: boolean;
}

/**
 * The decimal mark of a list: the one that a cell shows beyond doubt, for `1,5` has no thousands.
 * @param likely where every cell may be read either way
 */
export function decimalOf(cells: Iterable<Cell | undefined>, likely: Decimal): DecimalReading {
  const votes = { ",": 0, ".": 0 };
  let doubtful = false;
  for (const cell of cells) {
    const text = typeof cell === "string" ? cell : "";
    const found = text.trim().match(/^[+-−]?[\d.,'’\s]*\d(?=\D*$)/u)?.[0] ?? "";
    const marks = found.replace(/[^.,]/g, "");
    if (marks === "") continue;
    const last = marks.at(-1) as Decimal;
    const behind = found.slice(found.lastIndexOf(last) + 1);
    const [before] = found.split(last);
    if (marks.length > 1 && new Set(marks).size === 1) votes[last === "," ? "." : ","]++;
    else if (marks.length > 1 || behind.length !== 3 || !/^\W*[1-9]\d{0,2}$/.test(before!))
      votes[last]++;
    else doubtful = true;
  }
  if (votes[","] === votes["."]) return { mark: likely, guessed: doubtful };
  return { mark: votes[","] > votes["."] ? "," : ".", guessed: false };
}
