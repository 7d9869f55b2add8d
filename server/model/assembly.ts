import type { Clause, Declaration, Item, RecordClause, Span } from "../../grammar/tree";
import { functions, keywords, unitWords } from "../../grammar/words";
import { memo } from "../memo";
import { MOMENT } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { clauseOf, clausesOf, membersOf } from "./clauses";
import { type Addition, type Core, coreInside, joinPath, type Place } from "./env";
import { evaluate, type Setting } from "./evaluate";
import { type Outside, outsideOf } from "./extent";
import { collector, type Fault, type Report } from "./fault";
import { coordinate, figure, massOf } from "./figures";
import { type Budget, budgetOf, noSums, type Part, partOf } from "./part";
import { inFrame, placeOf } from "./places";
import { growthIn, spreadIn } from "./rates";
import { governing, isEffective, type MassRecord, recordsOf } from "./records";
import { type Let, type Scope, scopeIn } from "./scope";
import { spreadOf } from "./spreads";
import { type Station, stationOf } from "./station";
import { type Swing, swingOf } from "./swing";

/** Mass held back: in predicted, never in basic. */
export interface Reserve {
  readonly kind: "reserve";
  readonly item: Item;
  readonly head: Declaration;
  readonly name: string;
  readonly path: string;
  readonly mass: number | undefined;
  readonly place: Place | undefined;
  /** Coordinates beyond the aircraft's extent. */
  readonly outside: readonly Outside[];
  readonly unit: Unit;
  readonly faults: readonly Fault[];
}

export type Member = Assembly | Part | Reserve | Station;

export interface Target {
  readonly axis: "FS" | "BL" | "WL";
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly at: Span;
}

/** An assembly, or the aircraft itself: the outermost one. */
export interface Assembly {
  readonly kind: "assembly";
  readonly item: Item;
  readonly head: Declaration;
  readonly name: string;
  readonly title: string | undefined;
  readonly path: string;
  readonly members: readonly Member[];
  readonly mirrored: boolean;
  readonly budget: Budget | undefined;
  readonly target: Target | undefined;
  /** Weighed as a whole: governs over its parts. */
  readonly weighed: MassRecord | undefined;
  /** m of FS by a `moment` clause beside the weighed record. */
  readonly weighedFs: number | undefined;
  readonly swing: Swing | undefined;
  /** Tanks, seats and bays, of all assemblies inside too. */
  readonly stations: readonly Station[];
  readonly core: Core;
  readonly scope: Scope;
  readonly faults: readonly Fault[];
}

const known = new WeakMap<Item, { core: Core; scope: Scope; assembly: Assembly }>();

/** An assembly inside another. */
export function assemblyOf(
  item: Item,
  name: string,
  outer: Core,
  scope: Scope,
  additions: readonly Addition[],
): Assembly {
  const head = item.head as Declaration;
  const { report, found } = collector();
  const clauses = clausesOf(item);
  const inner = scopeIn(scope, letsOf(item.items));
  const setting: Setting = { scope: inner, report, ask: noSums(report) };
  const mirrored = clauses.some(clause => clause.kind === "mirrored");
  if (mirrored && outer.mirrored)
    report(
      "declared-twice",
      clauseOf(clauses, "mirrored")!,
      `${name} stands in something mirrored: it has a left-hand one already`,
    );
  const at = clauseOf(clauses, "at");
  const origin = at ? placeOf(at.point, outer.units.length, setting) : undefined;
  const core = coreInside(outer, name, {
    path: joinPath(outer.path, name),
    units: outer.units,
    growth: growthIn(outer.growth, clauses, setting),
    spread: spreadIn(outer.spread, clauses, setting),
    origin: origin ? inFrame(outer.origin, { ...origin, wl: origin.wl ?? 0 }) : outer.origin,
    mirrored: mirrored || outer.mirrored,
    extent: outer.extent,
    additions,
  });
  const before = known.get(item);
  if (before?.core === core && before.scope === scope && found().length === 0)
    return before.assembly;
  const assembly = build(
    item,
    head,
    name,
    core,
    inner,
    item.items,
    mirrored && !outer.mirrored,
    swingOf(clauses, outer.origin, outer.units.length, setting),
    setting,
    found,
  );
  known.set(item, { core, scope, assembly });
  return assembly;
}

