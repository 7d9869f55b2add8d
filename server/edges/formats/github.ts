import type { Span } from "../../../grammar/tree";
import type { Severity } from "../../findings";
import type { Turned } from "../../views/diff/difference";
import { sectionsOf } from "../../views/diff/sections";
import { stakeOf } from "../../views/diff/stake";
import { broughtIn, many, pathIn, projectOf, type Report, rangeOf } from "./report";
import { drawn } from "./row";

/**
 * Workflow commands that GitHub shows at their lines: of a change what it brought, and what it did to
 * the yardstick. A step may show ten of each kind: the heaviest are shown, and a last notice says how
 * many more there are.
 */
export function github(report: Report): string {
  const shown = new Map<Severity, Note[]>([
    ["error", []],
    ["warning", []],
    ["info", []],
  ]);
  for (const it of yardstickNotes(report)) shown.get(it.severity)!.push(it);
  const ranked = broughtIn(report)
    .map(it => ({ it, kg: stakeOf(it) }))
    .sort((a, b) => b.kg - a.kg);
  for (const { it } of ranked) shown.get(it.finding.severity)!.push(noteOf(report, it));
  const dropped: string[] = [];
  const some = [...shown].some(([, notes]) => notes.length > MOST);
  const kept = [...shown].flatMap(([severity, notes]) => {
    // the last notice is one of the ten
    const most = severity === "info" && some ? MOST - 1 : MOST;
    const more = notes.length - most;
    if (more > 0) dropped.push(many(more, names[severity]));
    return notes.slice(0, most);
  });
  const lines = kept.map(it => commandOf(report, it));
  if (dropped.length > 0)
    lines.push(
      `::notice title=poise::${escaped(`${dropped.join(", ")} more: see the whole report`)}`,
    );
  return lines.join("\n");
}

const MOST = 10;
const names = { error: "error", warning: "warning", info: "note" } as const;
const commands = { error: "error", warning: "warning", info: "notice" } as const;

interface Note {
  readonly severity: Severity;
  readonly title: string;
  readonly message: string;
  readonly at: Span;
  readonly state: Turned["state"];
}

function noteOf(report: Report, { finding, state }: Turned): Note {
  const { severity, code, message, related, at } = finding;
  const lines = [message, ...related.map(it => `${it.message} (${placeIn(report, it.at)})`)];
  return { severity, title: code, message: lines.map(drawn).join("\n"), at, state };
}

function placeIn(report: Report, at: Span): string {
  return `${pathIn(report, at.line.file)}:${rangeOf(report.project, at).start.line + 1}`;
}

function yardstickNotes({ change }: Report): readonly Note[] {
  return (change?.difference.roots ?? []).flatMap(root =>
    root.yardstick.flatMap(({ effect, base, head }, i) => {
      const said = sectionsOf(root)[0]!.rows[i]!.cells;
      const [, what, was, is, hides] = said.map(drawn);
      return {
        severity: effect === "looser" ? ("warning" as const) : ("info" as const),
        title: `yardstick ${effect}`,
        message: `${what}: ${was} → ${is}${hides ? `\n${hides}` : ""}`,
        at: (head ?? base)!.at,
        state: head ? ("new" as const) : ("gone" as const),
      };
    }),
  );
}

function commandOf(report: Report, { severity, title, message, at, state }: Note): string {
  const { start, end } = rangeOf(projectOf(report, { state }), at);
  const gone = state === "gone";
  const properties = {
    file: pathIn(report, at.line.file, gone),
    // a line of the base is another one in the head
    ...(gone ? {} : { line: start.line + 1, endLine: end.line + 1 }),
    ...(gone || start.line !== end.line
      ? {}
      : { col: start.character + 1, endColumn: end.character + 1 }),
    title,
  };
  const list = Object.entries(properties).map(([key, value]) => `${key}=${property(`${value}`)}`);
  return `::${commands[severity]} ${list.join(",")}::${escaped(message)}`;
}

/** As the runner takes them back (actions/toolkit, command.ts): what else would end the command is data. */
const escaped = (text: string) =>
  text.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A");
const property = (text: string) =>
  escaped(drawn(text)).replaceAll(":", "%3A").replaceAll(",", "%2C");
