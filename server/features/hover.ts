import { type Position, positionsOf } from "../../grammar/source";
import type { Declaration, Item, Measure, Span, Statement, StatementOf } from "../../grammar/tree";
import { aboardText, premisesOf, worstSentence } from "../checks/all-loadings";
import { allLoadingsOf } from "../compute/all-loadings";
import { flightsOf } from "../compute/flights";
import { configurationsOf } from "../compute/shapes";
import { chanceOver } from "../compute/spread";
import { emptyOf } from "../compute/stages";
import {
  type Balance,
  balanceOf,
  basicBalance,
  massOfMember,
  oneSide,
  predictedBalance,
} from "../compute/weight";
import type { Assembly, Member } from "../model/assembly";
import type { Part } from "../model/part";
import type { Reserve } from "../model/reserve";
import type { Root } from "../model/root";
import type { Let } from "../model/scope";
import type { Station } from "../model/station";
import { unitsBeyond } from "../model/units-beyond";
import { type Project, sourceOf } from "../project";
import { chanceText } from "../quantity/chance";
import { DENSITY, type Dimension, nameOf } from "../quantity/dimension";
import { show, showNumber } from "../quantity/show";
import { type Unit, unitOf } from "../quantity/units";
import { declarationOf } from "./definition";
import { keywordHelp } from "./keyword-help";
import {
  configurationText,
  inertiaLines,
  restsOn,
  spreadText,
  swungBalance,
} from "./mass-properties";
import { type At, documentationOf, memberWith, nodesAt, rootWith, valueOfLet } from "./place";
import { roomLines } from "./room";
import { keptOf } from "./shop-hover";
import { functionHelp } from "./signatures";

export interface Hover {
  readonly at: Span;
  readonly markdown: string;
}

/** What there is to know about the word under the cursor. */
export function hover(project: Project, path: string, position: Position): Hover | undefined {
  const at = nodesAt(project, path, position);
  if (at === undefined) return undefined;
  const root = rootWith(project, path);
  return unitHover(at) ?? (root && thingHover(project, root, at)) ?? keywordHover(at);
}

/** On a name, whether it is declared there or used. */
function thingHover(project: Project, root: Root, at: At): Hover | undefined {
  const target = declarationOf(root, at);
  const source = target && sourceOf(project, target.line.file);
  const declared = source && nodesAt(project, source.path, positionsOf(source, target).start);
  if (declared === undefined) return undefined;
  const text = textOf(root, declared);
  if (text === undefined) return undefined;
  const words = documentationOf(project, declared.statement);
  return {
    at: at.nodes.findLast(node => "words" in node) ?? at.nodes.at(-1)!,
    markdown: words ? `${text}\n\n${words}` : text,
  };
}

function textOf(root: Root, { statement, blocks }: At): string | undefined {
  if (statement.kind === "let") return letText(root, statement, blocks);
  if (statement.kind === "fluid") return fluidText(root, statement);
  if (statement.kind === "loading") return loadingText(root, statement);
  if (statement.kind === "configuration") {
    const configuration = configurationsOf(root).find(it => it.item.head === statement);
    return configuration && configurationText(root, configuration);
  }
  if (statement.kind === "envelope") return envelopeText(root, statement);
  const kept = keptOf(root, statement);
  if (kept) return [`**${kept.title}**`, "", table(kept.rows)].join("\n");
  const member = memberWith(root, statement);
  return member && memberText(member, root);
}

function memberText(member: Member, root: Root): string {
  switch (member.kind) {
    case "assembly":
      return [
        assemblyText(member, root),
        ...room(member, root, member.budget?.unit ?? member.core.units.mass),
      ].join("\n\n");
    case "part":
    case "ballast":
      return [partText(member), ...room(member, root, member.unit)].join("\n\n");
    case "reserve":
      return reserveText(member);
    default:
      return stationText(member);
  }
}

function room(member: Part | Assembly, root: Root, unit: Unit): readonly string[] {
  const lines = roomLines(root, member, unit);
  return lines.length > 0 ? [lines.join("  \n")] : [];
}

