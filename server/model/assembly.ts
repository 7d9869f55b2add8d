import type { Declaration, Item, RecordClause } from "../../grammar/tree";
import { functions, keywords, unitWords } from "../../grammar/words";
import { memo } from "../memo";
import { MOMENT } from "../quantity/dimension";
import { type Budget, budgetOf, type Creep, creepOf, type Target, targetOf } from "./asked";
import { declaredName, reportLost, reportStray, reportTwice } from "./block-faults";
import { clauseOf, clausesIn, clausesOf, isUnread, membersOf } from "./clauses";
import { editsInside, editsOfSide, namesSide, withoutSides } from "./edits";
import { type Core, coreInside, type Edit, joinPath, type Place, type Side } from "./env";
import { evaluate, type Setting } from "./evaluate";
import { collector, type Fault } from "./fault";
import { figure } from "./figures";
import { wayBack } from "./lets";
import { reportAgain } from "./once";
import { noSums, type Part, partOf } from "./part";
import { inFrame, movedTo, placeOf, turnedOver } from "./places";
import { growthIn, spreadIn } from "./rates";
import { governingOf, isEffective, type MassRecord, recordsOf } from "./records";
import { type Reserve, reserveOf } from "./reserve";
import { type Let, type Scope, scopeIn } from "./scope";
import { firstKnown, mentionsLater, mentionsSerials } from "./serials";
import { spreadOf } from "./spreads";
import { type Station, stationOf } from "./station";
import { type Swing, swingOf } from "./swing";

export type Member = Assembly | Part | Reserve | Station;

/** What an airframe's weighing leaves open, and how far off each scale may be: kg, one standard deviation. */
export interface Scales {
  readonly vague: { readonly fs: boolean; readonly bl: boolean };
  readonly errors: readonly { readonly mass: number; readonly place: Place }[];
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
  /** One side of something mirrored, read apart because an airframe changes one of them. */
  readonly side: Side | undefined;
  readonly budget: Budget | undefined;
  /** How much one change may add to it. */
  readonly creep: Creep | undefined;
  readonly target: Target | undefined;
  /** Weighed as a whole: governs over its parts. */
  readonly weighed: MassRecord | undefined;
  /** m of FS by a `moment` clause beside the weighed record. */
  readonly weighedFs: number | undefined;
  /** m of BL, where the scales tell. */
  readonly weighedBl: number | undefined;
  /** It is a whole airframe that was weighed: what was held back is spent. */
  readonly scales: Scales | undefined;
  /** An airframe whose weighing could not be read: its parts are not the last word on it. */
  readonly doubtful: boolean;
  /** Something in it is not understood, and may be a mass: a declaration without a name, words that cannot be read. */
  readonly broken: boolean;
  /**
   * As it was when it was weighed, where an airframe changes something inside later: the whole then
   * changes by as much.
   */
  readonly atWeighing: Assembly | undefined;
  readonly swing: Swing | undefined;
  /** Tanks, seats and bays, of all assemblies inside too. */
  readonly stations: readonly Station[];
  readonly core: Core;
  readonly scope: Scope;
  readonly faults: readonly Fault[];
}

/** An assembly inside another: `own` side of it where the two are read apart. */
export function assemblyOf(
  item: Item,
  name: string,
  outer: Core,
  scope: Scope,
  edits: readonly Edit[],
  own?: Side,
  outerWhole: Core = outer,
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
  const { length } = outer.units;
  const origin = at
    ? movedTo(placeOf(at.point, length, setting), edits, length, own ?? outer.side, setting)
    : undefined;
  const growth = growthIn(outer.growth, clauses, setting);
  const spread = spreadIn(outer.spread, clauses, setting);
  const coreWith = (around: Core, its: readonly Edit[], side: Side | undefined) =>
    coreInside(around, {
      path: joinPath(around.path, own && side ? `${name}.${own}` : name),
      units: outer.units,
      growth,
      spread,
      origin: origin ? inFrame(around.origin, { ...origin, wl: origin.wl ?? 0 }) : around.origin,
      mirrored: mirrored || outer.mirrored,
      side,
      extent: outer.extent,
      edits: its,
      serial: mentionsSerials(item, its) ? outer.serial : undefined,
      until: mentionsLater([item], its, outer.until) ? outer.until : undefined,
    });
  const side = own ?? outer.side;
  const core = coreWith(outer, edits, side);
  const whole = side === undefined ? core : coreWith(outerWhole, withoutSides(edits), undefined);
  const before = core.read.get(item) as Assembly | undefined;
  if (before !== undefined && before.scope === inner && found().length === 0) return before;
  const assembly = build(
    item,
    head,
    name,
    core,
    inner,
    item.items,
    mirrored && !outer.mirrored && own === undefined,
    swingOf(clauses, outer.origin, outer.units.length, setting, side === "LH"),
    setting,
    found,
    own,
    whole,
  );
  // a part's own sum may have been read with faults of its surroundings: those are told each time
  core.read.set(item, assembly);
  return assembly;
}

