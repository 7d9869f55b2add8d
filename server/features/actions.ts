import { type Position, positionsOf } from "../../grammar/source";
import { loadingText } from "../checks/all-loadings";
import { allLoadingsOf } from "../compute/all-loadings";
import { movesToTarget } from "../compute/assembly-remedies";
import { flightsOf } from "../compute/flights";
import type { Breach } from "../compute/limits";
import { type Remedy, remediesOf } from "../compute/remedies";
import type { Finding } from "../findings";
import { judge } from "../judge";
import { memo2 } from "../memo";
import type { Loading } from "../model/loading";
import type { Root } from "../model/root";
import { type Project, sourceOf, withEdit } from "../project";
import { type Amendment, amendmentOf, type Edit } from "./amend";
import { membersByHead } from "./place";

/** A change of the text that ends a finding, or shows what it means. */
export interface Action {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly finding: Finding;
}

/**
 * What may be done about the findings in a stretch of a file. Each was tried before it is offered: the
 * text with the edit in it was judged, the finding is gone, and no error came in its place.
 */
export function actions(
  project: Project,
  path: string,
  range: { readonly start: Position; readonly end: Position },
): readonly Action[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  return judge(project).findings.flatMap(finding => {
    const { at, code, waived } = finding;
    if (at.line.file !== path || waived !== undefined || !amendable.has(code)) return [];
    const { start, end } = positionsOf(source, at);
    const touches = !before(end, range.start) && !before(range.end, start);
    return touches ? actionsFor(finding, project) : [];
  });
}

const before = (a: Position, b: Position) =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

const limitCodes = [
  "cg-forward",
  "cg-aft",
  "cg-lateral",
  "above-weight-limit",
  "below-weight-limit",
];
const amendable = new Set([
  ...limitCodes,
  ...["cg-off-target", "record-overtaken", "loading-can-exceed"],
]);

/** An editor asks at every move of the cursor: once a picture is enough. */
const actionsFor = memo2((finding: Finding, project: Project): readonly Action[] => {
  if (finding.code === "loading-can-exceed") return examplesFor(finding, project);
  const chosen: Amendment[] = [];
  for (const amend of amendmentsOf(finding, project)) {
    const sound = tries.map(amend).find(it => it && heals(project, finding, it.edit));
    if (sound && !chosen.some(it => it.title === sound.title)) chosen.push(sound);
    if (chosen.length === MOST) break;
  }
  return chosen.map(({ title, edit }) => ({ title, edits: [edit], finding }));
});

/** A loading that leaves the envelope, to be looked at and judged like any other: behind the envelope. */
function examplesFor(finding: Finding, project: Project): readonly Action[] {
  for (const root of rootsOf(finding, project))
    for (const { envelope, found } of allLoadingsOf(root)) {
      const { head, close } = envelope.item;
      if (close === undefined || (("name" in head && head.name) || head) !== finding.at) continue;
      return found.slice(0, MOST).map(example => {
        const text = loadingText(example, envelope).trimEnd();
        const at = { line: close.line, from: close.line.text.length, to: close.line.text.length };
        const [, name] = text.split(" ");
        return {
          title: `Write the loading that leaves ${envelope.name} down, as ${name}`,
          edits: [{ at, text: `\n${text}` }],
          finding,
        };
      });
    }
  return [];
}

/** A menu of more is not read. */
const MOST = 3;
/** How many steps beyond the exact figure: the way between two amounts may not be quite straight. */
const tries = [0, 1, 3];

type Amend = (farther: number) => Amendment | undefined;

function amendmentsOf(finding: Finding, project: Project): readonly Amend[] {
  const { code, at } = finding;
  for (const root of rootsOf(finding, project)) {
    if (limitCodes.includes(code)) {
      const flight = flightsOf(root).find(it => it.loading.at === at);
      if (flight === undefined) continue;
      const remedies = remediesOf(root, flight, code as Breach["code"]);
      return amends(inOrder(remedies, flight.loading), root, flight.loading);
    }
    for (const member of membersByHead(root.aircraft).values()) {
      if (member.kind === "assembly" && member.target?.at === at)
        return amends(movesToTarget(root, member), root, undefined);
      if (code !== "record-overtaken" || (member.kind !== "part" && member.kind !== "ballast"))
        continue;
      const record = member.governing?.clause;
      if (record === undefined || (record.figure ?? record) !== at) continue;
      const { line, from } = record;
      const edit = { at: { line, from, to: from }, text: "was " };
      return [() => ({ title: "Keep the older record as history (was)", edit })];
    }
  }
  return [];
}

const amends = (remedies: readonly Remedy[], root: Root, loading: Loading | undefined) =>
  remedies.map(
    (it): Amend =>
      farther =>
        amendmentOf(it, loading, root, farther),
  );

/** The smallest change first: baggage and ballast by mass, then people, then what must be moved. */
function inOrder(remedies: readonly Remedy[], { loads }: Loading): readonly Remedy[] {
  const size = (it: Remedy): readonly [number, number] => {
    if (it.kind === "move") return [2, Math.abs(it.by)];
    if (it.kind === "ballast") return [0, Math.abs(it.by)];
    const { station, load, to } = it;
    const was = loads.find(other => other === load)?.mass ?? 0;
    const sides = station.mirrored && !load?.side ? 2 : 1;
    return [station.kind === "seat" ? 1 : 0, Math.abs(to - was) * sides];
  };
  return [...remedies].sort((a, b) => {
    const [x, y] = [size(a), size(b)];
    return x[0] - y[0] || x[1] - y[1];
  });
}

/** Judges the text with the edit in it: the finding is gone, and there is no error that was not there. */
function heals(project: Project, finding: Finding, { at, text }: Edit): boolean {
  const { file } = at.line;
  const source = sourceOf(project, file);
  if (source === undefined) return false;
  const { start, end } = positionsOf(source, at);
  const next = withEdit(project, file, start, end, text);
  const [was, is] = [tally(project, finding), tally(next, finding)];
  if (is.same >= was.same) return false;
  return [...is.grave].every(([key, count]) => count <= (was.grave.get(key) ?? 0));
}

/** How often a finding is there, by its code and the words it stands on; and how often each grave one. */
function tally(project: Project, finding: Finding) {
  const wanted = keyOf(finding);
  let same = 0;
  const grave = new Map<string, number>();
  for (const it of judge(project).findings) {
    const key = keyOf(it);
    if (key === wanted) same++;
    if (it.severity === "error" || it.code === "figure-suspect")
      grave.set(key, (grave.get(key) ?? 0) + 1);
  }
  return { same, grave };
}

function keyOf({ code, at: { line, from, to } }: Finding): string {
  return `${code} ${line.file} ${line.text.slice(from, to)}`;
}

/** Those a finding holds for: what helps the design does not help an airframe. */
function rootsOf({ airframes }: Finding, project: Project): readonly Root[] {
  return judge(project)
    .roots.filter(({ airframe }) =>
      airframes === undefined
        ? airframe === undefined
        : airframe !== undefined && airframes.includes(airframe),
    )
    .map(it => it.root);
}