function assemblyText(assembly: Assembly, root: Root): string {
  const { budget, core, mirrored } = assembly;
  const unit = budget?.unit ?? core.units.mass;
  const weight = oneSide(assembly);
  const [basic, predicted] = [basicBalance(weight), predictedBalance(weight)];
  const reserves = balanceOf(weight.reserve, 0).mass;
  const rows: [string, string][] = [
    ["basic", `${show(basic.mass, unit)}${spreadText(assembly, unit)}`],
    ["growth", show(balanceOf(weight.growth, 0).mass, unit)],
    ...(reserves === 0 ? [] : [["reserves", show(reserves, unit)] as [string, string]]),
    ["predicted", `**${show(predicted.mass, unit)}**`],
  ];
  if (budget) {
    const left = budget.mass - predicted.mass;
    const percent =
      budget.mass === 0 ? "" : ` (${showNumber((100 * left) / budget.mass, 1)} % of the budget)`;
    rows.push(["budget", show(budget.mass, unit)], ["margin", `${show(left, unit)}${percent}`]);
  }
  const chance = chanceOver(assembly);
  if (chance !== undefined) rows.push(["chance over budget", chanceText(chance)]);
  // Under the table, for places are longer than figures and would push their column away.
  const places = [`CG, basic: ${cgText(basic, root)}`];
  if (assembly === root.aircraft) {
    const empty = emptyOf(root).basic;
    places.push(`basic empty weight: ${show(empty.mass, unit)}, ${cgText(empty, root)}`);
  }
  const swung = swungBalance(assembly);
  if (swung) places.push(`swung, CG: ${cgText(swung, root)}`);
  const rests = restsOn(assembly);
  if (rests) places.push(rests);
  places.push(...inertiaLines(assembly, root));
  const side = mirrored ? ", each side" : "";
  const lines = [
    `**${assembly.title ?? (assembly.path || assembly.name)}**${side}`,
    "",
    table(rows),
    "",
    places.join("  \n"),
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
  if (part.mirrored) rows.push(["both sides", show(massOfMember(part), unit)]);
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

function letText(root: Root, head: Let, blocks: readonly Item[]): string {
  const value = valueOfLet(root, head, blocks);
  return value ? `**${head.name?.text}** = ${value}` : `**${head.name?.text}**\n\nnot known`;
}

function fluidText(root: Root, { path }: Declaration): string | undefined {
  if (path === undefined) return undefined;
  const density = root.fluids.get(path.text)?.density;
  const { mass, volume } = root.units;
  const unit = { name: `${mass.name}/${volume.name}`, factor: mass.factor / volume.factor };
  const figure =
    density === undefined ? "not known" : show(density, { ...unit, dimension: DENSITY });
  return `**${path.text}**\n\na fluid, density ${figure}`;
}

/** With basic masses: what is told as an error rests on them. */
function loadingText(root: Root, head: Statement): string | undefined {
  const flight = flightsOf(root).find(it => it.loading.item.head === head);
  if (flight === undefined) return undefined;
  const rows = flight.stages.map(({ stage, basic }): [string, string] => [
    stage.replace("_", " "),
    `${show(basic.mass, root.units.mass)}, ${cgText(basic, root)}`,
  ]);
  return [`**${flight.loading.title ?? flight.loading.name}**`, "", table(rows)].join("\n");
}

/** What it says of every permitted loading, and what that rests on. */
function envelopeText(root: Root, head: StatementOf<"envelope">): string | undefined {
  const all = allLoadingsOf(root).find(it => it.envelope.item.head === head);
  if (all === undefined) return undefined;
  const { envelope, verdict, found } = all;
  const title = `**${head.title?.text ?? envelope.name}**`;
  if (verdict === undefined) return title;
  const lines = {
    inside: ["every permitted loading is inside"],
    "can-exceed": found.map(it => `${worstSentence(it, envelope)}, ${aboardText(it)}`),
    "not-excluded": ["no permitted loading was found outside, and none is excluded"],
  }[verdict];
  return [title, lines.join("  \n"), premisesOf(root, envelope)].join("\n\n");
}

/** A coordinate that only some of the mass has is shown, and says so. */
function cgText({ fs, bl, wl, complete, blComplete, wlComplete }: Balance, root: Root): string {
  const { length } = root.units;
  const words = [
    ["FS", fs, true] as const,
    ["BL", bl, blComplete || !complete] as const,
    ["WL", wl, wlComplete || !complete] as const,
  ].flatMap(([axis, x, sure]) =>
    x === null ? [] : [`${axis} ${show(x, length)}${sure ? "" : " (incomplete)"}`],
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
  const unit = unitOf(measure.unit, unitsBeyond);
  if ("unknown" in unit) return undefined;
  // nine digits: a factor in binary has noise behind them
  const si = Number((measure.value * unit.factor).toPrecision(9));
  return {
    at,
    markdown: `**${unit.name}**: ${nameOf(unit.dimension)}\n\n${measure.value} ${unit.name} = ${`${si} ${baseUnits(unit.dimension)}`.trim()}`,
  };
}

/** `kg·m^-3`, or what to call it where a rarer base is in it. */
function baseUnits({ mass, length, time, angle, current, other }: Dimension): string {
  if (other !== "") return "in SI units";
  const powers = { kg: mass, m: length, s: time, rad: angle, A: current };
  return Object.entries(powers)
    .filter(([, n]) => n !== 0)
    .map(([name, n]) => (n === 1 ? name : `${name}^${n}`))
    .join("·");
}

/** A thing may be called like a keyword, and a text may hold any word: there it is none. */
function keywordHover({ statement, nodes, offset }: At): Hover | undefined {
  const inner = nodes.at(-1)!;
  const isFunction = nodes.some(it => "args" in it && "name" in it && it.name === inner);
  if ("text" in inner && !isFunction) return undefined;
  const { text } = statement.line;
  const before = text.slice(0, offset).match(/[\p{L}_]*$/u)![0];
  const word = before + text.slice(offset).match(/^[\p{L}_]*/u)![0];
  const from = offset - before.length;
  const at = { line: statement.line, from, to: from + word.length };
  const called = isFunction ? functionHelp(word) : undefined;
  if (called) return { at, markdown: `**${called.label}**: ${called.help}` };
  const help = keywordHelp.get(word);
  return help === undefined ? undefined : { at, markdown: `**${word}**: ${help}` };
}
