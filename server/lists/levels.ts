import { type Cell, textOf } from "./cells";
import type { Layout } from "./layout";

/**
 * How deep each row stands, by its level (`2`, `..2`, `1.1.2`), else by a position number with dots in
 * it, else by the blanks before its name. Only greater and smaller mean something.
 */
export function depthsOf(rows: readonly (readonly Cell[])[], layout: Layout): readonly number[] {
  const source = nestingOf(rows, layout);
  switch (source?.by) {
    case "level":
      return filled(rows.map(cells => depthOfLevel(textOf(cells[source.index]).trim())));
    case "position":
      return filled(rows.map(cells => segments(textOf(cells[source.index]).trim())));
    case "indent":
      return rows.map(cells => indentOf(textOf(cells[source.index])));
    default:
      return rows.map(() => 0);
  }
}

/** What the nesting is read from; undefined for a flat list. */
export function nestingOf(
  rows: readonly (readonly Cell[])[],
  { columns }: Layout,
): { readonly by: "level" | "position" | "indent"; readonly index: number } | undefined {
  const differ = (values: readonly (number | undefined)[]) =>
    new Set(values.filter(it => it !== undefined)).size > 1;
  const level = columns.get("level")?.index;
  if (level !== undefined && differ(rows.map(it => depthOfLevel(textOf(it[level]).trim()))))
    return { by: "level", index: level };
  const position = columns.get("position")?.index;
  if (position !== undefined && differ(rows.map(it => segments(textOf(it[position]).trim()))))
    return { by: "position", index: position };
  for (const meaning of ["name", "pn"] as const) {
    const index = columns.get(meaning)?.index;
    if (index !== undefined && differ(rows.map(it => indentOf(textOf(it[index])))))
      return { by: "indent", index };
  }
  return undefined;
}

/** A row that does not say stands beside the one before it. */
function filled(depths: readonly (number | undefined)[]): readonly number[] {
  let last = 0;
  return depths.map(it => {
    last = it ?? last;
    return last;
  });
}

function depthOfLevel(text: string): number | undefined {
  const plain = text.match(/^[.\-+ ]*(\d+)$/)?.[1];
  return plain ? Number(plain) : segments(text);
}

const segments = (text: string): number | undefined =>
  /^\d+([.-]\d+)*\.?$/.test(text) ? text.replace(/\.$/, "").split(/[.-]/).length : undefined;

/** Blanks, or the dots and dashes that some lists put for them; a tab is as good as four. */
function indentOf(text: string): number {
  const [lead] = text.match(/^(?:[\s\u00a0]|[.>+](?=[\s.>+\p{L}])|[-–•·](?=[\s\-–•·]))*/u) ?? [""];
  return [...lead!].reduce((sum, it) => sum + (it === "\t" ? 4 : 1), 0);
}
