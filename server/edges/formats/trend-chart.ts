import { show, showNumber } from "../../quantity/show";
import type { Point, Trend } from "../../views/trend";
import { CAUTION } from "./report";
import { drawn } from "./row";
import { crossingText, titleOf } from "./trend";
import { attributes, xmlText } from "./xml";

/**
 * A picture of a trend, an aircraft below the other: weight, how much of each budget is spent, and the
 * share weighed, commit by commit. Commits that crossed a budget are numbered and named below. It reads
 * in light and dark, by dashes and names and not by color alone, and says the same in its description.
 */
export function trendSvg(trends: readonly Trend[]): string {
  const panels = trends.map(panelsOf);
  let top = MARGIN;
  const drawings = panels.map(it => {
    const at = `<g transform="translate(0 ${top})">\n${it.drawing}\n</g>`;
    top += it.height;
    return at;
  });
  const height = top + 24;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img" aria-labelledby="title desc">`,
    `<title id="title">${text(`Weight of ${trends.map(titleOf).join(", ")}, commit by commit`)}</title>`,
    `<desc id="desc">${text(panels.map(it => it.told).join(" "))}</desc>`,
    `<style>${STYLE}</style>`,
    `<rect class="paper" width="${WIDTH}" height="${height}"/>`,
    ...drawings,
    label("note", LEFT, height - 12, CAUTION),
    "</svg>",
  ].join("\n");
}

const WIDTH = 960;
const MARGIN = 16;
const LEFT = 72;
/** What stands right of it are the lines' names. */
const RIGHT = WIDTH - 210;

const STYLE = [
  ":root{color-scheme:light dark}",
  "text{font:12px system-ui,sans-serif;fill:#1f2328}.head{font-size:15px;font-weight:600}",
  ".note,.axis{fill:#59636e}.paper{fill:#fff}.grid{stroke:#d1d9e0}.limit{stroke:#b3261e;stroke-width:1.5}",
  ".line{fill:none;stroke-width:2}.cross{stroke:#59636e;stroke-dasharray:2 3}",
  ...["#0969da", "#8250df", "#9a6700", "#1a7f37", "#bf3989", "#57606a"].map(
    (color, i) => `.c${i}{stroke:${color}}.n${i}{fill:${color}}`,
  ),
  ".limit-name{fill:#b3261e}",
  "@media (prefers-color-scheme:dark){text{fill:#e6edf3}.note,.axis{fill:#9198a1}.paper{fill:#0d1117}",
  ".grid{stroke:#3d444d}.limit{stroke:#ff7b72}.limit-name{fill:#ff7b72}.cross{stroke:#9198a1}",
  ...["#58a6ff", "#bc8cff", "#d29922", "#3fb950", "#f778ba", "#b1bac4"].map(
    (color, i) => `.c${i}{stroke:${color}}.n${i}{fill:${color}}`,
  ),
  "}",
].join("");
const DASHES = ["", "6 3", "2 3", "9 3 2 3", "12 4", "4 2 1 2"];

/** A line over the commits; undefined: there is nothing to show at that one. */
interface Series {
  readonly name: string;
  readonly values: readonly (number | undefined)[];
  readonly limit?: boolean;
}

