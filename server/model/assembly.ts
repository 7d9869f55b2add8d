import type { Clause, Declaration, Item, RecordClause, Span } from "../../grammar/tree";
import { functions, keywords, unitWords } from "../../grammar/words";
import { memo } from "../memo";
import { MOMENT } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { declaredName, isSide, reportLost, reportStray, reportTwice } from "./block-faults";
import { clauseOf, clausesOf, membersOf } from "./clauses";
import { type Addition, type Core, coreInside, joinPath, type Place } from "./env";
import { evaluate, type Setting } from "./evaluate";
import { type Outside, outsideOf } from "./extent";
import { collector, type Fault } from "./fault";
import { coordinate, figure, massOf } from "./figures";
import { wayBack } from "./lets";
import { reportAgain } from "./once";
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
  const bothSides = mirrored ? additions.filter(it => !isSide(it.words[0])) : additions;
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
    additions: bothSides,
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
  reportAgain(clauses, report);
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
  for (const it of membersOf(items)) {
    if (core.path !== "") reportStray(it.head, "an assembly", report);
    add(it, scope, declaredName(it, report));
  }
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

  return {
    kind: "assembly",
    item,
    head,
    name,
    title: head.title?.text,
    path: core.path,
    members,
    mirrored,
    budget: budgetOf(clauses, core, setting),
    target: targetOf(clauses, core, setting),
    weighed,
    weighedFs,
    swing,
    stations: members.flatMap(stationsOf),
    core,
    scope,
    faults: found(),
  };
}

/** The tanks, seats and bays that a member is or holds. */
export function stationsOf(it: Member): readonly Station[] {
  if ("stations" in it) return it.stations;
  return it.kind === "tank" || it.kind === "seat" || it.kind === "bay" ? [it] : [];
}

/** Whatever may be a member, read where `core` says; undefined for what may not. */
export function memberOf(item: Item, name: string, core: Core, scope: Scope): Member | undefined {
  switch (item.head.kind) {
    case "part":
    case "ballast":
      return partOf(item, name, core, scope);
    case "assembly": {
      return assemblyOf(item, name, core, scope, additionsInside(core.additions, name));
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

/** Those that lead into an assembly, as seen from there. */
export function additionsInside(additions: readonly Addition[], name: string): readonly Addition[] {
  return additions.flatMap(it =>
    it.words[0] === name && (it.words.length > 1 || it.budget)
      ? [{ ...it, words: it.words.slice(1) }]
      : [],
  );
}

export function faultsIn(member: Member): readonly Fault[] {
  if (member.kind !== "assembly") return member.faults;
  return [...member.faults, ...member.members.flatMap(faultsIn)];
}

/** A let's own faults, said where it stands. */
export function reportLet(it: Let, scope: Scope, setting: Setting, atTop: boolean): void {
  const { name } = it;
  if (name === undefined) return;
  if (reservedNames.has(name.text))
    setting.report(
      "declared-twice",
      name,
      `${name.text} is a word of the language: give this let another name`,
    );
  else if (scope.byName.get(name.text) !== it)
    setting.report("declared-twice", name, `${name.text} has a value already`, [
      { at: scope.byName.get(name.text)?.name ?? name, message: "the other one" },
    ]);
  const back = wayBack(it, scope);
  if (back) setting.report("unknown-name", back, `${name.text} hangs on itself`);
  // the aircraft's own lets may ask for its sums, which are not there yet
  if (it.value && !atTop) {
    const value = evaluate(it.value, setting);
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
  const clauses = clausesOf(item);
  reportAgain(clauses, report);
  const at = clauseOf(clauses, "at");
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
