import type { Amount, Expr, Item, RecordClause, Span, StatementOf } from "../../grammar/tree";
import { memo } from "../memo";
import type { Member } from "../model/assembly";
import type { Place } from "../model/env";
import { evaluate, type Setting } from "../model/evaluate";
import { collector, type Fault } from "../model/fault";
import { isPlainDate, massOf } from "../model/figures";
import { amountIn, type Spot, spotAt } from "../model/loading";
import { noSums, type Part } from "../model/part";
import { placeOf, turnedOver } from "../model/places";
import { airframeAfter, type Change, type Root } from "../model/root";
import { spreadOf } from "../model/spreads";
import { empty } from "./contents";
import { rounded } from "./exact";
import { type MemberAt, membersAt } from "./member-at";
import { asDrawn, emptyOf, emptyTotals, putContents } from "./stages";
import {
  type Balance,
  balanceOf,
  both,
  merge,
  none,
  oneSide,
  put,
  subtract,
  type Totals,
} from "./weight";
import { emptyDeviation } from "./whole";

/** An airframe on its scales, and what that makes of its empty weight. kg, m. */
export interface Weighing {
  readonly item: Item;
  readonly name: string;
  readonly at: Span;
  /** ISO. */
  readonly on: string;
  /** The basic empty weight: net readings, less what was aboard, plus what was missing. */
  readonly totals: Totals;
  readonly balance: Balance;
  /** One standard deviation of the mass, from the scales. */
  readonly spread: number;
  /** Of the same aircraft by its parts. */
  readonly rolledUp: Balance;
  /** Weighed less rolled up, and where it would sit if it is more than the scales and the parts may be off. */
  readonly unexplained: number;
  readonly unexplainedFs: number | undefined;
  /** Root of the sum of both spreads squared. */
  readonly off: number;
  /** Tanks that no line names. */
  readonly assumed: readonly string[];
  /** All scales stand there, m. */
  readonly oneStation: number | undefined;
  /** A figure of it is missing or wrong: it does not count. */
  readonly broken: boolean;
  readonly faults: readonly Fault[];
}

/**
 * The weighings of an airframe, in order of their dates. Readings less tare, moments about the datum
 * (FAA-H-8083-1B, chapter 3: the sum of net weights and of their moments); repeated readings are averaged,
 * and the scatter of their mean is their spread (JCGM 100:2008, 4.2.3); scales are independent.
 * @param root the airframe by its parts
 */
