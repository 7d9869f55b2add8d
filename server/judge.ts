import { positionsOf, type Source } from "../grammar/source";
import type { StatementOf } from "../grammar/tree";
import { checkOf, memberChecks, rootChecks } from "./checks";
import type { Draft } from "./checks/check";
import { requirementsOf } from "./checks/requirement";
import { askOf } from "./compute/ask";
import { flightsOf } from "./compute/flights";
import { loadLimitsOf } from "./compute/load-limits";
import { configurationsOf } from "./compute/shapes";
import { emptyOf } from "./compute/stages";
import type { Finding } from "./findings";
import { memo } from "./memo";
import type { Member } from "./model/assembly";
import { evaluate, type Values } from "./model/evaluate";
import { collector, type Fault } from "./model/fault";
import { type Reach, reachesOf } from "./model/reach";
import { type Root, rootOf } from "./model/root";
import { spreadOf } from "./model/spreads";
import { type Project, sourceOf } from "./project";
import { show } from "./quantity/show";

/** Everything there is to say about a picture of the workspace. */
export interface Judgement {
  /** Of the whole project, by file, line, column and code. */
  readonly findings: readonly Finding[];
  readonly roots: readonly JudgedRoot[];
}

export interface JudgedRoot {
  readonly name: string;
  readonly file: string;
  readonly files: readonly string[];
  /** The basic empty weight in the author's unit: "1,112.4 lb". */
  readonly emptyWeight: string;
  readonly cg: string | undefined;
  readonly complete: boolean;
  /** One line for a person: name, empty weight, CG. */
  readonly summary: string;
  readonly root: Root;
}

export const judge = memo((project: Project) => judgeSome(project, () => true));

/**
 * The same of those aircraft only that a file among the wanted ones belongs to.
 * @param today ISO; waivers that end before it have ended
 */
export function judgeSome(
  project: Project,
  wanted: (file: string) => boolean,
  today = new Date().toISOString().slice(0, 10),
): Judgement {
  const reaches = reachesOf(project);
  const roots = rootsOf(project, wanted);
  const findings: Finding[] = [];
  for (const file of project.files.values())
    if (!("unreadable" in file)) findings.push(...textFindings(file));
  findings.push(...reaches.faults.map(fromFault));
  for (const file of reaches.alone) findings.push(...aloneFindings(file));
  for (const { root } of roots) findings.push(...rootFindings(root, today));
  return { findings: inOrder(project, findings), roots };
}

/** Those aircraft alone, with nothing said of them. */
export function rootsOf(
  project: Project,
  wanted: (file: string) => boolean,
): readonly JudgedRoot[] {
  return reachesOf(project)
    .roots.filter(({ files, fitting }) => [...files, ...fitting].some(file => wanted(file.path)))
    .map(judgedRoot);
}

function judgedRoot(reach: Reach): JudgedRoot {
  const root = rootOf(reach);
  const { basic } = emptyOf(root);
  const { mass, length } = root.units;
  const emptyWeight = show(basic.mass, mass);
  const cg = basic.fs === null ? undefined : `FS ${show(basic.fs, length)}`;
  const floor = basic.complete ? "" : " (incomplete)";
  return {
    name: root.name,
    file: reach.file,
    files: [...reach.files, ...reach.fitting].map(file => file.path),
    emptyWeight,
    cg,
    complete: basic.complete,
    summary: `${root.title ?? root.name}: basic empty weight ${emptyWeight}${cg ? `, CG at ${cg}` : ""}${floor}`,
    root,
  };
}

const textFindings = memo((file: Source): readonly Finding[] => {
  const faults = [...file.braceFaults, ...file.faulty.flatMap(line => line.faults)];
  return faults.map(({ at, message }) => fromFault({ code: "syntax", at, message }));
});

function aloneFindings(file: Source): readonly Finding[] {
  const first = file.items[0]?.head;
  if (first === undefined) return [];
  const at = { line: first.line, from: first.from, to: Math.max(first.to, first.from + 1) };
  return [
    fromFault({
      code: "no-root",
      at,
      message: "no aircraft reaches this file: its masses count nowhere",
    }),
  ];
}

function fromFault({ code, at, message, related }: Fault): Finding {
  return {
    code,
    severity: checkOf(code)?.severity ?? "error",
    message,
    at,
    related: related ?? [],
  };
}

function fromDraft(code: string, { at, message, related, subject }: Draft): Finding {
  const finding = fromFault({ code, at, message, ...(related && { related }) });
  return subject === undefined ? finding : { ...finding, subject };
}

/** What a member says by itself and for what is inside it; shared as long as nothing in it changed. */
const memberFindings = memo((member: Member): readonly Finding[] => {
  const found: Finding[] = member.faults.map(fromFault);
  for (const check of memberChecks)
    for (const draft of check.member!(member)) found.push(fromDraft(check.code, draft));
  if (member.kind === "assembly")
    for (const inside of member.members) {
      const theirs = memberFindings(inside);
      if (theirs.length > 0) found.push(...theirs);
    }
  return found.length === 0 ? nothing : found;
});
const nothing: readonly Finding[] = [];