/** Everything an assembly is made of. `items` are those of its block; of the aircraft, also its files' own. */
export function build(
  item: Item,
  head: Declaration,
  name: string,
  core: Core,
  scope: Scope,
  items: readonly Item[],
  mirrored: boolean,
  swing: Swing | undefined,
  setting: Setting,
  found: () => readonly Fault[],
): Assembly {
  const { report } = setting;
  const clauses = clausesOf(item);
  const members: Member[] = [];
  const add = (it: Item, scopeOfIt: Scope, called: string | undefined) => {
    const member = called === undefined ? undefined : memberOf(it, called, core, scopeOfIt);
    if (member === undefined) return;
    if (isEffective(clauseOf(clausesOf(it), "effective")?.serials)) members.push(member);
    // what only older airframes have is checked all the same
    else
      for (const { code, at, message, related } of faultsIn(member))
        report(code, at, message, related);
  };
  for (const it of membersOf(items)) add(it, scope, declaredName(it, report));
  for (const addition of core.additions)
    if (addition.words.length === 1 && addition.budget === undefined)
      add(addition.item, addition.scope, addition.words[0]);
  for (const it of letsOf(items)) reportLet(it, scope, setting, core.path === "");
  reportTwice(members, report);
  reportLost(core, members, report);

  const sides = core.mirrored ? 2 : 1;
  const recordClauses = clauses.filter((it): it is RecordClause => it.kind === "record");
  for (const clause of recordClauses)
    if (clause.basis !== "weighed")
      report(
        "syntax",
        clause,
        `an assembly may be weighed as a whole; ${clause.basis} belongs to its parts`,
      );
  const weighed = governing(
    recordsOf(
      recordClauses.filter(it => it.basis === "weighed"),
      undefined,
      sides,
      setting,
    ),
  );
  const moment = clauseOf(clauses, "moment");
  const about = moment && figure(moment.value, MOMENT, "a moment", setting);
  const weighedFs =
    about && weighed?.mass ? about.value / weighed.mass / (moment?.total ? sides : 1) : undefined;
  const replaced = core.additions.findLast(
    it => it.budget !== undefined && it.words.length === 0,
  )?.budget;

  return {
    kind: "assembly",
    item,
    head,
    name,
    title: head.title?.text,
    path: core.path,
    members,
    mirrored,
    budget: budgetOf(
      replaced ? [...clauses, { ...replaced.clause, of: undefined } as Clause] : clauses,
      core,
      setting,
    ),
    target: targetOf(clauses, core, setting),
    weighed,
    weighedFs,
    swing,
    stations: members.flatMap(it => ("stations" in it ? it.stations : isStation(it) ? [it] : [])),
    core,
    scope,
    faults: found(),
  };
}

const isStation = (it: Member): it is Station =>
  it.kind === "tank" || it.kind === "seat" || it.kind === "bay";

function memberOf(item: Item, name: string, core: Core, scope: Scope): Member | undefined {
  switch (item.head.kind) {
    case "part":
    case "ballast":
      return partOf(item, name, core, scope);
    case "assembly": {
      const inside = core.additions.flatMap(it =>
        it.words[0] === name && (it.words.length > 1 || it.budget)
          ? [{ ...it, words: it.words.slice(1) }]
          : [],
      );
      return assemblyOf(item, name, core, scope, inside);
    }
    case "reserve":
      return reserveOf(item, name, core, scope);
    case "tank":
    case "seat":
    case "bay":
      return stationOf(item, name, core, scope);
    default:
      return undefined;
  }
}

