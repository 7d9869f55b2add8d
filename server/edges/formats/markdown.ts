import type { Turned } from "../../views/diff/difference";
import { type Section, sectionsOf } from "../../views/diff/sections";
import { brought, titleOf, turn } from "./change";
import {
  CAUTION,
  counted,
  countOf,
  foundIn,
  many,
  pathIn,
  projectOf,
  type Report,
  rangeOf,
} from "./report";
import { drawn } from "./row";

/**
 * A job's summary: a verdict on one line, what changed, the new findings, the rest folded. Never more
 * than 60 kB: rows that would not fit are counted.
 */
export function markdown(report: Report): string {
  const page = paper();
  page.line(verdict(report), "");
  for (const it of report.change?.difference.roots ?? []) {
    const sections = sectionsOf(it);
    if (sections.length === 0 || (!report.change?.told && it.yardstick.length === 0)) continue;
    page.line(`### ${escaped(titleOf(it))}`, "");
    for (const section of sections)
      if (!report.change?.told && section.title !== "The yardstick") continue;
      else if (section.title === "Parts") folded(page, section, "changed part");
      else if (section.title === "Loadings" && section.rows.length > LOADINGS)
        folded(page, section, "changed distance of a loading from its limits");
      else table(page, section, report);
  }
  if (!report.change?.told && report.roots.length > 0)
    page.line(...report.roots.map(it => `- ${escaped(it.summary)}`), "");
  findings(page, report);
  return page.text(CAUTION);
}

/** GitHub takes a megabyte in a summary, a comment 65,536 characters. */
const MOST = 60_000;

interface Paper {
  /** False, and nothing taken, where there is no room. */
  readonly line: (...lines: readonly string[]) => boolean;
  /** What ends a table or a fold always has room. */
  readonly close: (left: number, ...lines: readonly string[]) => void;
  readonly text: (last: string) => string;
}

/** Takes lines as long as there is room for them. */
function paper(): Paper {
  const lines: string[] = [];
  // what closes a table and says how many rows are missing still fits
  let room = MOST - 2_000;
  return {
    line: (...more) => {
      const size = more.reduce((sum, it) => sum + Buffer.byteLength(it) + 1, 0);
      if (size > room) return false;
      room -= size;
      lines.push(...more);
      return true;
    },
    close: (left, ...more) => {
      lines.push("", ...(left > 0 ? [`… and ${left} more`, ""] : []), ...more);
    },
    text: last => [...lines, last].join("\n"),
  };
}

function verdict(report: Report): string {
  const found = foundIn(report);
  const errors = countOf(found, "error");
  const word = errors > 0 ? "Not sound" : countOf(found, "warning") > 0 ? "Sound so far" : "Sound";
  const looser = (report.change?.difference.roots ?? [])
    .flatMap(it => it.yardstick)
    .filter(it => it.effect === "looser").length;
  const yardstick = looser > 0 ? `; the yardstick was loosened in ${many(looser, "place")}` : "";
  const turns = report.change ? `${brought(report)}; now ` : "";
  return `**${word}**: ${turns}${counted(found)}${yardstick}`;
}

function table(page: Paper, { title, columns, rows }: Section, report: Report): void {
  const heads = columns.map(it => escaped(it) || " ");
  const places = rows.some(it => it.at !== undefined);
  if (
    !page.line(
      `#### ${title}`,
      "",
      row(places ? [...heads, "where"] : heads),
      row([...heads, ...(places ? [""] : [])].map(() => "---")),
    )
  )
    return;
  let shown = 0;
  for (const { cells, at } of rows.slice(0, ROWS)) {
    const where = at ? placeIn(report, at.span, at.side === "base" ? "gone" : "new") : "";
    if (!page.line(row([...cells.map(escaped), ...(places ? [where] : [])]))) break;
    shown++;
  }
  page.close(rows.length - shown);
}

/** Of one table, so that the next ones have room too. */
const ROWS = 60;

/** More than these would push the new findings off the first screen. */
const LOADINGS = 10;

function folded(page: Paper, section: Section, one: string): void {
  const summary = `<details><summary>${many(section.rows.length, one, one.replace(/^changed \w+/, "$&s"))}</summary>`;
  const heads = section.columns.map(it => escaped(it) || " ");
  if (!page.line(summary, "", row(heads), row(heads.map(() => "---")))) return;
  let shown = 0;
  for (const { cells } of section.rows.slice(0, PARTS)) {
    if (!page.line(row(cells.map(escaped)))) break;
    shown++;
  }
  page.close(section.rows.length - shown, "</details>", "");
}

/** Largest first: what comes after says little. */
const PARTS = 120;

function findings(page: Paper, report: Report): void {
  const all = report.turned.map(it => ({ it, what: report.change ? turn(it) : "new" }));
  const isNote = (it: Turned) => it.finding.severity === "info" || it.finding.waived !== undefined;
  const open = all.filter(({ it, what }) => what === "new" && !isNote(it));
  const rest = all.filter(it => !open.includes(it));
  list(page, report, report.change ? "#### New findings" : "#### Findings", open);
  const summary = `<details><summary>${many(rest.length, "other finding")}</summary>`;
  list(page, report, summary, rest, "</details>", "");
}

function list(
  page: Paper,
  report: Report,
  title: string,
  all: readonly { readonly it: Turned; readonly what: string | undefined }[],
  ...end: readonly string[]
): void {
  if (all.length === 0 || !page.line(title, "")) return;
  let shown = 0;
  for (const { it, what } of all) {
    const { severity, code, message, at, waived } = it.finding;
    const state = report.change ? `${what ?? "still there"}, ` : "";
    const accepted = waived === undefined ? "" : ` (waived: ${escaped(waived)})`;
    const where = placeIn(report, at, it.state);
    const text = `- ${state}**${severity}** \`${code}\` ${where}: ${escaped(message)}${accepted}`;
    if (!page.line(text)) break;
    shown++;
  }
  page.close(all.length - shown, ...end);
}

function placeIn(report: Report, at: Turned["finding"]["at"], state: Turned["state"]): string {
  const { start } = rangeOf(projectOf(report, { state }), at);
  return escaped(
    `${pathIn(report, at.line.file, state === "gone")}:${start.line + 1}:${start.character + 1}`,
  );
}

const row = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;

/** Nothing of a name, a title or a path is markup, a link or somebody to call. */
function escaped(text: string): string {
  return drawn(text)
    .replace(/[\\`*_{}[\]<>()#!|~&$]/g, "\\$&")
    .replace(/@|#(?=\d)|:(?=\/\/)|(?<=www)\./gi, "$&\u200b")
    .replace(/^([-+]|\d+[.)])(?=\s)/, "\\$1");
}
