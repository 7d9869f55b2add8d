import type {
  Clause,
  Declaration,
  Item,
  Path,
  Point,
  RecordClause,
  StatementOf,
  Text,
} from "../../grammar/tree";
import { memo } from "../memo";
import { budgetOf } from "./asked";
import { type Assembly, faultsIn, letsOf, type Member, memberOf, reportLet } from "./assembly";
import { reportLost, reportStray, reportStrayClause, reportTwice } from "./block-faults";
import { clauseOf, clausesOf, membersOf } from "./clauses";
import { editsInside, editsOfSide, namesSide } from "./edits";
import { type Core, type Edit, sameCore } from "./env";
import type { Setting } from "./evaluate";
import { noSums } from "./part";
import { isEffective } from "./records";
import { type Let, type Scope, scopeIn } from "./scope";

export function optionsOf(choice: Item): readonly Item[] {
  return membersOf(choice.items).filter(it => it.head.kind === "option");
}

export const nameOfOption = ({ head }: Item): string =>
  ("path" in head && head.path && "text" in head.path ? head.path.text : undefined) ?? "";

/** What an airframe chooses: the option's name, by the choice's. */
export type Chosen = ReadonlyMap<string, string>;
const nothingChosen: Chosen = new Map();

/** Without `default` the first option counts. */
export function chosenOption(choice: Item, chosen: Chosen): Item | undefined {
  const { standard, name } = choice.head as StatementOf<"choice">;
  const options = optionsOf(choice);
  const other = name && chosen.get(name.text);
  const own = other && options.find(it => (it.head as Declaration).path?.text === other);
  if (own) return own;
  const named = options.find(it => (it.head as Declaration).path?.text === standard?.text);
  return standard === undefined ? options[0] : named;
}

/** What the chosen options put into the aircraft. */
export function chosenEdits(
  choices: readonly Item[],
  aircraft: string,
  scope: Scope,
  chosen: Chosen,
): readonly Edit[] {
  return choices.flatMap(choice => editsOf(chosenOption(choice, chosen), aircraft, scope));
}

/** The lets of the chosen options: each is visible where its choice stands. */
export function chosenLets(choices: readonly Item[], chosen = nothingChosen): readonly Let[] {
  return choices.flatMap(choice => letsOf(chosenOption(choice, chosen)?.items ?? []));
}

/** An option that is not chosen, as if it were. */
export interface Unchosen {
  /** Its own, which the aircraft does not see. */
  readonly lets: readonly Let[];
  readonly scope: Scope;
  /** What it would put into the aircraft. */
  readonly members: readonly Member[];
}

/**
 * Every option is checked: its names, units and dimensions. One not chosen is built into the aircraft
 * without what its rival puts there; nothing of it counts.
 * @param lets the aircraft's own
 */
export function checkOptions(
  choices: readonly Item[],
  lets: readonly Let[],
  aircraft: Assembly,
  setting: Setting,
): readonly Unchosen[] {
  const { report } = setting;
  return choices.flatMap(choice => {
    const { standard } = choice.head as StatementOf<"choice">;
    const chosen = chosenOption(choice, nothingChosen);
    const named = new Set<string>();
    for (const { head } of optionsOf(choice)) {
      const path = "path" in head && head.path && "words" in head.path ? head.path : undefined;
      if (path === undefined) continue;
      if (named.has(path.text))
        report("declared-twice", path, `the option ${path.text} stands in this choice twice`);
      named.add(path.text);
    }
    if (standard && chosen === undefined)
      report("unknown-name", standard, `this choice has no option called ${standard.text}`);
    for (const { head } of membersOf(choice.items))
      if (head.kind !== "option") reportStray(head, "a choice", report);
    const rival = new Set(chosen && membersOf(chosen.items));
    const others = chosenLets(choices.filter(it => it !== choice));
    return optionsOf(choice).flatMap(option => {
      for (const { head } of membersOf(option.items)) reportStray(head, "an option", report);
      for (const clause of (option.head as Declaration).clauses)
        if (clause.kind !== "budget" || clause.of === undefined)
          reportStrayClause(clause, "an option", report);
        else report("syntax", clause, "an option's budgets stand in its block");
      const own = letsOf(option.items);
      const scope =
        option === chosen
          ? aircraft.scope
          : scopeIn(undefined, [...lets, ...others, ...own], option);
      for (const it of own) reportLet(it, scope, setting, true);
      if (option === chosen) return [];
      const members: Member[] = [];
      putInto(aircraft, editsOf(option, aircraft.name, scope), option, rival, members, setting);
      return [{ lets: own, scope, members }];
    });
  });
}