/** The name of something in an assembly's block; a path belongs in an option, an airframe or a change. */
function declaredName(item: Item, report: Report): string | undefined {
  const { head } = item;
  if (!("clauses" in head) || head.path === undefined) return undefined;
  if (head.path.words.length > 1 && memberKinds.has(head.kind)) {
    report(
      "syntax",
      head.path,
      "write this inside its assembly; a path stands in an option or an airframe",
    );
    return undefined;
  }
  return head.path.text;
}
const memberKinds = new Set(["part", "ballast", "assembly", "reserve", "tank", "seat", "bay"]);

function faultsIn(member: Member): readonly Fault[] {
  if (member.kind !== "assembly") return member.faults;
  return [...member.faults, ...member.members.flatMap(faultsIn)];
}

function reportTwice(members: readonly Member[], report: Report): void {
  const names = new Map<string, Member>();
  for (const member of members) {
    const first = names.get(member.name);
    if (first === undefined) names.set(member.name, member);
    else
      report(
        "declared-twice",
        member.head.path ?? member.head,
        `${member.path} is declared twice`,
        [{ at: first.head.path ?? first.head, message: "the other one" }],
      );
  }
}

/** What an option puts where nothing is. */
function reportLost(core: Core, members: readonly Member[], report: Report): void {
  for (const { words, item, budget } of core.additions) {
    const deep = words.length > 1 || (budget !== undefined && words.length === 1);
    if (deep && !members.some(it => it.name === words[0] && it.kind === "assembly"))
      report(
        "unknown-name",
        "path" in item.head && item.head.path && "words" in item.head.path
          ? item.head.path
          : item.head,
        `there is no assembly ${joinPath(core.path, words[0]!)}`,
      );
  }
}

/** A let's own faults, said where it stands. */
export function reportLet(it: Let, scope: Scope, setting: Setting, atTop: boolean): void {
  const { name } = it;
  if (name === undefined) return;
  if (reservedNames.has(name.text))
    setting.report(
      "declared-twice",
      name,
      `${name.text} is a word of the language: call this let otherwise`,
    );
  else if (scope.byName.get(name.text) !== it)
    setting.report("declared-twice", name, `${name.text} has a value already`, [
      { at: scope.byName.get(name.text)?.name ?? name, message: "the other one" },
    ]);
  // the aircraft's own lets may ask for its sums, which are not there yet
  if (it.value && !atTop) {
    const value = evaluate(it.value, { ...setting, open: [it] });
    spreadOf(it.spread, value, setting);
  }
}
const reservedNames = new Set([...keywords, ...unitWords, ...functions, "empty", "g0"]);

export const letsOf = memo((items: readonly Item[]): readonly Let[] =>
  membersOf(items).flatMap(({ head }) => (head.kind === "let" ? [head] : [])),
);

function targetOf(clauses: readonly Clause[], core: Core, setting: Setting): Target | undefined {
  const clause = clauseOf(clauses, "cg");
  if (clause?.kind !== "cg" || (clause.low === undefined && clause.high === undefined))
    return undefined;
  const axis = clause.axis ?? "FS";
  const { length } = core.units;
  return {
    axis,
    low: coordinate(clause.low?.value, length, axis, setting),
    high: coordinate(clause.high?.value, length, axis, setting),
    at: clause,
  };
}

function reserveOf(item: Item, name: string, core: Core, scope: Scope): Reserve {
  const head = item.head as Declaration;
  const { report, found } = collector();
  const setting: Setting = { scope, report, ask: noSums(report) };
  const mass = massOf(head.figure, "a reserve", setting);
  const at = clauseOf(clausesOf(item), "at");
  return {
    kind: "reserve",
    item,
    head,
    name,
    path: joinPath(core.path, name),
    mass: mass?.value,
    place: at ? inFrame(core.origin, placeOf(at.point, core.units.length, setting)) : undefined,
    outside: outsideOf(at ? [at.point] : [], core.mirrored, core, setting),
    unit: mass?.unit ?? core.units.mass,
    faults: found(),
  };
}