function panelsOf(trend: Trend) {
  const { points, units, crossings } = trend;
  const mass = (kg: number) => show(kg, units.mass);
  const numbered = [...new Set(crossings.map(it => it.point))].slice(-NUMBERED);
  const marks = numbered.map((point, i) => ({ at: points.indexOf(point), name: `${i + 1}` }));
  const aircraft = points.map(it => it.budgets.get("")?.budget);
  const weight: readonly Series[] = [
    { name: "basic empty weight", values: points.map(it => it.basic) },
    { name: "predicted", values: points.map(it => it.predicted) },
    { name: "budget of the parts", values: aircraft, limit: true },
  ];
  const paths = spentMost(points);
  const spent: readonly Series[] = [
    ...paths.map(path => ({
      name: path || "the aircraft",
      values: points.map(it => shareOf(it, path)),
    })),
    {
      name: "the whole budget",
      values: points.map(() => (paths.length > 0 ? 1 : undefined)),
      limit: true,
    },
  ];
  const percent = (share: number) => `${showNumber(share * 100, 1)} %`;
  const weighed = [{ name: "weighed", values: points.map(it => it.weighed) }];
  const plots = [
    plot("Weight", weight, 180, mass, units.mass.factor, marks),
    ...(paths.length > 0 ? [plot("Spent of each budget", spent, 150, percent, 0.01, marks)] : []),
    plot("Share weighed", weighed, 70, percent, 0.01, marks, [0, 1]),
  ];
  const lines = [label("head", MARGIN, 16, titleOf(trend))];
  let top = 28;
  for (const it of plots) {
    lines.push(`<g transform="translate(0 ${top})">\n${it.drawing}\n</g>`);
    top += it.height;
  }
  lines.push(...days(points, top));
  top += 26;
  const older = crossings.filter(it => !numbered.includes(it.point)).length;
  const told = [
    ...(older > 0 ? [`… and ${older} before: the table has them all`] : []),
    ...crossings.flatMap(it => {
      const number = numbered.indexOf(it.point) + 1;
      return number > 0 ? `${number}  ${crossingText(it, trend)}` : [];
    }),
  ];
  for (const it of told) {
    lines.push(label("", LEFT, top, shortened(it, 130)));
    top += 18;
  }
  return { drawing: lines.join("\n"), height: top + 16, told: toldOf(trend, mass, percent) };
}

/** More numbers would stand on one another. */
const NUMBERED = 20;

/** The budgets that are spent most now; the rest stand in the table. */
function spentMost(points: readonly Point[]): readonly string[] {
  const last = points.at(-1)!;
  return [...last.budgets.keys()]
    .filter(path => shareOf(last, path) !== undefined)
    .sort((a, b) => shareOf(last, b)! - shareOf(last, a)! || (a < b ? -1 : 1))
    .slice(0, MOST);
}
const MOST = 6;

function shareOf({ budgets }: Point, path: string): number | undefined {
  const found = budgets.get(path);
  return found && found.budget > 0 ? found.mass / found.budget : undefined;
}

function plot(
  title: string,
  all: readonly Series[],
  height: number,
  shown: (value: number) => string,
  unit: number,
  marks: readonly { readonly at: number; readonly name: string }[],
  [least, most] = rangeOf(all),
) {
  const [top, bottom] = [24, 24 + height];
  const y = (value: number) => round(bottom - ((value - least) / (most - least)) * height);
  const count = all[0]!.values.length;
  const x = (i: number) => xAt(i, count);
  const lines = [
    label("axis", LEFT, 14, title),
    ...roundBetween(least, most, unit).flatMap(value => [
      `<path class="grid" d="M${LEFT} ${y(value)}H${RIGHT}"/>`,
      label("axis", LEFT - 8, y(value) + 4, shown(value), "end"),
    ]),
    ...marks.flatMap(({ at, name }) => [
      `<path class="cross" d="M${x(at)} ${top}V${bottom}"/>`,
      label("axis", x(at), top - 3, name, "middle"),
    ]),
  ];
  const names: { readonly y: number; readonly kind: string; readonly name: string }[] = [];
  let color = 0;
  for (const { name, values, limit } of all) {
    const known = values.flatMap((it, i) => (it === undefined ? [] : [i]));
    if (known.length === 0) continue;
    const n = color % DASHES.length;
    if (!limit) color++;
    const look = limit
      ? { class: "line limit", "stroke-dasharray": "1 0" }
      : { class: `line c${n}`, "stroke-dasharray": DASHES[n] || "none" };
    lines.push(`<path${attributes({ ...look, d: pathOf(values, x, y) })}/>`);
    const last = values[known.at(-1)!]!;
    const end = `${shortened(name, 20)} ${shown(last)}`;
    names.push({ y: y(last) + 4, kind: limit ? "limit-name" : `n${n}`, name: end });
  }
  for (const it of apart(names, bottom + 4)) lines.push(label(it.kind, RIGHT + 10, it.y, it.name));
  return { drawing: lines.join("\n"), height: bottom + 14 };
}

