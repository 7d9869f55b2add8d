import { drawn } from "./row";

/** Rows of cells as columns, each as wide as its widest; the first row is the headings. */
export function tableOf(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map(it => it[i]!.length)));
  return rows.map(row =>
    drawn(
      row
        .map((cell, i) => cell.padEnd(widths[i]!))
        .join("  ")
        .trimEnd(),
    ),
  );
}
