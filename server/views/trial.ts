import { indexOf, lineAt } from "../../grammar/lines";
import { positionsOf, read } from "../../grammar/source";
import type { Declaration, Expr, Point, Span, Word } from "../../grammar/tree";
import { memberAt } from "../compute/member-at";
import { emptyOf } from "../compute/stages";
import type { Edit } from "../features/amend";
import { judge } from "../judge";
import type { Member } from "../model/assembly";
import { clauseOf, clausesOf } from "../model/clauses";
import { optionsOf } from "../model/options";
import type { Root } from "../model/root";
import { lookUp } from "../model/scope";
import { type Project, sourceOf, withEdit } from "../project";
import { show } from "../quantity/show";
import { type Difference, differenceOf } from "./diff/difference";
import { sectionsOf } from "./diff/sections";
import { line, textTable, type WhyLine } from "./why/lines";

/** What another value would do, with no file touched. */
export interface Trial {
  /** What is tried: "wing.spar 20 lb instead of 21.4 lb". */
  readonly title: string;
  readonly edit: Edit;
  readonly next: Project;
  readonly difference: Difference;
  /** One line: what it does to the empty weight, its CG and the findings. */
  readonly said: string;
  /** A finding came with it. */
  readonly worse: boolean;
}

/** Why there is nothing to try, in words. */
export interface NoTrial {
  readonly why: string;
}

/** What stands there now, to be written over: "21.4 lb", "FS 128.5, BL 74", "lithium". */
export function triedNow(root: Root, path: string): string | undefined {
  const spot = spotOf(root, path);
  if (spot === undefined) return undefined;
  const at = spot.figure ?? spot.point ?? spot.option;
  return at && textOf(at);
}

/**
 * Another figure, another place or another option, as if it had been written: a mass for a part, a value for
 * a `let`, `FS … [, BL …]` for a place, an option's name for a choice.
 * @param path of a thing of the aircraft, a let or a choice
 */