function rootFindings(root: Root, today: string): readonly Finding[] {
  const found: Finding[] = [...memberFindings(root.aircraft), ...root.faults.map(fromFault)];
  for (const { loading, stages } of flightsOf(root)) {
    found.push(...loading.faults.map(fromFault));
    for (const { overdrawn } of stages)
      if (overdrawn)
        found.push(
          fromFault({ code: "out-of-range", at: overdrawn.use.at, message: overdrawn.why }),
        );
  }
  for (const it of configurationsOf(root)) found.push(...it.faults.map(fromFault));
  found.push(...loadLimitsOf(root).faults.map(fromFault));
  found.push(...letFaults(root).map(fromFault));
  for (const { basic } of requirementsOf(root)) found.push(...basic.faults.map(fromFault));
  for (const check of rootChecks)
    for (const draft of check.root!(root)) found.push(fromDraft(check.code, draft));
  return waived(root, found, today);
}

/** The aircraft's own lets may ask for its sums, so they are looked at last. */
function letFaults(root: Root): readonly Fault[] {
  const { report, found } = collector();
  const ask = askOf(root, "basic", () => {});
  const values: Values = new Map();
  for (const { lets, scope } of [{ lets: root.scope.lets, scope: root.scope }, ...root.unchosen])
    for (const it of lets) {
      const setting = { scope, report, ask, values };
      spreadOf(it.spread, it.value && evaluate(it.value, setting), setting);
    }
  return found();
}

/** Faults of the text, envelopes and weight limits cannot be waived: nothing that flies rests on a waiver. */
const waivable = new Set([
  ...["over-budget", "budget-at-risk", "margin-low", "over-allocated", "cg-off-target"],
  ...["record-overtaken", "figure-suspect", "mass-missing", "arm-missing", "unlisted"],
  ...["arm-and-moment-differ"],
  ...["loading-at-risk", "requirement-failed", "requirement-at-risk"],
]);

function waived(root: Root, found: readonly Finding[], today: string): readonly Finding[] {
  let all = found;
  for (const waive of root.statements.waives) all = applied(root, waive, all, today);
  return all;
}

function applied(
  root: Root,
  waive: StatementOf<"waive">,
  found: readonly Finding[],
  today: string,
): readonly Finding[] {
  const { code, until } = waive;
  const of = waive.of?.text ?? waive.requirement?.text;
  if (code === undefined || of === undefined) return found;
  const expression = waive.requirement && requirementOf(root, waive.requirement.text);
  const say = (at: Draft["at"], as: string, message: string) => [
    ...found,
    fromDraft(as, { at, message }),
  ];
  if (!waivable.has(code.text)) {
    const known = checkOf(code.text) !== undefined;
    return known
      ? say(
          code,
          "waiver-unused",
          `${code.text} stands all the same: findings about envelopes, weights and the text itself are not waived`,
        )
      : say(code, "unknown-name", `no finding has the code ${code.text}`);
  }
  if (until && until.text < today)
    return say(until, "waiver-expired", `this waiver ended on ${until.text}`);
  // the aircraft's name alone is the aircraft
  const subject = waive.of?.text === root.name ? root.aircraft.path : (expression ?? of);
  const matches = found.filter(it => it.code === code.text && it.subject === subject);
  if (matches.length === 0)
    return say(code, "waiver-unused", `there is no ${code.text} of ${of} to waive`);
  const why = waive.why?.text ?? "";
  return found.map(it => (matches.includes(it) ? { ...it, waived: why } : it));
}

/** The text of the requirement that is quoted, or whose reason is. */
function requirementOf(root: Root, quoted: string): string | undefined {
  const all = requirementsOf(root).map(it => it.basic);
  const text = all.find(it => it.text === quoted) ?? all.find(it => it.head.why?.text === quoted);
  return text?.text;
}

/** By file, line, column and code; what is equal in two roots is shown once. */
function inOrder(project: Project, findings: readonly Finding[]): readonly Finding[] {
  const placed = findings.map(finding => {
    const { file } = finding.at.line;
    const source = sourceOf(project, file);
    const { start } = source
      ? positionsOf(source, finding.at)
      : { start: { line: 0, character: 0 } };
    return { finding, file, start };
  });
  placed.sort(
    (a, b) =>
      compare(a.file, b.file) ||
      a.start.line - b.start.line ||
      a.start.character - b.start.character ||
      compare(a.finding.code, b.finding.code) ||
      compare(a.finding.message, b.finding.message),
  );
  return placed
    .filter(({ finding, file, start }, i) => {
      const before = placed[i - 1];
      return !(
        before !== undefined &&
        before.file === file &&
        before.start.line === start.line &&
        before.start.character === start.character &&
        before.finding.code === finding.code &&
        before.finding.message === finding.message
      );
    })
    .map(({ finding }) => finding);
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
