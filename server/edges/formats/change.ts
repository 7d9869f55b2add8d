import type { RootDifference, Turned } from "../../views/diff/difference";
import { type Row, type Section, sectionsOf } from "../../views/diff/sections";
import { whereIs } from "../places";
import { oneLine, placeIn } from "./line";
import {
  CAUTION,
  type Change,
  counted,
  foundIn,
  type Paint,
  projectOf,
  type Report,
} from "./report";
import { drawn, plainRow } from "./row";
import { tableOf } from "./table";

/** What a change does, for a person: each aircraft's tables, then which checks turned. */
export function changeLines(
  report: Report,
  change: Change,
  paint: Paint,
  how: "full" | "concise" = "full",
): readonly string[] {
  const { difference, base, head } = change;
  const print = how === "full" ? table : plain;
  const tables = difference.roots.flatMap(it => {
    const sections = sectionsOf(it);
    if (sections.length === 0) return [];
    const lines = sections.flatMap(section => print(report, section, paint));
    return how === "full" ? [titleOf(it), "", ...lines] : lines;
  });
  const turned = report.turned.flatMap(it => turnedLine(report, it, paint) ?? []);
  const findings = turned.length === 0 ? [] : how === "full" ? ["Findings", ...turned, ""] : turned;
  const nothing = tables.length + findings.length === 0;
  return [
    ...(how === "full" ? [`${drawn(base.name)} → ${drawn(head.name)}`, ""] : []),
    ...tables,
    ...findings,
    ...(nothing ? ["Nothing changed that an aircraft or a check could tell."] : []),
    `${brought(report)}; now ${counted(foundIn(report))}`,
    ...(difference.roots.length > 0 ? [CAUTION] : []),
  ].map(plainRow);
}

/** What a change did to what an aircraft is measured by, and nothing else of it. */
export function yardstickLines(
  report: Report,
  paint: Paint,
  how: "full" | "concise",
): readonly string[] {
  const print = how === "full" ? table : plain;
  const roots = report.change?.difference.roots ?? [];
  return roots.flatMap(it => {
    if (it.yardstick.length === 0) return [];
    const [section] = sectionsOf(it);
    const lines = print(report, section!, paint).map(plainRow);
    return roots.length > 1 && how === "full" ? [plainRow(titleOf(it)), "", ...lines] : lines;
  });
}

export function titleOf({ name, airframe, base, head }: RootDifference): string {
  const called = airframe === undefined ? name : `${name} ${airframe}`;
  if (base === undefined) return `${called} is new`;
  if (head === undefined) return `${called} is gone`;
  return base.name === name ? called : `${called} (was ${base.name})`;
}

/** "1 finding is new, 2 are gone" */
export function brought({ turned }: Report): string {
  const count = (state: Turned["state"]) =>
    turned.filter(it => it.state === state && it.finding.waived === undefined).length;
  const are = (n: number) => (n === 1 ? "is" : "are");
  const [come, gone] = [count("new"), count("gone")];
  return `${come} ${come === 1 ? "finding" : "findings"} ${are(come)} new, ${gone} ${are(gone)} gone`;
}

function table(report: Report, { title, columns, rows }: Section, paint: Paint): readonly string[] {
  const [head, ...lines] = tableOf([columns, ...rows.map(row => row.cells)]);
  return [
    title,
    ...(head === "" ? [] : [paint("dim", `  ${head}`)]),
    ...rows.map((row, i) => `  ${lines[i]}${placeOf(report, row, paint)}`),
    "",
  ];
}

function placeOf(report: Report, { at }: Row, paint: Paint): string {
  if (at === undefined) return "";
  const project = projectOf(report, { state: at.side === "base" ? "gone" : "new" });
  return paint("dim", `  ${placeIn(whereIs(project, at.span))}`);
}

function plain(report: Report, { title, rows }: Section, paint: Paint): readonly string[] {
  return rows.map(row => {
    const text = row.cells.filter(it => it !== "").map(drawn);
    return `${title.toLowerCase()}: ${text.join("  ")}${placeOf(report, row, paint)}`;
  });
}

/** Undefined of what stayed as it was, and of what only its figures changed in. */
export function turn({ state, finding, before }: Turned): string | undefined {
  if (state === "new" || state === "gone") return state;
  if ((before?.waived === undefined) !== (finding.waived === undefined))
    return finding.waived === undefined ? "not waived any more" : "waived now";
  return state === "updated" && before?.severity === finding.severity ? "changed" : undefined;
}

function turnedLine(report: Report, it: Turned, paint: Paint): string | undefined {
  const what = turn(it);
  const project = projectOf(report, it);
  return what && `  ${what.padEnd(7)}  ${oneLine(project, it.finding, paint)}`;
}