export function trialOf(
  project: Project,
  root: Root,
  path: string,
  value: string,
): Trial | NoTrial {
  const text = value.trim();
  const choice = choiceSpot(root, path);
  // a choice may be called like the part that its options bring
  const spot = choice?.options?.includes(text) ? choice : spotOf(root, path);
  if (spot === undefined) return { why: `nothing is called ${path}` };
  const place = /^(FS|BL|WL)\b/.test(text);
  const edit = place ? placeEdit(spot, text) : figureEdit(spot, text);
  if ("why" in edit) return edit;
  // what closes a block or begins another statement is no value
  if (text === "" || /[{};\n]|\/\//.test(text))
    return { why: "write a value, as it would stand in the file" };
  const { file } = edit.at.line;
  const source = sourceOf(project, file);
  if (source === undefined) return { why: `${file} cannot be read` };
  const { start, end } = positionsOf(source, edit.at);
  const next = withEdit(project, file, start, end, edit.text);
  const [was, is] = [judge(project), judge(next)];
  const difference = differenceOf({ project, ...was }, { project: next, ...is });
  const broken = difference.findings.find(
    it => it.state === "new" && notTried.has(it.finding.code),
  );
  if (broken) {
    const { code, message } = broken.finding;
    const isOther = choice && spot !== choice && code === "unknown-name";
    const options = isOther ? `; the options of ${path} are ${choice.options?.join(", ")}` : "";
    return { why: `${message}${options}` };
  }
  const before = edit.at.from === edit.at.to ? "" : ` instead of ${textOf(edit.at)}`;
  return {
    ...{ title: `${path} ${text}${before}`, edit, next, difference },
    ...saidOf(difference, root),
  };
}

/** What is wrong with the value itself, and no verdict on the aircraft. */
const notTried = new Set([
  "syntax",
  "unknown-name",
  "wrong-dimension",
  "unit-missing",
  "out-of-range",
]);

interface Spot {
  readonly figure?: Span | undefined;
  readonly point?: Point | undefined;
  /** Where a place would be written if there is none. */
  readonly after?: Span | undefined;
  readonly option?: Word | undefined;
  readonly options?: readonly string[];
}

function spotOf(root: Root, path: string): Spot | undefined {
  const found = memberAt(root, path)?.member;
  if (found && found !== root.aircraft) return memberSpot(found);
  const choice = choiceSpot(root, path);
  if (choice) return choice;
  const value: Expr | undefined = lookUp(root.scope, path)?.found.value;
  return value && { figure: value };
}

function choiceSpot(root: Root, path: string): Spot | undefined {
  for (const item of root.statements.choices) {
    const { head } = item;
    if (head.kind !== "choice" || head.name?.text !== path) continue;
    const options = optionsOf(item).flatMap(({ head: it }) =>
      "clauses" in it && it.path ? [it.path.text] : [],
    );
    return { option: head.standard, options };
  }
  return undefined;
}

function memberSpot(member: Member): Spot {
  const { item, head } = member;
  const clauses = clausesOf(item);
  const point = clauseOf(clauses, "at")?.point;
  const figure =
    "governing" in member
      ? (member.governing?.clause.figure ?? head.figure)
      : member.kind === "reserve"
        ? head.figure
        : undefined;
  return { figure, point, after: clauses.findLast(it => it.kind === "record") ?? nameOf(head) };
}

const nameOf = (head: Declaration) => head.title ?? head.path ?? head;

function figureEdit({ figure, option, options }: Spot, text: string): Edit | NoTrial {
  if (options) {
    if (option === undefined) return { why: "it says no default: write one first" };
    if (!options.includes(text)) return { why: `its options are ${options.join(", ")}` };
    return { at: option, text };
  }
  return figure ? { at: figure, text } : { why: "it has no figure of its own to try another for" };
}

/** Axes that are not named stay. */
function placeEdit({ point, after, option, options }: Spot, text: string): Edit | NoTrial {
  if (option || options || after === undefined) return { why: "it has no place" };
  if (point === undefined) {
    const { line, to } = after;
    return { at: { line, from: to, to }, text: ` at ${text}` };
  }
  const [statement] = read("/trial", `part x at ${text}`).items;
  const fresh =
    statement && "clauses" in statement.head
      ? clauseOf(statement.head.clauses, "at")?.point.coords
      : undefined;
  const kept = point.coords.filter(it => !fresh?.some(other => other.axis === it.axis));
  const order = ["FS", "BL", "WL"];
  const all = [...(fresh ?? []), ...kept].toSorted(
    (a, b) => order.indexOf(a.axis) - order.indexOf(b.axis),
  );
  return { at: point, text: all.map(textOf).join(", ") };
}

const textOf = ({ line, from, to }: Span) => line.text.slice(from, to);

function saidOf(difference: Difference, { reach }: Root): Pick<Trial, "said" | "worse"> {
  const own = difference.roots.find(
    it => it.airframe === undefined && it.head?.root.reach.file === reach.file,
  );
  const fresh = difference.findings.filter(
    it => it.state === "new" && it.finding.waived === undefined,
  );
  const gone = difference.findings.filter(it => it.state === "gone");
  const [base, head] = [own?.base?.root, own?.head?.root];
  const parts: string[] = [];
  if (base && head) {
    const [a, b] = [emptyOf(base).basic, emptyOf(head).basic];
    const { mass, length } = base.units;
    parts.push(`empty ${arrow(show(a.mass, mass), show(b.mass, mass))}`);
    if (a.fs !== null && b.fs !== null)
      parts.push(`FS ${arrow(show(a.fs, length), show(b.fs, length))}`);
  }
  const [first] = fresh;
  if (first) parts.push(first.finding.message);
  if (fresh.length > 1) parts.push(`${fresh.length - 1} more new`);
  if (gone.length > 0)
    parts.push(gone.length === 1 ? "1 finding gone" : `${gone.length} findings gone`);
  return { said: parts.join("; "), worse: fresh.length > 0 };
}

const arrow = (was: string, is: string) => (was === is ? is : `${was} → ${is}`);

/** All that it changes, row by row, each with the place where it stands now. */
export function trialLines(project: Project, trial: Trial): readonly WhyLine[] {
  const { title, edit, difference, said } = trial;
  const here = (at: Span | undefined) => (at && standsIn(project, at) ? at : at && edit.at);
  const tables = difference.roots.flatMap(it => {
    const sections = sectionsOf(it);
    if (sections.length === 0) return [];
    const { name, airframe } = it;
    return [
      line(""),
      line(airframe === undefined ? name : `${name} ${airframe}`),
      ...sections.flatMap(({ title, columns, rows }) => {
        const heads = columns.map(it => (it === "base" ? "now" : it === "head" ? "then" : it));
        const [top = "", ...texts] = textTable([heads, ...rows.map(row => row.cells)]);
        return [
          line(""),
          line(title),
          line(top),
          ...rows.map((row, i) => line(texts[i] ?? "", here(row.at?.span))),
        ];
      }),
    ];
  });
  const turned = difference.findings.filter(it => it.state === "new" || it.state === "gone");
  return [
    line(`Trial: ${title}`, edit.at),
    line(said),
    ...tables,
    ...(turned.length > 0 ? [line(""), line("Findings")] : []),
    ...turned.map(({ state, finding: { severity, code, message, at } }) =>
      line(`  ${state.padEnd(4)}  ${severity}[${code}]: ${message}`, here(at)),
    ),
  ];
}

/** A line that the trial did not touch is the same in both pictures. */
function standsIn(project: Project, { line }: Span): boolean {
  const source = sourceOf(project, line.file);
  return source !== undefined && lineAt(source.lines, indexOf(source.lines, line)) === line;
}
