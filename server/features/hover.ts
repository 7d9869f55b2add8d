import type { Position } from "../../grammar/source";
import type { Measure, Span } from "../../grammar/tree";
import { askOf } from "../compute/ask";
import { emptyOf } from "../compute/stages";
import {
  type Balance,
  balanceOf,
  basicBalance,
  oneSide,
  predictedBalance,
} from "../compute/weight";
import type { Assembly, Member, Reserve } from "../model/assembly";
import { evaluate } from "../model/evaluate";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import type { Let } from "../model/scope";
import type { Station } from "../model/station";
import type { Project } from "../project";
import { nameOf } from "../quantity/dimension";
import { show, showNumber } from "../quantity/show";
import { unitOf } from "../quantity/units";
import { targetAt } from "./definition";
import { keywordHelp } from "./keyword-help";
import { type At, documentationOf, memberWith, nodesAt, rootWith } from "./place";

export interface Hover {
  readonly at: Span;
  readonly markdown: string;
}

/** What there is to know about the word under the cursor. */
export function hover(project: Project, path: string, position: Position): Hover | null {
  const at = nodesAt(project, path, position);
  if (at === undefined) return null;
  const root = rootWith(project, path);
  return unitHover(at) ?? (root ? thingHover(project, root, at) : null) ?? keywordHover(at);
}

/** On a name, whether it is declared there or used. */
function thingHover(project: Project, root: Root, at: At): Hover | null {
  const { statement, nodes } = at;
  const inner = nodes.at(-1)!;
  if (
    nodes.length > 1 &&
    "name" in statement &&
    statement.kind === "let" &&
    statement.name === inner
  )
    return { at: inner, markdown: letText(root, statement) };
  if (nodes.length === 1) return null;
  const own =
    "clauses" in statement && statement.path && nodes.includes(statement.path)
      ? statement
      : undefined;
  const target = own ? undefined : targetAt(root, at);
  const head =
    own ??
    (target &&
      [...target.line.pieces]
        .flatMap(it => (it.kind === "statement" ? [it.item.head] : []))
        .find(it => it.from <= target.from && target.to <= it.to));
  if (head === undefined) return null;
  const span = nodes.findLast(node => "words" in node) ?? inner;
  if (head.kind === "let") return { at: span, markdown: letText(root, head) };
  const member = memberWith(root, head);
  if (member === undefined) return null;
  const words = documentationOf(project, head);
  const text = textOf(member, root);
  return { at: span, markdown: words ? `${text}\n\n${words}` : text };
}

function textOf(member: Member, root: Root): string {
  switch (member.kind) {
    case "assembly":
      return assemblyText(member, root);
    case "part":
    case "ballast":
      return partText(member);
    case "reserve":
      return reserveText(member);
    default:
      return stationText(member);
  }
}

function assemblyText(assembly: Assembly, root: Root): string {
  const { budget, core, mirrored } = assembly;
  const unit = budget?.unit ?? core.units.mass;
  const weight = oneSide(assembly);
  const [basic, predicted] = [basicBalance(weight), predictedBalance(weight)];
  const rows: [string, string][] = [
    ["basic", show(basic.mass, unit)],
    ["growth", show(balanceOf(weight.growth, 0).mass, unit)],
    ["reserves", show(balanceOf(weight.reserve, 0).mass, unit)],
    ["predicted", `**${show(predicted.mass, unit)}**`],
  ];
  if (budget) {
    const left = budget.mass - predicted.mass;
    const percent =
      budget.mass === 0 ? "" : ` (${showNumber((100 * left) / budget.mass, 1)} % of the budget)`;
    rows.push(["budget", show(budget.mass, unit)], ["margin", `${show(left, unit)}${percent}`]);
  }
  rows.push(["CG, basic", cgText(basic, root)]);
  if (assembly === root.aircraft) {
    const empty = emptyOf(root);
    rows.push([
      "basic empty weight",
      `${show(empty.basic.mass, unit)}, ${cgText(empty.basic, root)}`,
    ]);
  }
  const side = mirrored ? ", each side" : "";
  const lines = [
    `**${assembly.title ?? (assembly.path || assembly.name)}**${side}`,
    "",
    table(rows),
  ];
  if (weight.unknown > 0)
    lines.push("", `${weight.unknown} without a mass: the figures are floors.`);
  return lines.join("\n");
}

