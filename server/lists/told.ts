import { letterOf, type Table } from "./cells";
import type { Meaning } from "./headings";
import type { Column, Layout, UnitReading } from "./layout";
import { nestingOf } from "./levels";

/** How each column was read, a line each: what a person needs to see that it was read rightly. */
export function toldLayout(table: Table, layout: Layout): readonly string[] {
  const rows = table.slice(layout.firstRow);
  const nesting = nestingOf(rows, layout);
  const meant = [...layout.columns].map(([meaning, column]) => ({
    column,
    says: meaningOf(meaning, column, layout) + (nesting?.index === column.index ? LEVELS : ""),
  }));
  const unused = layout.unused.map(column => ({
    column,
    says: column.why === "" ? "not used" : `not used: ${column.why}`,
  }));
  const columns = [...meant, ...unused].sort((a, b) => a.column.index - b.column.index);
  const widest = Math.min(30, Math.max(...columns.map(it => it.column.heading.length)));
  const missing = [
    ...(layout.columns.has("mass") || layout.columns.has("total") ? [] : ["no mass"]),
    ...(layout.columns.has("FS") ? [] : ["no FS (X)"]),
  ];
  return [
    `headings in row ${layout.headingRow + 1}, decimal ${layout.decimal === "," ? "comma" : "point"}${
      layout.decimalGuessed ? " (a guess; --decimal says otherwise)" : ""
    }, ${nesting ? `levels by ${nesting.by}` : "no levels"}`,
    ...columns.map(
      ({ column, says }) =>
        `  ${letterOf(column.index).padEnd(2)} ${column.heading.padEnd(widest)}  ${says}`,
    ),
    ...missing.map(it => `  no column for it: ${it.slice(3)}`),
  ];
}

const LEVELS = ", and the levels";

function meaningOf(meaning: Meaning, column: Column, { mass, length }: Layout): string {
  const inUnit = (usual: UnitReading) =>
    column.unit ? `in ${column.unit.name}` : `in ${usual.unit.name} (${origins[usual.from]})`;
  switch (meaning) {
    case "mass":
      return `mass of one piece, ${inUnit(mass)}`;
    case "total":
      return `mass of all its pieces, ${inUnit(mass)}`;
    case "FS":
    case "BL":
    case "WL":
      return `${meaning}, ${inUnit(length)}`;
    default:
      return words[meaning];
  }
}

const words = {
  path: "path in the spec",
  basis: "what the mass rests on",
  name: "name",
  pn: "part number",
  qty: "number of pieces",
  level: "level",
  position: "position",
  rev: "revision",
  maker: "maker",
} as const;

const origins = {
  heading: "as the other headings say",
  asked: "as asked",
  spec: "as the spec has it",
  guess: "a guess; --units says otherwise",
} as const;
