import Fraction from "fraction.js";
import type { Clause, Declaration, Item, Point, RecordClause, Statement } from "../../grammar/tree";
import { count, kilograms, type Lets, lengthAmong, metres, momentOf, zero } from "./exact";
import { axes, centre, massAt, nothing, type Place, plus, type Sum, turned } from "./sums";

/** What an assembly weighs: reserves are in the predicted sum, growth acts where its part is. */
export interface Weighed {
  readonly basic: Sum;
  readonly growth: Sum;
  readonly reserve: Sum;
}

/**
 * Every assembly of an aircraft as designed, by its path (each side by its own, "" the aircraft), in
 * exact fractions, written apart from the engine: its own units, its own reading of the records, no
 * floating point. Choices stand beside the aircraft here, not in an assembly.
 */
export function weigh(files: readonly (readonly Item[])[]): ReadonlyMap<string, Weighed> {
  const top = files.flat();
  const aircraft = top.find(it => it.head.kind === "aircraft")!;
  const items = [...top, ...aircraft.items];
  const chosen = items.filter(it => it.head.kind === "choice").flatMap(optionOf);
  const lets = letsIn([...items, ...chosen], new Map());
  const whole: Inside = {
    path: "",
    rates: ratesIn(clausesOf(aircraft), new Map(), lets),
    origin: { FS: zero, BL: zero, WL: zero },
    bare: lengthAmong(unitsIn(clausesOf(aircraft))),
    lets,
    sides: 1,
    chosen,
    chosenLets: lets,
  };
  const { own, inside } = assembly(items, clausesOf(aircraft), whole);
  return new Map([["", own], ...inside]);
}

const unitsIn = (clauses: readonly Clause[]) =>
  clauses
    .flatMap(it => (it.kind === "units" ? it.units.flatMap(({ unit }) => unit) : []))
    .map(({ name }) => name);

type Rates = ReadonlyMap<string, Fraction>;

/** What holds for everything in an assembly. */
interface Inside {
  readonly path: string;
  readonly rates: Rates;
  readonly origin: Place;
  /** Metres of a bare number. */
  readonly bare: Fraction;
  readonly lets: Lets;
  readonly sides: 1 | 2;
  /** What the chosen options declare, anywhere. */
  readonly chosen: readonly Item[];
  readonly chosenLets: Lets;
}

interface Assembled {
  /** Of one side. */
  readonly own: Weighed;
  /** The assemblies inside by their path. */
  readonly inside: readonly (readonly [string, Weighed])[];
}

function assembly(items: readonly Item[], own: readonly Clause[], here: Inside): Assembled {
  let total: Weighed = { basic: nothing, growth: nothing, reserve: nothing };
  const inside: (readonly [string, Weighed])[] = [];
  const unplaced: Fraction[] = [];
  const added = here.chosen.filter(it => pathOf(it).slice(0, -1).join(".") === here.path);
  const members = [
    ...items.map(item => ({ item, lets: here.lets })),
    ...added.map(item => ({ item, lets: here.chosenLets })),
  ];
  for (const { item, lets } of members) {
    const { head } = item;
    const name = pathOf(item).at(-1);
    const clauses = clausesOf(item);
    if (!("clauses" in head) || name === undefined || !isNewest(clauses)) continue;
    const mirrored = clauses.some(it => it.kind === "mirrored");
    const around: Inside = { ...here, lets, sides: mirrored ? 2 : here.sides };
    if (head.kind === "assembly") {
      const found = nested(item, name, clauses, around);
      for (const [side, turn] of mirrored ? bothSides : oneSide)
        inside.push(
          [`${name}${side}`, turn(found.own)],
          ...found.inside.map(([path, it]) => [`${name}${side}.${path}`, turn(it)] as const),
        );
      total = both(total, found.own, mirrored);
    } else if (head.kind === "part" || head.kind === "ballast")
      total = both(total, part(head, clauses, around), mirrored);
    else if (head.kind === "reserve" && head.figure) {
      const at = clauses.find(it => it.kind === "at");
      const mass = kilograms(head.figure, lets);
      if (at?.kind === "at")
        total = { ...total, reserve: plus(total.reserve, massAt(mass, placeOf(at.point, around))) };
      else unplaced.push(mass);
    }
  }
  const weighed = governing(own, undefined);
  if (weighed) {
    const mass = pieceOf(weighed, 1, here);
    total = { ...total, basic: massAt(mass, centre(total.basic)), growth: nothing };
  }
  const held = unplaced.map(mass => massAt(mass, centre(total.basic))).reduce(plus, nothing);
  return { own: { ...total, reserve: plus(total.reserve, held) }, inside };
}

function nested(item: Item, name: string, clauses: readonly Clause[], outer: Inside): Assembled {
  const lets = letsIn(item.items, outer.lets);
  const at = clauses.find(it => it.kind === "at");
  return assembly(item.items, clauses, {
    ...outer,
    path: outer.path === "" ? name : `${outer.path}.${name}`,
    rates: ratesIn(clauses, outer.rates, lets),
    // a frame whose height is not said stands at the height of the one around it
    origin: at?.kind === "at" ? { ...outer.origin, ...placeOf(at.point, outer) } : outer.origin,
    lets,
  });
}

