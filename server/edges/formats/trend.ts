import { show, showNumber } from "../../quantity/show";
import { type Crossing, isOver, type Point, type Trend } from "../../views/trend";
import { CAUTION } from "./report";
import { drawn, plainRow } from "./row";
import { tableOf as columnsOf } from "./table";

/** For a person: a row a commit, and below it the commits that crossed a budget. */
export function trendTable(trends: readonly Trend[]): string {
  const lines = trends.flatMap(it => [titleOf(it), "", ...tableOf(it), "", ...crossingsOf(it)]);
  return [...lines, CAUTION].map(plainRow).join("\n");
}

export const titleOf = ({ name, airframe }: Trend) =>
  airframe === undefined ? name : `${name} ${airframe}`;

function tableOf({ points, units }: Trend): readonly string[] {
  const head = [
    "commit",
    "date",
    "basic",
    "predicted",
    "CG, FS",
    "weighed",
    "over budget",
    "subject",
  ];
  const rows = points.map(it => [
    it.commit.slice(0, 9),
    it.date,
    show(it.basic, units.mass) + (it.complete ? "" : " (incomplete)"),
    show(it.predicted, units.mass),
    it.fs === null ? "unknown" : show(it.fs, units.length),
    `${showNumber(it.weighed * 100, 1)} %`,
    overIn(it).join(", "),
    it.subject,
  ]);
  return columnsOf([head, ...rows]).map(row => `  ${row}`);
}

const overIn = (point: Point) =>
  [...point.budgets.keys()].filter(path => isOver(point, path)).map(path => path || "aircraft");

const crossingsOf = (trend: Trend): readonly string[] =>
  trend.crossings.length === 0 ? [] : [...trend.crossings.map(it => crossingText(it, trend)), ""];

/** "wing goes over its budget at 1a2b3c4d5 (Thicken the skin): 98 lb of 100 lb → 103.9 lb of 100 lb" */
export function crossingText({ path, over, point, before }: Crossing, { units }: Trend): string {
  const { mass, budget } = point.budgets.get(path)!;
  const was = before?.budgets.get(path);
  const from = was ? `${show(was.mass, units.mass)} of ${show(was.budget, units.mass)} → ` : "";
  const goes = before ? "goes over its budget" : "is over its budget already";
  const what = over ? goes : "is within its budget again";
  const figures = `${from}${show(mass, units.mass)} of ${show(budget, units.mass)}`;
  return `${path || "the aircraft"} ${what} at ${point.commit.slice(0, 9)} (${drawn(point.subject)}): ${figures}`;
}

/** For a spreadsheet: SI units in the headings, a line a commit and aircraft, two columns a budget. */
export function trendCsv(trends: readonly Trend[]): string {
  const paths = [...new Set(trends.flatMap(it => it.points.flatMap(at => [...at.budgets.keys()])))];
  const heads = paths.flatMap(path => [
    `${path || "aircraft"} kg`,
    `${path || "aircraft"} budget kg`,
  ]);
  const first = ["commit", "date", "subject", "aircraft", "airframe", "basic kg", "predicted kg"];
  const rows = trends.flatMap(trend =>
    trend.points.map(point => [
      ...[point.commit, point.date, point.subject, trend.name, trend.airframe ?? ""],
      ...[point.basic, point.predicted, point.fs ?? "", point.weighed],
      point.complete ? "yes" : "no",
      overIn(point).join(" "),
      ...crossed(trend.crossings, point),
      ...paths.flatMap(path => {
        const found = point.budgets.get(path);
        return [found?.mass ?? "", found?.budget ?? ""];
      }),
    ]),
  );
  const more = [
    "CG FS m",
    "weighed share",
    "complete",
    "over budget",
    "crossed up",
    "crossed down",
  ];
  return [[...first, ...more, ...heads], ...rows].map(row => row.map(cell).join(",")).join("\r\n");
}

/** What this very commit brought over its budget, and what back within. */
function crossed(crossings: readonly Crossing[], point: Point): readonly string[] {
  const of = (over: boolean) =>
    crossings
      .filter(it => it.point === point && it.over === over)
      .map(it => it.path || "aircraft")
      .join(" ");
  return [of(true), of(false)];
}

/** RFC 4180; a text that a spreadsheet would compute is only a text. */
function cell(value: string | number): string {
  if (typeof value === "number") return String(value);
  const text = drawn(value).replace(/^[=+\-@]/, "'$&");
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