/** What an option, an airframe or a change does, in the order written. */
export function editsOf(block: Item | undefined, aircraft: string, scope: Scope): readonly Edit[] {
  // the aircraft's own name alone is the aircraft
  const wordsOf = (path: Path) => (path.text === aircraft ? [] : path.words.map(word => word.text));
  const one = (
    item: Item,
    does: Edit["does"],
    path: Path | undefined,
    clause?: Clause,
    point?: Point,
  ): readonly Edit[] =>
    path === undefined
      ? []
      : [{ item, does, words: wordsOf(path), at: path, clause, point, scope, sided: false }];
  return membersOf(block?.items ?? []).flatMap((item): readonly Edit[] => {
    const { head } = item;
    if (head.kind === "clause") {
      const { clause } = head;
      return clause.kind === "budget" && clause.value ? one(item, "budget", clause.of, clause) : [];
    }
    if (head.kind === "record-of") return one(item, "record", head.path, head.record, head.at);
    if (head.kind === "move")
      return head.target ? one(item, "move", head.path, undefined, head.target) : [];
    if (head.kind === "remove") return head.paths.flatMap(path => one(item, "remove", path));
    return "clauses" in head ? one(item, "put", head.path) : [];
  });
}

/** The records alone of a change, with what its removals weighed: what they say of what was there before it. */
export function recordsIn(block: Item, aircraft: string, scope: Scope): readonly Edit[] {
  const { on } = block.head as StatementOf<"change">;
  const removed = membersOf(block.items).flatMap((item): readonly Edit[] => {
    const { head } = item;
    if (head.kind !== "remove" || head.record === undefined) return [];
    const clause = datedAs(head.record, on);
    return head.paths.map(path => ({
      ...{ item, does: "record", at: path, clause, point: undefined, scope, sided: false },
      words: path.words.map(word => word.text),
    }));
  });
  return [...editsOf(block, aircraft, scope).filter(it => it.does === "record"), ...removed];
}

/** The figure of a removal is of its change, whatever day the scale was read on: it governs over older ones. */
function datedAs(record: RecordClause, on: Text | undefined): RecordClause {
  if (on === undefined) return record;
  const known = datedRecords(record).get(on);
  if (known !== undefined) return known;
  const dated = { ...record, on };
  datedRecords(record).set(on, dated);
  return dated;
}
const datedRecords = memo((_: RecordClause) => new WeakMap<Text, RecordClause>());

/** Builds what an option would put into an assembly and into those inside it, and says what is wrong with it. */
function putInto(
  target: Assembly,
  edits: readonly Edit[],
  option: Item,
  rival: ReadonlySet<Item>,
  into: Member[],
  setting: Setting,
): void {
  const core = standIn(option, target.core, edits);
  const { report } = setting;
  const inside: Setting = { ...setting, ask: noSums(report) };
  const there: Member[] = target.members.filter(it => !rival.has(it.item));
  const own: Member[] = [];
  for (const { item, words, does, scope } of edits) {
    if (does !== "put" || words.length !== 1) continue;
    const member = memberOf(item, words[0]!, core, scope);
    if (member === undefined) continue;
    into.push(member);
    for (const { code, at, message, related } of faultsIn(member))
      report(code, at, message, related);
    if (isEffective(clauseOf(clausesOf(item), "effective")?.serials, undefined)) own.push(member);
  }
  budgetOf([], edits, core, inside);
  const members = [...there, ...own];
  reportTwice(members, report);
  reportLost(core, members, new Set(), report);
  for (const member of there) {
    const theirs = editsInside(edits, member.name);
    const deeper = theirs.some(namesSide)
      ? [...editsOfSide(theirs, "RH"), ...editsOfSide(theirs.filter(namesSide), "LH")]
      : theirs;
    if ("records" in member) budgetOf([], deeper, core, inside);
    if (member.kind === "assembly" && deeper.length > 0)
      putInto(member, deeper, option, rival, into, setting);
  }
}

const standIns = memo((_option: Item) => new Map<string, Core>());

/**
 * An assembly's core with what an option would add. Apart from the real one, or reading the option
 * would unsettle what is remembered of the aircraft as it is; the same object as long as nothing changed.
 */
function standIn(option: Item, core: Core, edits: readonly Edit[]): Core {
  const ofOption = standIns(option);
  const next = { ...core, edits };
  const before = ofOption.get(core.path);
  if (before !== undefined && sameCore(before, next)) return before;
  const apart: Core = { ...next, table: new Map(), read: new WeakMap() };
  ofOption.set(core.path, apart);
  return apart;
}