export const weighingsOf = memo((root: Root): readonly Weighing[] => {
  const { airframe } = root;
  if (airframe === undefined) return [];
  return root.statements.dated
    .filter(({ head }) => head.kind === "weighing" && head.of?.text === airframe.name)
    .map(item => {
      const on = (item.head as StatementOf<"weighing">).on?.text ?? "";
      // on the day of a weighing a change counts as after it
      const before = root.changes.filter(it => it.on < on);
      return weighingOf(
        item,
        before.length === root.changes.length ? root : airframeAfter(root, before),
      );
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
    .map((it, i, sorted) => {
      if (it.on === "" || sorted[i - 1]?.on !== it.on) return it;
      const message = `${airframe.name} was weighed on that day already: which of the two counts?`;
      const related = [{ at: sorted[i - 1]!.at, message: "the other one" }];
      return {
        ...it,
        faults: [...it.faults, { code: "declared-twice", at: it.at, message, related }],
      };
    });
});

/** The last one that counts. */
export const lastWeighing = (root: Root): Weighing | undefined =>
  weighingsOf(root).findLast(it => !it.broken);

/**
 * An airframe that was weighed: a whole that governs over its parts, growth and reserves spent; its WL
 * stays the one of its parts.
 */
export const asWeighed = memo((root: Root): Root => weighedInstead(root, root));

/**
 * The same of an airframe that would be `root` by its parts instead: what differs comes in and goes out as
 * with a change.
 * @param weighed the airframe by its parts, as it is
 */
export function weighedInstead(weighed: Root, root: Root): Root {
  const weighing = lastWeighing(weighed);
  if (weighing === undefined) return root;
  const parts = none();
  merge(parts, weighing.totals);
  merge(parts, emptyTotals(asDrawn(root)));
  subtract(parts, emptyTotals(asDrawn(weighed)));
  for (const change of weighed.changes)
    if (change.on >= weighing.on) merge(parts, changeOf(weighed, change));
  for (const [station, contents] of empty(root)) {
    const fluid = none();
    putContents(fluid, station, contents, asDrawn(root));
    subtract(parts, fluid);
  }
  const balance = balanceOf(parts, 0);
  const head = weighing.item.head as StatementOf<"weighing">;
  const clause: RecordClause = {
    ...{ line: head.line, from: weighing.at.from, to: weighing.at.to },
    ...{ kind: "record", was: false, basis: "weighed", total: false, notes: [] },
    ...{ figure: undefined, spread: undefined, by: undefined, rev: undefined },
    ...{ on: head.on, effective: undefined },
  };
  return {
    ...root,
    rolledUp: root,
    aircraft: {
      ...root.aircraft,
      atWeighing: undefined,
      weighed: {
        ...{ clause, basis: "weighed", mass: balance.mass, unit: root.units.mass, pieces: 1 },
        ...{ spread: weighing.spread, leans: [], history: false },
      },
      weighedFs: balance.fs ?? undefined,
      weighedBl: balance.bl ?? undefined,
      onScales: true,
    },
  };
}

/**
 * What a change does to the basic empty weight, kg and kg m: what it installs comes in and what it removes
 * goes out; what it only re-weighs was there all along.
 * @param root the airframe by its parts
 */
export function changeOf(root: Root, change: Change): Totals {
  const i = root.changes.indexOf(change);
  const sum = none();
  merge(sum, emptyTotals(asDrawn(airframeAfter(root, root.changes.slice(0, i + 1)))));
  subtract(sum, emptyTotals(asDrawn(airframeAfter(root, root.changes.slice(0, i), change))));
  return sum;
}

function weighingOf(item: Item, root: Root): Weighing {
  const head = item.head as StatementOf<"weighing">;
  const { report, found } = collector();
  const setting: Setting = { scope: root.scope, report, ask: noSums(report) };
  const totals = none();
  const stations: number[] = [];
  const named = new Set<string>();
  let variance = 0;
  let broken = false;
  if (head.on && !isPlainDate(head.on.text))
    report("syntax", head.on, `${head.on.text} is no day of the calendar`);
  for (const { head: line } of item.items) {
    if (line.kind === "scale") {
      const net = netOf(line, setting);
      const place = line.at && placeOf(line.at, root.units.length, setting);
      if (place?.fs === undefined)
        report(
          "syntax",
          line,
          "a scale says where it stands: at FS …, and BL if it is to one side",
        );
      if (net === undefined || place?.fs === undefined) {
        broken = true;
        continue;
      }
      put(totals, net.mass, place, false);
      stations.push(place.fs);
      variance += net.spread ** 2;
    } else if (line.kind === "aboard") {
      const out = aboard(line, root, setting, named);
      if (out === undefined) broken = true;
      else subtract(totals, out);
    } else if (line.kind === "missing")
      for (const path of line.paths) {
        const members = membersAt(root, path.text);
        if (members.length === 0) {
          report("unknown-name", path, `nothing is called ${path.text} in ${root.airframe!.name}`);
          broken = true;
        }
        for (const it of members) merge(totals, totalsOf(it));
      }
  }
  if (!item.items.some(it => it.head.kind === "scale")) {
    report("syntax", head.name ?? head, "a weighing has its scales: scale nose at FS … reads …");
    broken = true;
  }
  const balance = balanceOf(totals, 0);
  const rolledUp = emptyOf(root).basic;
  const off = Math.hypot(Math.sqrt(variance), emptyDeviation(root).mass);
  const difference = none();
  merge(difference, totals);
  subtract(difference, emptyTotals(asDrawn(root)));
  const unexplained = rounded(difference.mass);
  const says = Math.abs(unexplained) > off && rolledUp.complete;
  const first = stations[0];
  return {
    item,
    name: head.name?.text ?? "",
    at: head.name ?? head,
    on: head.on?.text ?? "",
    totals,
    balance,
    spread: Math.sqrt(variance),
    rolledUp,
    unexplained,
    unexplainedFs: says ? rounded(difference.fs) / unexplained : undefined,
    off,
    assumed: root.aircraft.stations.flatMap(it =>
      it.kind === "tank" && !it.operating && !named.has(it.path) ? it.path : [],
    ),
    oneStation: stations.every(it => it === first) ? first : undefined,
    broken,
    faults: found(),
  };
}

/** What a scale carried, less its tare: kg, with one standard deviation of it. */
function netOf(
  line: StatementOf<"scale">,
  setting: Setting,
): { readonly mass: number; readonly spread: number } | undefined {
  const reads = line.reads.map(it => massOf(it, "a reading", setting));
  const tare = line.tare === undefined ? 0 : massOf(line.tare, "a tare", setting)?.value;
  const known = reads.flatMap(it => it ?? []);
  const first = known[0];
  if (first === undefined) {
    if (reads.length === 0)
      setting.report("syntax", line.name ?? line, "a scale reads something: reads 145.2 lb");
    return undefined;
  }
  if (known.length < reads.length || tare === undefined) return undefined;
  const count = known.length;
  const mean = known.reduce((sum, it) => sum + it.value, 0) / count;
  const mass = mean - tare;
  if (mass < 0) {
    setting.report("out-of-range", line.reads[0]!, "this scale reads less than its tare");
    return undefined;
  }
  const said = line.spread && spreadOf(line.spread, { ...first, value: mean }, setting);
  const squares = known.reduce((sum, it) => sum + (it.value - mean) ** 2, 0);
  const scatter = count > 1 ? Math.sqrt(squares / (count - 1) / count) : 0;
  return { mass, spread: said ?? scatter };
}

/** What was on board and is no part of the empty aircraft; undefined where that is not known. */
function aboard(
  line: StatementOf<"aboard">,
  root: Root,
  setting: Setting,
  named: Set<string>,
): Totals | undefined {
  const { path, amount, at } = line;
  const out = none();
  const place = at && placeOf(at, root.units.length, setting);
  const plain = path?.words.map(it => it.text).filter(it => it !== "LH" && it !== "RH");
  const known = plain && root.aircraft.stations.some(it => it.path === plain.join("."));
  if (path && known) {
    const spot = spotAt(path, root, setting);
    const mass = spot && amount && amountIn(withFluid(spot, line), amount, root, setting);
    if (spot === undefined || mass === undefined) return undefined;
    named.add(spot.station.path);
    const { station, side } = spot;
    const contents = {
      right: side === "LH" ? 0 : mass,
      left: station.mirrored && side !== "RH" ? mass : 0,
      place,
    };
    putContents(out, station, contents, asDrawn(root));
    // all of it comes out, and what the empty aircraft has in it goes in, on the sides that are meant
    const own = empty(root).get(station);
    if (own) {
      const right = side === "LH" ? 0 : own.right;
      const left = side === "RH" ? 0 : own.left;
      const back = none();
      putContents(back, station, { right, left, place: undefined }, asDrawn(root));
      subtract(out, back);
    }
    return out;
  }
  const mass = massIn(amount, line, setting);
  if (mass === undefined) return undefined;
  if (place?.fs === undefined) {
    setting.report("syntax", path ?? line, "where does it lie? at FS …");
    return undefined;
  }
  put(out, mass, place, false);
  return out;
}

/** Of another fluid than the tank's own: its density counts. */
const withFluid = (spot: Spot, { of }: StatementOf<"aboard">): Spot =>
  of === undefined ? spot : { ...spot, station: { ...spot.station, fluid: of } };

function massIn(amount: Amount | undefined, at: Span, setting: Setting): number | undefined {
  const expr: Expr | undefined = amount?.value;
  if (expr === undefined) setting.report("syntax", at, "how much of it? a mass is wanted here");
  return expr && evaluate(expr, setting) && massOf(expr, "what is aboard", setting)?.value;
}

/** The governing mass of something, where it lies: of both sides where the path names none. */
export function totalsOf({ member, side, pair }: MemberAt): Totals {
  const totals = none();
  if (member.kind === "assembly") {
    const weight = oneSide(member);
    merge(totals, (pair ? both(weight) : weight).basic);
    if (side === "LH") for (let i = 0; i < totals.bl.length; i++) totals.bl[i] = -totals.bl[i]!;
  } else if (isPart(member) && member.mass !== undefined) {
    const place: Place = side === "LH" ? turnedOver(member.place) : member.place;
    put(totals, member.mass, place, pair);
  }
  return totals;
}

const isPart = (member: Member): member is Part =>
  member.kind === "part" || member.kind === "ballast";
