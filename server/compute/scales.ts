import type { Amount, Axis, Expr, Item, Path, Point, Span, StatementOf } from "../../grammar/tree";
import type { Member } from "../model/assembly";
import { isBlockUnread } from "../model/clauses";
import { isSide } from "../model/edits";
import type { Place } from "../model/env";
import { evaluate, type Setting } from "../model/evaluate";
import { type Outside, outsideOf } from "../model/extent";
import { collector, type Fault } from "../model/fault";
import { isPlainDate, massOf } from "../model/figures";
import { amountIn, checkRange, type Spot, spotAt } from "../model/loading";
import { noSums, type Part } from "../model/part";
import { placeOf, turnedOver } from "../model/places";
import type { Root } from "../model/root";
import { spreadOf } from "../model/spreads";
import type { Station } from "../model/station";
import { same } from "../quantity/compare";
import type { Quantity } from "../quantity/quantity";
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
  /** What adds up to it, in the order written: net readings, less what was aboard, plus what was missing. */
  readonly terms: readonly Term[];
  /** The basic empty weight: net readings, less what was aboard, plus what was missing. */
  readonly totals: Totals;
  readonly balance: Balance;
  /** How far off each scale may be, kg, one standard deviation, and where it stands. */
  readonly errors: readonly { readonly mass: number; readonly place: Place }[];
  /** One standard deviation of the mass, from them. */
  readonly spread: number;
  /** Of the same aircraft by its parts. */
  readonly rolledUp: Balance;
  /** Weighed less rolled up, and where it would sit if it is more than the scales and the parts may be off. */
  readonly unexplained: number;
  readonly unexplainedFs: number | undefined;
  /** Root of the sum of both spreads squared. */
  readonly off: number;
  /** Places of scales and of what was aboard that lie outside the aircraft. */
  readonly outside: readonly { readonly name: string; readonly outside: Outside }[];
  /** Tanks, or one side of them, that no line names. */
  readonly assumed: readonly string[];
  /** All scales stand there, m. */
  readonly oneStation: number | undefined;
  /** A figure of it is missing or wrong: it does not count. */
  readonly broken: boolean;
  /** The airframe by its parts, by what was recorded until that day. */
  readonly known: Root;
  readonly faults: readonly Fault[];
}

/** A line of a weighing, or of what was missing one thing; a negative mass comes out. kg, kg m. */
export interface Term {
  readonly name: string;
  readonly kind: "scale" | "aboard" | "missing";
  readonly at: Span;
  readonly totals: Totals;
  /** Of a scale what it read, each time, its tare included. */
  readonly reads?: readonly { readonly at: Span; readonly quantity: Quantity }[];
}

/**
 * @param root the airframe by its parts, on the day
 * @param known the same by what was recorded until then: what the scales are compared with
 */