function partText(part: Part): string {
  const { governing, unit, mass, qty } = part;
  const title = `**${part.head.title?.text ?? part.path}**${part.mirrored ? ", each side" : ""}`;
  if (mass === undefined) return `${title}\n\nno mass yet`;
  const rows: [string, string][] = [["basic", show(mass, unit)]];
  if (qty !== 1 && governing?.mass !== undefined)
    rows.push([`each of ${qty}`, show(governing.mass, unit)]);
  if (part.growth > 0) rows.push(["growth", show(part.growth, unit)]);
  if (part.budget) rows.push(["budget", show(part.budget.mass, part.budget.unit)]);
  const lines = [title, "", table(rows)];
  const history = part.records.map(record => {
    const { clause } = record;
    const figure = record.mass === undefined ? "?" : show(record.mass, record.unit ?? unit);
    const words = [
      `${record.basis} ${figure}`,
      clause.on && `on ${clause.on.text}`,
      clause.by && `by ${clause.by.text}`,
      ...clause.notes.map(note => `– ${note.text}`),
    ];
    const text = words.filter(Boolean).join(" ");
    return record === governing ? `- **${text}**` : record.history ? `- ~~${text}~~` : `- ${text}`;
  });
  return [...lines, "", ...history].join("\n");
}

function reserveText(reserve: Reserve): string {
  const mass = reserve.mass === undefined ? "no mass yet" : show(reserve.mass, reserve.unit);
  return `**${reserve.head.title?.text ?? reserve.path}**\n\nreserve of ${mass}, in predicted and not in basic`;
}

function stationText(station: Station): string {
  const { holds, range, unusable, core } = station;
  const amount = (q: Station["holds"]) => (q ? show(q.value, q.unit ?? core.units.mass) : "?");
  const rows: [string, string][] = [];
  if (holds)
    rows.push(["holds", `${amount(holds)}${station.fluid ? ` of ${station.fluid.text}` : ""}`]);
  if (unusable) rows.push(["unusable", amount(unusable)]);
  if (range) rows.push(["range", `${amount(range[0])} to ${amount(range[1])}`]);
  const { fs } = station.place;
  rows.push(["FS", fs === undefined ? "unknown" : show(fs, core.units.length)]);
  return [
    `**${station.head.title?.text ?? station.path}**${station.mirrored ? ", each side" : ""}`,
    "",
    table(rows),
  ].join("\n");
}

function letText(root: Root, { name, value }: Let): string {
  const quiet = { scope: root.scope, report: () => {}, ask: askOf(root, "basic", () => {}) };
  const result = value && evaluate(value, quiet);
  if (result === undefined) return `**${name?.text}**\n\nnot known`;
  const unit = result.unit;
  const figure = unit
    ? show(result.value, unit)
    : `${showNumber(result.value)} (SI), ${nameOf(result.dimension)}`;
  return `**${name?.text}** = ${figure}`;
}

function cgText({ fs, bl, wl, complete }: Balance, root: Root): string {
  const { length } = root.units;
  const words = [["FS", fs] as const, ["BL", bl] as const, ["WL", wl] as const].flatMap(
    ([axis, x]) => (x === null ? [] : [`${axis} ${show(x, length)}`]),
  );
  if (words.length === 0) return "unknown";
  return `${words.join(", ")}${complete ? "" : " (incomplete)"}`;
}

function table(rows: readonly (readonly [string, string])[]): string {
  return ["| | |", "|:--|--:|", ...rows.map(([left, right]) => `| ${left} | ${right} |`)].join(
    "\n",
  );
}

function unitHover({ nodes, offset }: At): Hover | undefined {
  const measure = nodes.findLast((node): node is Measure => "unit" in node && "value" in node);
  const at = measure?.unitAt;
  if (measure === undefined || at === undefined || offset < at.from) return undefined;
  const unit = unitOf(measure.unit);
  if ("unknown" in unit) return undefined;
  const si = `${measure.value * unit.factor}`;
  return {
    at,
    markdown: `**${unit.name}**: ${nameOf(unit.dimension)}\n\n${measure.value} ${unit.name} = ${si} in SI units`,
  };
}

function keywordHover({ statement, offset }: At): Hover | null {
  const { text } = statement.line;
  const before = text.slice(0, offset).match(/[\p{L}_]*$/u)![0];
  const word = before + text.slice(offset).match(/^[\p{L}_]*/u)![0];
  const help = keywordHelp.get(word);
  const from = offset - before.length;
  return help === undefined
    ? null
    : {
        at: { line: statement.line, from, to: from + word.length },
        markdown: `**${word}**: ${help}`,
      };
}
