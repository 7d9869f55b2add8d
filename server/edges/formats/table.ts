import { cells, drawn } from "./row";

/** Rows of cells as columns, each as wide as its widest on a terminal; the first row is the headings. */
export function tableOf(rows: readonly (readonly string[])[]): readonly string[] {
  const all = rows.map(row => row.map(drawn));
  const widths = (all[0] ?? []).map((_, i) =>
    all.reduce((most, row) => Math.max(most, cells(row[i] ?? "")), 0),
  );
  return all.map(row =>
    row
      .map((cell, i) => cell + " ".repeat(widths[i]! - cells(cell)))
      .join("  ")
      .trimEnd(),
  );
}