export function weighingOf(item: Item, root: Root, known: Root): Weighing {
  const head = item.head as StatementOf<"weighing">;
  const { report, found } = collector();
  const setting: Setting = { scope: root.scope, report, ask: noSums(report) };
  const totals = none();
  const stations: number[] = [];
  const named: Named[] = [];
  const gone: Named[] = [];
  const scales = new Set<string>();
  const errors: { mass: number; place: Place }[] = [];
  const terms: Term[] = [];
  const outside: { name: string; outside: Outside }[] = [];
  const held = (name: string, { coords, ...point }: Point, axes: readonly Axis[]) => {
    const within = { ...point, coords: coords.filter(it => axes.includes(it.axis)) };
    const found = outsideOf([within], false, root.aircraft.core, setting);
    outside.push(...found.map(it => ({ name, outside: it })));
  };
  let broken = isBlockUnread(item);
  if (head.on && !isPlainDate(head.on.text))
    report("syntax", head.on, `${head.on.text} is no day of the calendar`);
  for (const { head: line } of item.items) {
    if (line.kind === "scale") {
      const net = netOf(line, setting);
      const place = line.at && placeOf(line.at, root.units.length, setting);
      const { name } = line;
      // scales stand on the floor, which is no part of the aircraft
      if (line.at) held(`the scale ${name?.text ?? ""}`.trim(), line.at, ["FS", "BL"]);
      if (name && scales.has(name.text)) {
        report("declared-twice", name, `the scale ${name.text} stands here twice`);
        broken = true;
      }
      if (name) scales.add(name.text);
      // a scale without any place, or that reads nothing, was told of when its line was read
      if (line.at && place?.fs === undefined)
        report(
          "syntax",
          line.at,
          "a scale says at which FS it stands, and BL if it is to one side",
        );
      if (net === undefined || place?.fs === undefined) {
        broken = true;
        continue;
      }
      const own = none();
      put(own, net.mass, place, false);
      merge(totals, own);
      const { reads } = net;
      terms.push({ name: name?.text ?? "scale", kind: "scale", at: line, totals: own, reads });
      stations.push(place.fs);
      errors.push({ mass: net.spread, place });
    } else if (line.kind === "aboard") {
      const out = aboard(line, root, setting, named);
      if (line.at) held(line.path?.text ?? "what is aboard", line.at, ["FS", "BL", "WL"]);
      if (out === undefined) broken = true;
      else {
        const own = none();
        subtract(own, out);
        merge(totals, own);
        const called = line.path?.text ?? "aboard";
        terms.push({ name: called, kind: "aboard", at: line, totals: own });
      }
    } else if (line.kind === "missing")
      for (const path of line.paths) {
        const back = missing(path, root, known, setting, gone);
        if (back === undefined) broken = true;
        else {
          merge(totals, back);
          terms.push({ name: path.text, kind: "missing", at: path, totals: back });
        }
      }
  }
  if (!item.items.some(it => it.head.kind === "scale")) {
    report("syntax", head.name ?? head, "a weighing has its scales: scale nose at FS … reads …");
    broken = true;
  }
  const balance = balanceOf(totals, 0);
  const rolledUp = emptyOf(known).basic;
  const spread = Math.hypot(...errors.map(it => it.mass));
  const off = Math.hypot(spread, emptyDeviation(known).mass);
  const difference = none();
  merge(difference, totals);
  subtract(difference, emptyTotals(asDrawn(known)));
  const unexplained = rounded(difference.mass);
  const says = Math.abs(unexplained) > off && rolledUp.complete;
  const first = stations[0];
  return {
    item,
    name: head.name?.text ?? "",
    at: head.name ?? head,
    on: head.on?.text ?? "",
    terms,
    totals,
    balance,
    ...{ errors, spread },
    rolledUp,
    unexplained,
    unexplainedFs: says ? rounded(difference.fs) / unexplained : undefined,
    off,
    outside,
    assumed: root.aircraft.stations.flatMap(it => assumedOf(it, named)),
    // the same place in another unit is the same to within rounding
    oneStation: stations.every(it => same(it, first ?? it)) ? first : undefined,
    broken,
    known,
    faults: found(),
  };
}

/** What a scale carried, less its tare: kg, with one standard deviation of it. */
function netOf(
  line: StatementOf<"scale">,
  setting: Setting,
):
  | { readonly mass: number; readonly spread: number; readonly reads: NonNullable<Term["reads"]> }
  | undefined {
  const reads = line.reads.map(it => massOf(it, "a reading", setting));
  const tare = line.tare === undefined ? 0 : massOf(line.tare, "a tare", setting)?.value;
  const known = reads.flatMap(it => it ?? []);
  const first = known[0];
  if (first === undefined) return undefined;
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
  const each = known.map((quantity, i) => ({ at: line.reads[i]!, quantity }));
  return { mass, spread: said ?? scatter, reads: each };
}

