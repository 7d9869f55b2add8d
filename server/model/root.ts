import type { Declaration, Item, Span, Statement, StatementOf, Word } from "../../grammar/tree";
import { memo } from "../memo";
import { DENSITY } from "../quantity/dimension";
import { type Assembly, build, letsOf, stationsOf } from "./assembly";
import { reportStray } from "./block-faults";
import { clauseOf, clausesOf, isBlockUnread, isUnread, membersOf } from "./clauses";
import { type Core, coreOf, noSpread, type Rates, type Spreads, type Units } from "./env";
import { type Envelope, envelopeOf, type Mac } from "./envelope";
import type { Setting } from "./evaluate";
import { extentIn } from "./extent";
import { collector, type Fault, type Report } from "./fault";
import { coordinate, figure } from "./figures";
import {
  type Chosen,
  checkOptions,
  chosenEdits,
  chosenLets,
  chosenOption,
  editsOf,
  nameOfOption,
  optionsOf,
  recordsIn,
  type Unchosen,
} from "./options";
import { noSums } from "./part";
import { placeOf } from "./places";
import { growthIn, spreadIn } from "./rates";
import type { Reach } from "./reach";
import { type Scope, scopeIn } from "./scope";
import { mentionsLater } from "./serials";
import { namesLength, unitsOf } from "./units-line";

/** One aircraft as designed: everything its files say, resolved. */
export interface Root {
  readonly name: string;
  readonly title: string | undefined;
  readonly reach: Reach;
  /** Absent: as designed. */
  readonly airframe: Airframe | undefined;
  /** The option that counts, by the choice's name. */
  readonly chosen: Chosen;
  /** Of an airframe, in order of their dates: those it is read with. */
  readonly changes: readonly Change[];
  /** The same airframe by its parts alone, where this is the one that was weighed. */
  readonly rolledUp: Root | undefined;
  /** The outermost assembly. */
  readonly aircraft: Assembly;
  readonly units: Units;
  /** No `units` line says what a bare coordinate is in: metres are taken. */
  readonly lengthAssumed: boolean;
  readonly mac: Mac | undefined;
  /** kg/m³, by name. */
  readonly fluids: ReadonlyMap<
    string,
    { readonly density: number | undefined; readonly head: Declaration }
  >;
  readonly envelopes: readonly Envelope[];
  readonly scope: Scope;
  /** The options that are not chosen: checked, and not counted. */
  readonly unchosen: readonly Unchosen[];
  /** All that stands at the top of its files and in its aircraft's block, by kind. */
  readonly statements: Statements;
  readonly faults: readonly Fault[];
}

/** The top of a file is the inside of the aircraft. */
export interface Statements {
  readonly loadings: readonly Item[];
  readonly choices: readonly Item[];
  readonly configurations: readonly Item[];
  readonly airframes: readonly Item[];
  readonly dated: readonly Item[];
  readonly limits: readonly StatementOf<"limit">[];
  readonly requires: readonly StatementOf<"require">[];
  readonly waives: readonly StatementOf<"waive">[];
}

/** The cores of all assemblies of an aircraft, as long as its head stands as it is. */
const tables = memo((_head: Statement) => new Map<string, Core[]>());

/** An airframe of a reach: the one that stands at `item`. */
export interface Airframe {
  readonly item: Item;
  readonly name: string;
  readonly title: string | undefined;
  readonly serial: number | undefined;
}

/** What was done to an airframe on one day. */
export interface Change {
  readonly item: Item;
  readonly name: string;
  /** ISO. */
  readonly on: string;
  readonly at: Span;
}

/** The aircraft as designed, and then each airframe of it. */
export const rootsOf = memo((reach: Reach): readonly Root[] => {
  const design = rootOf(reach, undefined, {});
  const airframes = design.statements.airframes.map(airframeOf);
  return [
    design,
    ...airframes.map(it =>
      rootOf(reach, it, { changes: changesOf(it.name, design.statements.dated) }),
    ),
  ];
});