/** Round figures in a unit, three to six of them: steps of 1, 2 or 5. */
function roundBetween(least: number, most: number, unit: number): readonly number[] {
  const wide = (most - least) / unit / 4;
  const ten = 10 ** Math.floor(Math.log10(wide));
  const step = [1, 2, 5, 10].map(it => it * ten).find(it => it >= wide)!;
  const first = Math.ceil(least / unit / step - 1e-9);
  const last = Math.floor(most / unit / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step * unit);
}

/** A little more than from the least to the most, so that no line runs along an edge. */
function rangeOf(all: readonly Series[]): readonly [number, number] {
  const values = all.flatMap(it => it.values.flatMap(value => value ?? []));
  const least = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const most = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const room = (most - least) * 0.08 || Math.abs(most) * 0.05 || 1;
  return [least - room, most + room];
}

const round = (x: number) => Math.round(x * 10) / 10;
const xAt = (i: number, count: number) =>
  round(count < 2 ? (LEFT + RIGHT) / 2 : LEFT + (i / (count - 1)) * (RIGHT - LEFT));

/** A state holds until the next commit: steps, broken where there is nothing to show. */
function pathOf(
  values: readonly (number | undefined)[],
  x: (i: number) => number,
  y: (value: number) => number,
): string {
  let d = "";
  values.forEach((value, i) => {
    if (value === undefined) return;
    d += i > 0 && values[i - 1] !== undefined ? `H${x(i)}V${y(value)}` : `M${x(i)} ${y(value)}`;
  });
  // a single commit is a short line
  return values.length === 1 ? `${d}h6` : d;
}

/** Names that would stand on one another, one below the other and none below the last line. */
function apart<T extends { readonly y: number }>(
  names: readonly T[],
  lowest: number,
): readonly T[] {
  const down = [...names].sort((a, b) => a.y - b.y);
  let next = Number.NEGATIVE_INFINITY;
  const moved = down.map(it => {
    const y = Math.max(it.y, next);
    next = y + STEP;
    return { ...it, y };
  });
  let limit = lowest;
  for (let i = moved.length - 1; i >= 0; i--) {
    moved[i] = { ...moved[i]!, y: round(Math.min(moved[i]!.y, limit)) };
    limit = moved[i]!.y - STEP;
  }
  return moved;
}
const STEP = 14;

/** The first and the last day, and the ones between that there is room for. */
function days(points: readonly Point[], top: number): readonly string[] {
  const every = Math.max(1, Math.ceil(points.length / 6));
  const last = points.length - 1;
  return points.flatMap(({ date }, i) => {
    const shown = i === last || (i % every === 0 && last - i >= every / 2);
    if (!shown || points[i - 1]?.date === date) return [];
    const anchor = i === 0 ? "start" : i === last ? "end" : "middle";
    return label("axis", xAt(i, points.length), top, date, anchor);
  });
}

function toldOf(
  trend: Trend,
  mass: (kg: number) => string,
  percent: (share: number) => string,
): string {
  const { points, crossings } = trend;
  const state = (it: Point) =>
    `basic empty weight ${mass(it.basic)}, predicted ${mass(it.predicted)}, ${percent(it.weighed)} weighed`;
  const [first, last] = [points[0]!, points.at(-1)!];
  const crossed = crossings.map(it => `${crossingText(it, trend)}.`);
  return [
    `${titleOf(trend)}: on ${first.date} ${state(first)}; on ${last.date} ${state(last)}.`,
    ...crossed,
  ].join(" ");
}

function label(kind: string, x: number, y: number, words: string, anchor = "start"): string {
  const look = { ...(kind && { class: kind }), x, y: round(y), "text-anchor": anchor };
  return `<text${attributes(look)}>${text(words)}</text>`;
}

const shortened = (words: string, most: number) =>
  words.length <= most ? words : `${[...words].slice(0, most - 1).join("")}…`;

/** Of a name or a subject nothing is markup, and nothing turns the line around. */
const text = (words: string) => xmlText(drawn(words));