interface Entry {
  readonly item: Item;
  readonly scope: Scope;
  readonly called: string | undefined;
  /** What is done after it came in. */
  readonly edits: readonly Edit[];
  /** Put into one side alone: its places are where it is. */
  readonly sided: boolean;
  readonly first?: boolean | undefined;
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
  side?: Side,
  whole: Core = core,
): Assembly {
  let broken = false;
  const report: Setting["report"] = (...fault) => {
    broken = true;
    setting.report(...fault);
  };
  const clauses = clausesOf(item);
  reportAgain(clauses, report);
  const nameless = ({ head }: Item) => "clauses" in head && head.path === undefined;
  if (isUnread(clauses) || isUnread(clausesIn(items)) || membersOf(items).some(nameless))
    broken = true;
  let entries = membersOf(items).map((it): Entry => {
    if (core.path !== "") reportStray(it.head, "an assembly", report);
    return { item: it, scope, called: declaredName(it, report), edits: core.edits, sided: false };
  });
  const named = new Set(entries.map(it => it.called));
  core.edits.forEach((edit, i) => {
    const [called] = edit.words;
    if (called === undefined && core.path === "" && edit.does !== "budget")
      report("syntax", edit.at, "this is the whole aircraft: name something in it");
    if (edit.words.length !== 1 || called === undefined) return;
    if (edit.does === "put") {
      const { item, scope, sided, first } = edit;
      entries.push({ item, scope, called, edits: core.edits.slice(i + 1), sided, first });
      named.add(called);
    } else if (edit.does === "remove") {
      const rest = entries.filter(it => it.called !== called);
      if (rest.length === entries.length)
        report("unknown-name", edit.at, `there is no ${joinPath(core.path, called)} to remove`);
      entries = rest;
    }
  });
  const members = entries.flatMap(it => membersIn(it, core, whole, report));
  for (const it of letsOf(items)) reportLet(it, scope, setting, core.path === "");
  reportTwice(members, report);
  reportLost(core, members, named, report);

  const sides = core.mirrored ? 2 : 1;
  const recordClauses = clauses.filter((it): it is RecordClause => it.kind === "record");
  const own = core.edits.flatMap(({ does, words, clause, scope, sided }) =>
    does === "record" && words.length === 0
      ? { clause: clause as RecordClause, scope, of: sided ? 1 : sides }
      : [],
  );
  for (const clause of [...recordClauses, ...own.map(it => it.clause)])
    if (clause.basis !== "weighed")
      report(
        "syntax",
        clause,
        `an assembly may be weighed as a whole; ${clause.basis} belongs to its parts`,
      );
  const weighing = (them: readonly RecordClause[], of: number, where: Setting) =>
    recordsOf(
      them.filter(it => it.basis === "weighed"),
      undefined,
      of,
      where,
      core,
    );
  const weighed = governingOf(
    weighing(recordClauses, sides, setting),
    own.flatMap(it => weighing([it.clause], it.of, { ...setting, scope: it.scope })),
  );
  const moment = clauseOf(clauses, "moment");
  const about = moment && figure(moment.value, MOMENT, "a moment", setting);
  const weighedFs =
    about && weighed?.mass ? about.value / weighed.mass / (moment?.total ? sides : 1) : undefined;

  // what is done after the whole was weighed, which the design's own record always was before
  const since = core.edits.findIndex(
    it => it.clause !== undefined && it.clause === weighed?.clause,
  );
  const later = (edit: Edit, i: number) => edit.words.length > 0 && i > since;
  const atWeighing =
    weighed !== undefined && core.edits.some(later)
      ? build(
          item,
          head,
          name,
          coreInside(core, { ...core, edits: core.edits.filter((it, i) => !later(it, i)) }),
          scope,
          items,
          mirrored,
          swing,
          { ...setting, report: () => {} },
          () => [],
          side,
          whole,
        )
      : undefined;

  return {
    kind: "assembly",
    item,
    head,
    name,
    title: head.title?.text,
    path: core.path,
    members,
    mirrored,
    side,
    budget: budgetOf(
      clauses,
      core.edits.filter(it => it.words.length === 0),
      core,
      setting,
    ),
    creep: creepOf(clauses, core, setting),
    target: targetOf(clauses, core, setting),
    weighed,
    weighedFs,
    weighedBl: undefined,
    scales: undefined,
    doubtful: false,
    broken: broken || found().length > 0,
    atWeighing,
    swing,
    stations: [...new Set(members.flatMap(stationsOf))],
    core,
    scope,
    faults: found(),
  };
}