/** The changes of an airframe in order of their dates, and as written where they share one. */
function changesOf(name: string, dated: readonly Item[]): readonly Change[] {
  return dated
    .flatMap((item): readonly Change[] => {
      const { head } = item;
      if (head.kind !== "change" || head.of?.text !== name) return [];
      return [
        { item, name: head.name?.text ?? "", on: head.on?.text ?? "", at: head.name ?? head },
      ];
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}

/** An airframe by its parts after some of its changes only. */
export function airframeAfter({ reach, airframe }: Root, how: How): Root {
  return rootOf(reach, airframe, how);
}

/** How an aircraft is read. */
interface How {
  readonly changes?: readonly Change[];
  /** A change of which the records alone count: what its removals weighed, too. */
  readonly revised?: Change | undefined;
  /** Options chosen instead, by the choices' names. */
  readonly instead?: Chosen;
  /** ISO: what was recorded later is not known yet. */
  readonly until?: string;
  /** A change whose own items count by their first record, where they have none by then. */
  readonly fitting?: Change;
}

function airframeOf(item: Item): Airframe {
  const head = item.head as StatementOf<"airframe">;
  const { name, title, serial } = head;
  return { item, name: name?.text ?? "", title: title?.text, serial };
}

/** What an airframe's own block and those of its changes declare. */
export function fittedIn({ airframe, changes }: Root): ReadonlySet<Item> {
  const blocks = [airframe?.item, ...changes.map(it => it.item)];
  return new Set(blocks.flatMap(it => membersOf(it?.items ?? [])));
}

/** The same aircraft with other options chosen, by the choices' names; the rest as it is. */
export function rootChoosing({ reach, airframe, changes }: Root, instead: Chosen): Root {
  return rootOf(reach, airframe, { changes, instead });
}

function rootOf(
  reach: Reach,
  airframe: Airframe | undefined,
  { changes = [], revised, instead, until, fitting }: How,
): Root {
  const { report, found } = collector();
  const item = reach.aircraft;
  const head = item.head as Declaration;
  const items = [...reach.files.flatMap(file => membersOf(file.items)), ...membersOf(item.items)];
  const choices = items.filter(it => it.head.kind === "choice");
  const heard = found().length;
  const chosen = new Map([...chosenBy(airframe, changes, choices, report), ...(instead ?? [])]);
  // what is chosen, fitted or changed is not understood in full, so neither is the sum
  const blocks = [...choices, ...(airframe ? [airframe.item, ...changes.map(it => it.item)] : [])];
  const broken =
    found().length > heard ||
    choices.some(it => chosenOption(it, chosen) === undefined) ||
    [...blocks, ...choices.flatMap(it => chosenOption(it, chosen) ?? [])].some(isUnreadIn);
  const scope = scopeIn(undefined, [...letsOf(items), ...chosenLets(choices, chosen)]);
  const setting: Setting = { scope, report, ask: noSums(report) };
  const clauses = clausesOf(item);
  for (const { head: stray } of reach.files.flatMap(file => membersOf(file.items)))
    if (stray.kind === "clause" && stray.clause.kind !== "unread")
      report(
        "syntax",
        stray,
        `${stray.clause.kind} stands in no block: write it in the aircraft's own`,
      );
  const units = unitsOf(item, setting);
  const byKind = (...kinds: Statement["kind"][]) =>
    items.filter(it => kinds.includes(it.head.kind));
  const elsewhere = reach.fitting.flatMap(file => membersOf(file.items));
  const fitted = (...kinds: Statement["kind"][]) =>
    elsewhere.filter(it => kinds.includes(it.head.kind));

  const name = head.path?.text ?? "aircraft";
  const fits = airframe
    ? [
        ...editsOf(airframe.item, name, scope),
        ...changes.flatMap(it => {
          const its = editsOf(it.item, name, scope);
          return it === fitting ? its.map(edit => ({ ...edit, first: true })) : its;
        }),
        ...(revised ? recordsIn(revised.item, name, scope) : []),
      ]
    : [];
  const edits = [...chosenEdits(choices, name, scope, chosen), ...fits];
  const core = coreOf(tables(head), {
    path: "",
    units,
    growth: growthIn(noGrowth, clauses, setting),
    spread: spreadIn(noSpreads, clauses, setting),
    origin: { fs: 0, bl: 0, wl: 0 },
    mirrored: false,
    extent: extentIn(clauses, units.length, setting),
    side: undefined,
    edits,
    serial: airframe?.serial,
    until: mentionsLater(items, edits, until) ? until : undefined,
  });
  const built = build(item, head, name, core, scope, items, false, undefined, setting, () => []);
  const aircraft = broken ? { ...built, broken } : built;
  // what an option would do is checked once, in the design
  const unchosen =
    airframe || instead ? [] : checkOptions(choices, letsOf(items), aircraft, setting);

  const macClause = clauseOf(clauses, "mac");
  const macFs = macClause?.at && placeOf(macClause.at, units.length, setting).fs;
  const macLength = coordinate(macClause?.length, units.length, "the chord", setting);
  const mac = macFs !== undefined && macLength ? { fs: macFs, length: macLength } : undefined;
  const fluids = new Map<string, { density: number | undefined; head: Declaration }>();
  for (const it of byKind("fluid")) {
    const fluid = it.head as Declaration;
    if (fluid.path === undefined) continue;
    const density = figure(fluid.figure, DENSITY, "a density", setting)?.value;
    if (fluids.has(fluid.path.text))
      report("declared-twice", fluid.path, `${fluid.path.text} is declared twice`);
    else fluids.set(fluid.path.text, { density, head: fluid });
  }
  const envelopes = byKind("envelope").map(it =>
    envelopeOf(it, units, mac ?? (macClause && "unknown"), scope),
  );
  // loadings share the name space of what stands in the aircraft itself
  for (const { head: loading } of byKind("loading")) {
    const word = "name" in loading ? loading.name : undefined;
    const other = word && aircraft.members.find(it => it.name === word.text);
    if (other)
      report("declared-twice", word, `${word.text} is declared twice`, [
        { at: other.head.path ?? other.head, message: "the other one" },
      ]);
  }
  const frames = [...byKind("airframe"), ...fitted("airframe")].map(it => it.head);
  for (const { head: dated } of [
    ...byKind("weighing", "change"),
    ...fitted("weighing", "change"),
  ]) {
    const of = "of" in dated ? (dated.of as Word | undefined) : undefined;
    if (of && !frames.some(it => "name" in it && it.name?.text === of.text))
      report("unknown-name", of, `no airframe is called ${of.text}`);
  }
  checkNames(byKind("envelope", "choice", "configuration", "loading", "airframe"), setting);
  const stations = [aircraft, ...unchosen.flatMap(it => it.members)].flatMap(stationsOf);
  for (const station of stations)
    if (station.fluid && !fluids.has(station.fluid.text))
      report(
        "unknown-name",
        station.fluid,
        `no fluid is called ${station.fluid.text}: write fluid ${station.fluid.text} and its density`,
      );

  const heads = <K extends Statement["kind"]>(kind: K) =>
    byKind(kind).map(it => it.head as StatementOf<K>);
  return {
    name,
    title: head.title?.text,
    reach,
    airframe,
    changes,
    chosen: new Map(
      choices.flatMap(it => {
        const name = (it.head as StatementOf<"choice">).name?.text;
        const option = chosenOption(it, chosen);
        return name && option ? [[name, nameOfOption(option)]] : [];
      }),
    ),
    rolledUp: undefined,
    aircraft,
    units,
    lengthAssumed: !namesLength(item),
    mac,
    fluids,
    envelopes,
    scope,
    unchosen,
    statements: {
      loadings: byKind("loading"),
      choices,
      configurations: byKind("configuration"),
      airframes: [...byKind("airframe"), ...fitted("airframe")],
      dated: [...byKind("weighing", "change"), ...fitted("weighing", "change")],
      limits: heads("limit"),
      requires: heads("require"),
      waives: heads("waive"),
    },
    faults: [...reach.faults, ...found(), ...envelopes.flatMap(it => it.faults)],
  };
}

const isUnreadIn = (item: Item) => isBlockUnread(item) || isUnread(clausesOf(item));

/** What an airframe chooses, and what is wrong with its block. */
function chosenBy(
  airframe: Airframe | undefined,
  changes: readonly Change[],
  choices: readonly Item[],
  report: Report,
): Chosen {
  const chosen = new Map<string, string>();
  for (const block of [airframe, ...changes]) {
    const again = new Set<string>();
    for (const { head } of membersOf(block?.item.items ?? [])) {
      reportStray(head, block === airframe ? "an airframe" : "a change", report);
      if (head.kind !== "choose" || head.choice === undefined) continue;
      const { choice: word, option } = head;
      const choice = choices.find(it => "name" in it.head && it.head.name?.text === word.text);
      const names = choice && optionsOf(choice).map(it => (it.head as Declaration).path?.text);
      if (names === undefined) report("unknown-name", word, `no choice is called ${word.text}`);
      else if (option && !names.includes(option.text))
        report(
          "unknown-name",
          option,
          `the choice ${word.text} has no option called ${option.text}`,
        );
      else if (option && again.has(word.text))
        report("declared-twice", word, `${word.text} is chosen twice`);
      else if (option) {
        chosen.set(word.text, option.text);
        again.add(word.text);
      }
    }
  }
  return chosen;
}

const noGrowth: Rates = { estimated: 0, calculated: 0, quoted: 0, weighed: 0 };
const noSpreads: Spreads = {
  estimated: noSpread,
  calculated: noSpread,
  quoted: noSpread,
  weighed: noSpread,
};

function checkNames(items: readonly Item[], setting: Setting): void {
  const seen = new Set<string>();
  for (const { head } of items) {
    if (!("name" in head) || head.name === undefined) continue;
    const key = `${head.kind} ${head.name.text}`;
    if (seen.has(key))
      setting.report(
        "declared-twice",
        head.name,
        `the ${head.kind} ${head.name.text} is declared twice`,
      );
    seen.add(key);
  }
}