function part(head: Declaration, clauses: readonly Clause[], here: Inside): Weighed {
  const qty = clauses.find(it => it.kind === "qty");
  const n = qty?.kind === "qty" && qty.value ? count(qty.value, here.lets) : new Fraction(1);
  const rev = clauses.find(it => it.kind === "rev");
  const record = governing(clauses, rev?.kind === "rev" ? rev.text?.text : undefined);
  const figure = head.kind === "ballast" ? head.figure : undefined;
  const mass = record
    ? pieceOf(record, n.valueOf(), here).mul(n)
    : figure
      ? kilograms(figure, here.lets).mul(n)
      : zero;
  const rates = ratesIn(clauses, here.rates, here.lets);
  const rate = (record && rates.get(record.basis)) ?? zero;
  const place = placeOfPart(clauses, record, n.valueOf(), here);
  return { basic: massAt(mass, place), growth: massAt(mass.mul(rate), place), reserve: nothing };
}

/** Kilograms of one piece of one side. */
function pieceOf({ figure, total }: RecordClause, n: number, { lets, sides }: Inside): Fraction {
  const mass = kilograms(figure!, lets);
  return total ? mass.div(n * sides) : mass;
}

function placeOfPart(
  clauses: readonly Clause[],
  governs: RecordClause | undefined,
  n: number,
  here: Inside,
): Place {
  const at = clauses.find(it => it.kind === "at");
  const span = clauses.find(it => it.kind === "span");
  const moment = clauses.find(it => it.kind === "moment");
  let place: Place = at?.kind === "at" ? placeOf(at.point, here) : {};
  if (span?.kind === "span" && span.end) {
    const ends = [placeOf(span.start, here), placeOf(span.end, here)] as const;
    const both = axes.filter(axis => ends[0][axis] && ends[1][axis]);
    place = Object.fromEntries(both.map(axis => [axis, ends[0][axis]!.add(ends[1][axis]!).div(2)]));
  }
  if (moment?.kind !== "moment" || !moment.value) return place;
  const before = clauses.slice(0, clauses.indexOf(moment)).findLast(it => it.kind === "record");
  const record = before?.kind === "record" ? before : governs!;
  const mass = pieceOf(record, n, here).mul(moment.total ? n * here.sides : 1);
  return { ...place, FS: momentOf(moment.value, here.lets).div(mass) };
}

/** In the aircraft's axes. BL is 0 unless said; an axis with nothing behind it is not known. */
function placeOf(point: Point, { origin, bare, lets }: Inside): Place {
  const coords = point.coords.flatMap(({ axis, value }) =>
    value ? [[axis, metres(value, lets, bare)] as const] : [],
  );
  const said = { BL: zero, ...Object.fromEntries(coords) } as Place;
  return Object.fromEntries(
    axes.flatMap(axis => (said[axis] ? [[axis, said[axis].add(origin[axis] ?? zero)]] : [])),
  );
}

const maturity = ["estimated", "calculated", "quoted", "weighed"];

function governing(
  clauses: readonly Clause[],
  revOfPart: string | undefined,
): RecordClause | undefined {
  const records = clauses.filter(it => it.kind === "record");
  const newest = revOfPart ?? records.findLast(it => it.rev)?.rev?.text;
  const key = (it: RecordClause) => `${maturity.indexOf(it.basis)} ${it.on?.text ?? ""}`;
  return records
    .filter(it => !it.was && it.figure && (!it.rev || it.rev.text === newest))
    .filter(it => it.effective === undefined || it.effective.last === undefined)
    .reduce<RecordClause | undefined>(
      (best, it) => (best && key(it) < key(best) ? best : it),
      undefined,
    );
}

/** The design has no serial number and is the newest. */
const isNewest = (clauses: readonly Clause[]) =>
  clauses.every(it => it.kind !== "effective" || it.serials.last === undefined);

function ratesIn(clauses: readonly Clause[], outer: Rates, lets: Lets): Rates {
  const rates = new Map(outer);
  for (const it of clauses)
    if (it.kind === "growth")
      for (const { basis, value } of it.rates)
        for (const one of basis ? [basis] : maturity.slice(0, 3))
          rates.set(one, count(value!, lets));
  return rates;
}

function letsIn(items: readonly Item[], outer: Lets): Lets {
  const lets = new Map(outer);
  for (const { head } of items)
    if (head.kind === "let" && head.name && head.value)
      lets.set(head.name.text, { expr: head.value, lets });
  return lets;
}

/** The default option of a choice, else its first. */
function optionOf(choice: Item): readonly Item[] {
  const { standard } = choice.head as Extract<Statement, { kind: "choice" }>;
  const options = choice.items.filter(it => it.head.kind === "option");
  return (options.find(it => pathOf(it)[0] === standard?.text) ?? options[0])?.items ?? [];
}

function clausesOf({ head, items }: Item): readonly Clause[] {
  const own = "clauses" in head ? head.clauses : [];
  return [...own, ...items.flatMap(it => (it.head.kind === "clause" ? [it.head.clause] : []))];
}

const pathOf = ({ head }: Item): readonly string[] =>
  "clauses" in head ? (head.path?.words.map(it => it.text) ?? []) : [];

const same = (it: Weighed) => it;
const other = ({ basic, growth, reserve }: Weighed): Weighed => ({
  basic: turned(basic),
  growth: turned(growth),
  reserve: turned(reserve),
});
const oneSide = [["", same]] as const;
const bothSides = [
  [".RH", same],
  [".LH", other],
] as const;

function both(total: Weighed, right: Weighed, mirrored: boolean): Weighed {
  const sum = mirrored ? add(right, other(right)) : right;
  return add(total, sum);
}

const add = (a: Weighed, b: Weighed): Weighed => ({
  basic: plus(a.basic, b.basic),
  growth: plus(a.growth, b.growth),
  reserve: plus(a.reserve, b.reserve),
});