/** What a declaration makes: nothing that counts, one thing, or the two sides of it apart. */
function membersIn(entry: Entry, core: Core, whole: Core, report: Setting["report"]): Member[] {
  const { item, scope, called, sided, first } = entry;
  if (called === undefined) return [];
  const clauses = clausesOf(item);
  const counts = isEffective(clauseOf(clauses, "effective")?.serials, core.serial);
  const edits = editsInside(entry.edits, called);
  const mirrored = clauses.some(it => it.kind === "mirrored") && !core.mirrored;
  const placed = sided ? asItStands(core) : core;
  const until = first && core.until !== undefined ? firstKnown(item, core.until) : core.until;
  const stands = until === core.until ? placed : coreInside(placed, { ...placed, until });
  const { kind } = item.head;
  if (sided && (kind === "tank" || kind === "seat" || kind === "bay")) {
    report("syntax", item.head, `a ${kind} on one side alone stands in the design, unmirrored`);
    return [];
  }
  const members: Member[] = [];
  const add = (member: Member | undefined) => {
    if (member === undefined) return;
    if (counts) members.push(member);
    // what only other airframes have is checked all the same
    else
      for (const { code, at, message, related } of faultsIn(member))
        report(code, at, message, related);
  };
  const gone = entry.edits.filter(
    ({ does, words }) => does === "remove" && words.length === 2 && words[0] === called,
  );
  if (mirrored && canSplit(item) && (gone.length > 0 || edits.some(namesSide))) {
    for (const side of ["RH", "LH"] as const)
      if (!gone.some(it => it.words[1] === side))
        add(memberOf(item, called, stands, scope, editsOfSide(edits, side), side, whole));
  } else add(memberOf(item, called, stands, scope, edits, undefined, whole));
  return members;
}

const canSplit = ({ head }: Item) => head.kind === "part" || head.kind === "assembly";

/** One side of a mirrored assembly as a place of its own: nothing in it is turned over. */
const asItStands = (core: Core): Core =>
  coreInside(core, {
    ...core,
    side: undefined,
    mirrored: false,
    origin: core.side === "LH" ? turnedOver(core.origin) : core.origin,
  });

/** The tanks, seats and bays that a member is or holds. */
export function stationsOf(it: Member): readonly Station[] {
  if ("stations" in it) return it.stations;
  return it.kind === "tank" || it.kind === "seat" || it.kind === "bay" ? [it] : [];
}

/** Whatever may be a member, read where `core` says; undefined for what may not. */
export function memberOf(
  item: Item,
  name: string,
  core: Core,
  scope: Scope,
  edits: readonly Edit[] = editsInside(core.edits, name),
  own?: Side,
  whole: Core = core,
): Member | undefined {
  switch (item.head.kind) {
    case "part":
    case "ballast":
      return partOf(item, name, core, scope, edits, own);
    case "assembly":
      return assemblyOf(item, name, core, scope, edits, own, whole);
    case "reserve":
      return reserveOf(item, name, core, scope);
    case "tank":
    case "seat":
    case "bay":
      // what is loaded is loaded on both sides alike, whatever was done to one of them
      return stationOf(item, name, whole, scope, edits);
    default:
      return undefined;
  }
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
