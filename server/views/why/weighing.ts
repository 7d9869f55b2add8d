import type { StatementOf } from "../../../grammar/tree";
import { unexplainedCentres } from "../../compute/centre-apart";
import type { Term, Weighing } from "../../compute/scales";
import { asDrawn, emptyTotals } from "../../compute/stages";
import { changeOf, lastWeighing } from "../../compute/weighing";
import { balanceOf, merge, none, subtract, type Totals } from "../../compute/weight";
import type { Root } from "../../model/root";
import { lengthText, massText, written } from "./figures";
import { type Heading, line, type Row, type Step, section, table, type WhyLine } from "./lines";
import { centreSteps, headingsOf, rowOf } from "./sums";

/** A weighing: what its scales carried, what was aboard and what was missing, and what the parts come to. */
export function weighingLines(root: Root, weighing: Weighing): readonly WhyLine[] {
  const { airframe } = root;
  const { name, on, at, terms, totals, known, broken } = weighing;
  const rows = (kind: Term["kind"]): readonly Row[] =>
    terms.filter(it => it.kind === kind).map(it => termRow(root, it));
  const title = line(
    `${name}: weighing of ${airframe?.title ?? airframe?.name} on ${on}${broken ? ", not understood: it does not count" : ""}`,
    at,
  );
  const parts = emptyTotals(asDrawn(known));
  const off = none();
  merge(off, totals);
  subtract(off, parts);
  return [
    title,
    ...levelTable(root, "On the scales, taken out, put in", [
      rows("scale"),
      rows("aboard"),
      rows("missing"),
      [rowOf(root, "basic empty weight", totals, at)],
      broken
        ? []
        : [
            rowOf(root, "by its parts", parts, root.aircraft.head.path),
            unexplainedRow(root, weighing, off),
          ],
    ]),
    ...section("CG, basic empty weight: moment ÷ mass", levelSteps(root, totals, parts)),
    ...(broken ? [] : section("How sure", sureSteps(root, weighing))),
  ];
}

/** Scales measure no height: their tables have no WL. */
function levelTable(root: Root, title: string, groups: readonly (readonly Row[])[]) {
  const level = <T>(cells: readonly T[]): readonly T[] => cells.filter((_, i) => i !== 3);
  const headings: readonly Heading[] = level(headingsOf(root, false));
  return table(
    title,
    headings,
    groups.map(rows => rows.map(it => ({ ...it, cells: level(it.cells) }))),
  );
}

/** The CG of what was weighed; its height is the one of its parts. */
export function levelSteps(root: Root, totals: Totals, parts: Totals): readonly Step[] {
  const { wl } = balanceOf(parts, 0);
  const height = wl === null ? "unknown" : lengthText(root, wl);
  return [
    ...centreSteps(root, totals).filter(([name]) => name !== "WL"),
    ["WL", `${height}, as its parts have it: scales measure no height`],
  ];
}

/** A station is said only where the unexplained mass exceeds its own spread: else it is noise. */
function unexplainedRow(root: Root, { unexplainedFs }: Weighing, off: Totals): Row {
  const row = rowOf(root, "unexplained", off, undefined);
  if (unexplainedFs !== undefined) return row;
  return { ...row, cells: row.cells.map((it, i) => (i === 1 || i === 2 ? "" : it)) };
}

function termRow(root: Root, { name, kind, at, totals }: Term): Row {
  const word = { scale: name, aboard: `less ${name}`, missing: `plus ${name}` }[kind];
  if (kind !== "scale") return rowOf(root, word, totals, at);
  const { reads, tare, by } = at as StatementOf<"scale">;
  const readings = reads.map(written).join(", ");
  const mean = reads.length > 1 ? `mean of ${readings}` : `reads ${readings}`;
  const less = tare ? `, less ${written(tare)} tare` : "";
  const scale = by ? `, by ${by.text}` : "";
  return rowOf(root, word, totals, at, { details: [line(`    ${mean}${less}${scale}`)] });
}

function sureSteps(root: Root, weighing: Weighing) {
  const { spread, off, unexplained, unexplainedFs } = weighing;
  const steps: Step[] = [
    [
      "scales",
      spread === 0 ? "no spread is known" : `± ${massText(root, spread)}, one standard deviation`,
    ],
    ["scales and parts", off === 0 ? "no spread is known" : `± ${massText(root, off)} together`],
  ];
  if (unexplainedFs !== undefined)
    steps.push([
      "unexplained",
      `${massText(root, unexplained)} would sit at FS ${lengthText(root, unexplainedFs)}`,
    ]);
  for (const { axis, by, off: together } of unexplainedCentres(weighing))
    steps.push([
      "unexplained",
      `CG ${lengthText(root, by)} from its parts' along ${axis === "fs" ? "FS" : "BL"}, ± ${lengthText(root, together)} together`,
    ]);
  return steps;
}

/** Of an airframe that was weighed: that weighing, and what its changes made of it since. */
export function weighedLines(root: Root): readonly WhyLine[] {
  const { rolledUp } = root;
  const weighing = rolledUp && lastWeighing(rolledUp);
  if (rolledUp === undefined || weighing === undefined) return [];
  const sum = none();
  merge(sum, weighing.totals);
  const since = rolledUp.changes
    .filter(it => it.on >= weighing.on)
    .map(change => {
      const totals = changeOf(rolledUp, change);
      merge(sum, totals);
      return rowOf(root, `change ${change.name}, ${change.on}`, totals, change.at);
    });
  return levelTable(root, "As weighed", [
    [
      rowOf(root, `weighing ${weighing.name}, ${weighing.on}`, weighing.totals, weighing.at),
      ...since,
    ],
    since.length > 0 ? [rowOf(root, "basic empty weight", sum, undefined)] : [],
  ]);
}