/** What was on board and is no part of the empty aircraft; undefined where that is not known. */
function aboard(
  line: StatementOf<"aboard">,
  root: Root,
  setting: Setting,
  named: Named[],
): Totals | undefined {
  const { path, amount, at, of } = line;
  const out = none();
  const place = at && placeOf(at, root.units.length, setting);
  const plain = path?.words.map(it => it.text).filter(it => it !== "LH" && it !== "RH");
  const known = plain && root.aircraft.stations.some(it => it.path === plain.join("."));
  if (path && known) {
    if (of && !root.fluids.has(of.text)) {
      setting.report("unknown-name", of, `no fluid is called ${of.text}`);
      return undefined;
    }
    const spot = spotAt(path, root, setting);
    if (spot === undefined || again(path, named, setting)) return undefined;
    if (amount === undefined || (amount.value === undefined && !amount.full)) {
      setting.report("syntax", path, `how much was in ${path.text}?`);
      return undefined;
    }
    const mass = amountIn(withFluid(spot, line), amount, root, setting);
    const { station, side } = spot;
    if (mass === undefined || !fits(withFluid(spot, line), mass, amount, root, setting))
      return undefined;
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

/** A person on board may be of any weight; a tank holds what it holds. */
const fits = ({ station }: Spot, mass: number, amount: Amount, root: Root, setting: Setting) =>
  station.kind !== "tank" || checkRange(station, mass, amount, root, setting);

/** The words of a path without its sides, and the sides. */
interface Named {
  readonly words: readonly string[];
  readonly side: string | undefined;
}

/** Is it, or something it is in or that is in it, named already, on a side that is meant? */
function again(path: Path, before: Named[], setting: Setting): boolean {
  const all = path.words.map(it => it.text);
  const words = all.filter(it => !isSide(it));
  const side = all.find(isSide);
  const other = before.some(
    it =>
      it.words.every((word, i) => i >= words.length || word === words[i]) &&
      !(side !== undefined && it.side !== undefined && side !== it.side),
  );
  before.push({ words, side });
  if (other)
    setting.report("declared-twice", path, `${path.text} is in this weighing already: once is all`);
  return other;
}

/** What is to be said of a tank's contents that no line says. */
function assumedOf({ kind, operating, path, mirrored }: Station, named: readonly Named[]) {
  if (kind !== "tank" || operating) return [];
  const sides = named.filter(it => it.words.join(".") === path).map(it => it.side);
  if (sides.includes(undefined)) return [];
  if (sides.length === 0) return [path];
  return mirrored
    ? (["RH", "LH"] as const).filter(it => !sides.includes(it)).map(it => `${path}.${it}`)
    : [];
}

/** What was not there and belongs to the empty aircraft; undefined where that is not known. */
function missing(
  path: Path,
  root: Root,
  known: Root,
  setting: Setting,
  gone: Named[],
): Totals | undefined {
  // what was recorded later counts only where nothing else says what was missing
  const then = membersAt(known, path.text);
  const found = then.length > 0 && then.every(hasMass) ? then : membersAt(root, path.text);
  const members = path.text === root.name ? [] : found;
  const say = (code: "syntax" | "unknown-name", message: string) => {
    setting.report(code, path, message);
    return undefined;
  };
  if (path.text === root.name)
    return say("syntax", "this is the whole aircraft: name what was missing");
  if (members.length === 0)
    return say("unknown-name", `nothing is called ${path.text} in ${root.airframe!.name}`);
  const totals = none();
  for (const it of members) {
    const { member } = it;
    if (isStation(member))
      return say("syntax", `${path.text} is a ${member.kind}: what was in it is said by aboard`);
    if (member.kind === "reserve")
      return say("syntax", `${path.text} is a reserve: nothing of it was ever there`);
    if (!hasMass(it))
      return say("syntax", `${path.text} has no mass yet: what was missing is not known`);
    merge(totals, totalsOf(it));
  }
  return again(path, gone, setting) ? undefined : totals;
}

const hasMass = ({ member }: MemberAt) =>
  member.kind === "assembly"
    ? oneSide(member).unknown === 0
    : "mass" in member && member.mass !== undefined;

const isStation = (member: Member): member is Station =>
  member.kind === "tank" || member.kind === "seat" || member.kind === "bay";

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
