import { positionsOf, type Source } from "../grammar/source";
import type { Item, Span, StatementOf } from "../grammar/tree";
import { checkOf, memberChecks, rootChecks } from "./checks";
import type { Draft } from "./checks/check";
import { requirementsOf } from "./checks/requirement";
import { askOf } from "./compute/ask";
import { flightsOf } from "./compute/flights";
import { loadLimitsOf } from "./compute/load-limits";
import { serialNumbersOf } from "./compute/serial-numbers";
import { configurationsOf } from "./compute/shapes";
import { emptyOf } from "./compute/stages";
import { asWeighed, removalFaultsOf, weighingsOf } from "./compute/weighing";
import type { Finding } from "./findings";
import { memo } from "./memo";
import type { Assembly, Member } from "./model/assembly";
import { isSide } from "./model/edits";
import type { Side } from "./model/env";
import { evaluate, type Values } from "./model/evaluate";
import { collector, type Fault } from "./model/fault";
import type { Part } from "./model/part";
import { reachesOf } from "./model/reach";
import { type Root, rootsOf as rootsIn } from "./model/root";
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
  /** Undefined: the aircraft as designed. */
  readonly airframe: string | undefined;
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
  for (const reach of new Set(roots.map(it => it.root.reach)))
    findings.push(
      ...findingsOf(
        roots.filter(it => it.root.reach === reach),
        today,
      ),
    );
  return { findings: inOrder(project, findings), roots };
}

/** Those aircraft alone, with nothing said of them. */
export function rootsOf(
  project: Project,
  wanted: (file: string) => boolean,
): readonly JudgedRoot[] {
  return reachesOf(project)
    .roots.filter(({ files, fitting }) => [...files, ...fitting].some(file => wanted(file.path)))
    .flatMap(rootsIn)
    .map(asWeighed)
    .map(judgedRoot);
}

const judgedRoot = memo((root: Root): JudgedRoot => {
  const { reach, airframe } = root;
  const { basic } = emptyOf(root);
  const { mass, length } = root.units;
  const emptyWeight = show(basic.mass, mass);
  const cg = basic.fs === null ? undefined : `FS ${show(basic.fs, length)}`;
  const floor = basic.complete ? "" : " (incomplete)";
  return {
    name: root.name,
    airframe: airframe?.name,
    file: airframe ? airframe.item.head.line.file : reach.file,
    files: filesOf(root),
    emptyWeight,
    cg,
    complete: basic.complete,
    summary: `${airframe ? (airframe.title ?? airframe.name) : (root.title ?? root.name)}: basic empty weight ${emptyWeight}${cg ? `, CG at ${cg}` : ""}${floor}`,
    root,
  };
});

/** The design's own, and where its airframes stand; of an airframe its own file first. */
function filesOf({ reach, airframe }: Root): readonly string[] {
  const design = reach.files.map(file => file.path);
  if (airframe === undefined) return [...design, ...reach.fitting.map(file => file.path)];
  const own = airframe.item.head.line.file;
  return [own, ...design.filter(it => it !== own)];
}

/**
 * Of an aircraft as designed and of its airframes: what is equal in all of them is said once, and what holds
 * for airframes alone names them.
 */
function findingsOf(roots: readonly JudgedRoot[], today: string): readonly Finding[] {
  const [design, ...airframes] = roots.map(({ root }) => ({
    root,
    findings: rootFindings(root, today),
  }));
  if (design === undefined) return [];
  if (airframes.length === 0) return design.findings;
  const all = [design, ...airframes].map(it => keysOf(it.findings));
  const found = design.findings.filter(
    it => it.code !== "waiver-unused" || all.every(keys => keys(it)),
  );
  const inDesign = all[0]!;
  airframes.forEach(({ root, findings }, i) => {
    for (const finding of findings) {
      if (finding.code === "waiver-unused" || inDesign(finding)) continue;
      // said with the first airframe that has it
      if (all.slice(1, i + 1).some(keys => keys(finding))) continue;
      const names = airframes.filter((_, at) => all[at + 1]!(finding)).map(it => nameOf(it.root));
      const own = isFault(finding) && blocksOf(root).some(it => standsIn(it, finding.at));
      found.push(
        own ? finding : { ...finding, message: `${names.join(", ")}: ${finding.message}` },
      );
    }
  });
  return found;
}

