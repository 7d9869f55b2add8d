import type { Declaration, Item, StatementOf } from "../../grammar/tree";
import { memo } from "../memo";
import {
  type Assembly,
  additionsInside,
  faultsIn,
  letsOf,
  type Member,
  memberOf,
  reportLet,
} from "./assembly";
import { isSide, reportLost, reportStray, reportStrayClause, reportTwice } from "./block-faults";
import { clauseOf, clausesOf, membersOf } from "./clauses";
import { type Addition, type Core, sameCore } from "./env";
import type { Setting } from "./evaluate";
import { budgetOf, noSums } from "./part";
import { isEffective } from "./records";
import { type Let, type Scope, scopeIn } from "./scope";

export function optionsOf(choice: Item): readonly Item[] {
  return membersOf(choice.items).filter(it => it.head.kind === "option");
}

/** Without `default` the first option counts. */
function chosenOption(choice: Item): Item | undefined {
  const { standard } = choice.head as StatementOf<"choice">;
  const options = optionsOf(choice);
  const named = options.find(it => (it.head as Declaration).path?.text === standard?.text);
  return standard === undefined ? options[0] : named;
}

/** What the chosen options put into the aircraft. */
export function chosenAdditions(
  choices: readonly Item[],
  aircraft: string,
  scope: Scope,
): readonly Addition[] {
  return choices.flatMap(choice => additionsOf(chosenOption(choice), aircraft, scope));
}

/** The lets of the chosen options: each is visible where its choice stands. */
export function chosenLets(choices: readonly Item[]): readonly Let[] {
  return choices.flatMap(choice => letsOf(chosenOption(choice)?.items ?? []));
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
    const chosen = chosenOption(choice);
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
      putInto(aircraft, additionsOf(option, aircraft.name, scope), option, rival, members, setting);
      return [{ lets: own, scope, members }];
    });
  });
}

function additionsOf(
  option: Item | undefined,
  aircraft: string,
  scope: Scope,
): readonly Addition[] {
  const inOption = option ? membersOf(option.items) : [];
  return inOption.flatMap((item): Addition[] => {
    const { head } = item;
    if (head.kind === "clause") {
      const { clause } = head;
      if (clause.kind !== "budget" || !clause.of || !clause.value) return [];
      // the aircraft's own name alone is the aircraft
      const words = clause.of.text === aircraft ? [] : clause.of.words.map(word => word.text);
      return [{ item, words, budget: { value: clause.value, clause }, scope }];
    }
    if (!("clauses" in head) || head.path === undefined) return [];
    return [{ item, words: head.path.words.map(word => word.text), budget: undefined, scope }];
  });
}

/** Builds what an option would put into an assembly and into those inside it, and says what is wrong with it. */
function putInto(
  target: Assembly,
  additions: readonly Addition[],
  option: Item,
  rival: ReadonlySet<Item>,
  into: Member[],
  setting: Setting,
): void {
  const core = standIn(option, target.core, additions);
  const { report } = setting;
  const inside: Setting = { ...setting, ask: noSums(report) };
  const there: Member[] = target.members.filter(it => !rival.has(it.item));
  const own: Member[] = [];
  for (const { item, words, budget, scope } of additions) {
    if (budget !== undefined || words.length !== 1) continue;
    const member = memberOf(item, words[0]!, core, scope);
    if (member === undefined) continue;
    into.push(member);
    for (const { code, at, message, related } of faultsIn(member))
      report(code, at, message, related);
    if (isEffective(clauseOf(clausesOf(item), "effective")?.serials)) own.push(member);
  }
  budgetOf([], core, inside);
  const members = [...there, ...own];
  reportTwice(members, report);
  reportLost(core, members, report);
  for (const member of there) {
    if ("records" in member) budgetOf([], core, inside, member.name);
    if (member.kind !== "assembly") continue;
    const deeper = additionsInside(additions, member.name).filter(
      it => !(member.mirrored && isSide(it.words[0])),
    );
    if (deeper.length > 0) putInto(member, deeper, option, rival, into, setting);
  }
}

const standIns = memo((_option: Item) => new Map<string, Core>());

/**
 * An assembly's core with what an option would add. Apart from the real one, or reading the option
 * would unsettle what is remembered of the aircraft as it is; the same object as long as nothing changed.
 */
function standIn(option: Item, core: Core, additions: readonly Addition[]): Core {
  const ofOption = standIns(option);
  const next = { ...core, additions };
  const before = ofOption.get(core.path);
  if (before !== undefined && sameCore(before, next)) return before;
  const apart: Core = { ...next, inside: new Map() };
  ofOption.set(core.path, apart);
  return apart;
}