const nameOf = ({ airframe }: Root) => airframe?.name ?? "";

/** Is one of them the same? */
function keysOf(findings: readonly Finding[]): (of: Finding) => boolean {
  const messages = new Map<Span, Set<string>>();
  const key = ({ code, message, waived }: Finding) => `${code} ${waived ?? ""} ${message}`;
  for (const it of findings) {
    const there = messages.get(it.at) ?? new Set();
    messages.set(it.at, there.add(key(it)));
  }
  return of => messages.get(of.at)?.has(key(of)) === true;
}

/** Wrong by itself, and no judgement of sums. */
const isFault = ({ code }: Finding) => {
  const check = checkOf(code);
  return check !== undefined && check.member === undefined && check.root === undefined;
};

/** An airframe's own block, and those of its weighings and changes. */
const blocksOf = ({ airframe, statements }: Root): readonly Item[] =>
  airframe === undefined
    ? []
    : [
        airframe.item,
        ...statements.dated.filter(({ head }) => "of" in head && isOf(head.of, airframe.name)),
      ];
const isOf = (of: unknown, name: string) =>
  typeof of === "object" && of !== null && "text" in of && of.text === name;

function standsIn(block: Item, at: Span): boolean {
  return block.head.line === at.line || block.items.some(it => standsIn(it, at));
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

export function fromDraft(code: string, { at, message, related, subject }: Draft): Finding {
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
      const theirs = isApart(inside) ? sideFindings(inside, member) : memberFindings(inside);
      if (theirs.length > 0) found.push(...theirs);
    }
  return found.length === 0 ? nothing : found;
});
const nothing: readonly Finding[] = [];

type Apart = (Assembly | Part) & { readonly side: Side };
const isApart = (member: Member): member is Apart => "side" in member && member.side !== undefined;

/** Of one side that is read apart: what both sides have is said once, what one has names it. */
function sideFindings(member: Apart, { members }: Assembly): readonly Finding[] {
  const other = members.find(it => it !== member && isApart(it) && it.item === member.item);
  const both = keysOf(other ? memberFindings(other) : []);
  return memberFindings(member).flatMap(finding => {
    const { subject, ...rest } = finding;
    // a waiver names the thing, and so both of its sides
    const plain = subject?.split(".").filter(it => !isSide(it));
    const said = plain === undefined ? rest : { ...rest, subject: plain.join(".") };
    if (both(finding)) return member.side === "RH" ? said : [];
    return { ...said, message: `${member.path}: ${finding.message}` };
  });
}

export function rootFindings(root: Root, today: string): readonly Finding[] {
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
  for (const it of weighingsOf(root.rolledUp ?? root)) found.push(...it.faults.map(fromFault));
  found.push(...removalFaultsOf(root.rolledUp ?? root).map(fromFault));
  found.push(...serialNumbersOf(root).faults.map(fromFault));
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
export const waivable = new Set([
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
  // whether a change adds too much, and has a waiver, is judged with its base (views/diff/of-the-change.ts)
  const ofChange = checkOf(code.text)?.change !== undefined;
  const expression = waive.requirement && requirementOf(root, waive.requirement.text);
  const say = (at: Draft["at"], as: string, message: string) => [
    ...found,
    fromDraft(as, { at, message }),
  ];
  if (!ofChange && !waivable.has(code.text)) {
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
  if (ofChange) return found;
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
export function inOrder(project: Project, findings: readonly Finding[]): readonly Finding[] {
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
