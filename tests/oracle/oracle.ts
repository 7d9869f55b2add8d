import Fraction from "fraction.js";
import type {
  Clause,
  Declaration,
  Expr,
  Item,
  Point,
  RecordClause,
  Statement,
} from "../../grammar/tree";

/**
 * What an aircraft weighs, in exact fractions of pounds and inches, written apart from the engine: its
 * own unit table, its own reading of the records, no floating point anywhere.
 */
export interface Sum {
  readonly mass: Fraction;
  readonly growth: Fraction;
  readonly reserve: Fraction;
  /** Of the basic mass. */
  readonly fs: Fraction;
  readonly bl: Fraction;
}

type Rates = ReadonlyMap<string, Fraction>;
type Lets = ReadonlyMap<string, Expr>;

/** kg, m and s in fractions: exact definitions. */
const units: Readonly<Record<string, Fraction>> = {
  g: new Fraction("0.001"),
  kg: new Fraction(1),
  lb: new Fraction("0.45359237"),
  oz: new Fraction("0.45359237").div(16),
  in: new Fraction("0.0254"),
  ft: new Fraction("0.3048"),
  cm: new Fraction("0.01"),
  gal: new Fraction("0.003785411784"),
  qt: new Fraction("0.003785411784").div(4),
  "%": new Fraction("0.01"),
};

const zero = new Fraction(0);
const basesWithGrowth = ["estimated", "calculated", "quoted"];
const order = ["estimated", "calculated", "quoted", "weighed"];

/** Every assembly of one side by its path, "" being the aircraft with both sides of everything. */
export function weigh(files: readonly (readonly Item[])[]): ReadonlyMap<string, Sum> {
  const items = files.flat();
  const aircraft = items.find(it => it.head.kind === "aircraft")!;
  const all = [...items, ...aircraft.items];
  const extra = all.filter(it => it.head.kind === "choice").flatMap(chosen);
  const sums = new Map<string, Sum>();
  const rates = ratesIn(clauses(aircraft), new Map());
  assembly("", all, [], rates, { fs: zero, bl: zero }, letsIn(all, new Map()), extra, sums);
  return sums;
}

function chosen(choice: Item): readonly Item[] {
  const { standard } = choice.head as Extract<Statement, { kind: "choice" }>;
  const options = choice.items.filter(it => it.head.kind === "option");
  const named = options.find(it => (it.head as Declaration).path?.text === standard?.text);
  return (named ?? options[0])?.items ?? [];
}

function assembly(
  path: string,
  items: readonly Item[],
  own: readonly Clause[],
  rates: Rates,
  origin: { fs: Fraction; bl: Fraction },
  lets: Lets,
  extra: readonly Item[],
  sums: Map<string, Sum>,
): Sum {
  let total: Sum = { mass: zero, growth: zero, reserve: zero, fs: zero, bl: zero };
  const add = (sum: Sum, pair: boolean) => {
    const times = new Fraction(pair ? 2 : 1);
    total = {
      mass: total.mass.add(sum.mass.mul(times)),
      growth: total.growth.add(sum.growth.mul(times)),
      reserve: total.reserve.add(sum.reserve.mul(times)),
      fs: total.fs.add(sum.fs.mul(times)),
      bl: total.bl.add(pair ? zero : sum.bl),
    };
  };
  const here = extra.filter(it => parentOf(it) === path);
  for (const item of [...items, ...here]) {
    const { head } = item;
    if (!("clauses" in head) || head.path === undefined) continue;
    const all = clauses(item);
    const name = head.path.words.at(-1)!.text;
    const mirrored = all.some(it => it.kind === "mirrored");
    if (head.kind === "assembly") {
      const at = all.find(it => it.kind === "at");
      const shift = at?.kind === "at" ? place(at.point, lets) : { fs: zero, bl: zero };
      const inside = assembly(
        path === "" ? name : `${path}.${name}`,
        item.items,
        all,
        ratesIn(all, rates),
        { fs: origin.fs.add(shift.fs), bl: origin.bl.add(shift.bl) },
        letsIn(item.items, lets),
        extra,
        sums,
      );
      add(inside, mirrored);
    } else if (head.kind === "part" || head.kind === "ballast")
      add(part(head, all, rates, origin, lets), mirrored);
    else if (head.kind === "reserve")
      total = { ...total, reserve: total.reserve.add(value(head.figure!, lets)) };
  }
  const whole = governing(own);
  if (whole !== undefined && total.mass.compare(0) > 0) {
    const mass = value(whole.figure!, lets);
    const share = mass.div(total.mass);
    total = { ...total, mass, growth: zero, fs: total.fs.mul(share), bl: total.bl.mul(share) };
  }
  sums.set(path, total);
  return total;
}

function part(
  head: Declaration,
  all: readonly Clause[],
  rates: Rates,
  origin: { fs: Fraction; bl: Fraction },
  lets: Lets,
): Sum {
  const record = governing(all);
  const qty = all.find(it => it.kind === "qty");
  const pieces = qty?.kind === "qty" && qty.value ? value(qty.value, lets) : new Fraction(1);
  const figure = record?.figure ?? (head.kind === "ballast" ? head.figure : undefined);
  const mass = figure ? value(figure, lets).mul(pieces) : zero;
  const rate = record ? (rates.get(record.basis) ?? zero) : zero;
  const at = all.find(it => it.kind === "at");
  const span = all.find(it => it.kind === "span");
  let where = at?.kind === "at" ? place(at.point, lets) : { fs: zero, bl: zero };
  if (span?.kind === "span" && span.end) {
    const [a, b] = [place(span.start, lets), place(span.end, lets)];
    where = { fs: a.fs.add(b.fs).div(2), bl: a.bl.add(b.bl).div(2) };
  }
  return {
    mass,
    growth: mass.mul(rate),
    reserve: zero,
    fs: mass.mul(where.fs.add(origin.fs)),
    bl: mass.mul(where.bl.add(origin.bl)),
  };
}

function governing(all: readonly Clause[]): RecordClause | undefined {
  const records = all.filter(
    (it): it is RecordClause => it.kind === "record" && !it.was && it.figure !== undefined,
  );
  const key = (it: RecordClause) => `${order.indexOf(it.basis)} ${it.on?.text ?? ""}`;
  return records.reduce<RecordClause | undefined>(
    (best, it) => (best && key(it) < key(best) ? best : it),
    undefined,
  );
}

function clauses(item: Item): readonly Clause[] {
  const own = "clauses" in item.head ? item.head.clauses : [];
  return [...own, ...item.items.flatMap(it => (it.head.kind === "clause" ? [it.head.clause] : []))];
}

function ratesIn(all: readonly Clause[], outer: Rates): Rates {
  const rates = new Map(outer);
  for (const it of all)
    if (it.kind === "growth")
      for (const rate of it.rates)
        for (const basis of rate.basis ? [rate.basis] : basesWithGrowth)
          rates.set(basis, value(rate.value!, new Map()));
  return rates;
}

function letsIn(items: readonly Item[], outer: Lets): Lets {
  const lets = new Map(outer);
  for (const { head } of items)
    if (head.kind === "let" && head.name && head.value) lets.set(head.name.text, head.value);
  return lets;
}

function parentOf(item: Item): string {
  const words = "clauses" in item.head ? (item.head.path?.words ?? []) : [];
  return words
    .slice(0, -1)
    .map(it => it.text)
    .join(".");
}

/** A bare number is in inches, as all these files say. */
function place(point: Point, lets: Lets): { fs: Fraction; bl: Fraction } {
  const of = (axis: string) => {
    const expr = point.coords.find(it => it.axis === axis)?.value;
    return expr ? value(expr, lets).mul(units["in"]!) : zero;
  };
  return { fs: of("FS"), bl: of("BL") };
}

function value(expr: Expr, lets: Lets): Fraction {
  switch (expr.kind) {
    case "quantity":
      return expr.measures.reduce((sum, it) => {
        // the digits as written, mixed numbers and all
        const text = it.line.text.slice(it.from, it.unitAt?.from ?? it.to).trim();
        const number = text.split(/\s+/).reduce((n, word) => n.add(new Fraction(word)), zero);
        const unit = it.unit.reduce((u, { name, power }) => {
          const factor = units[name];
          if (factor === undefined) throw new Error(`the oracle does not know ${name}`);
          return u.mul(factor.pow(power)!);
        }, new Fraction(1));
        return sum.add(number.mul(unit));
      }, zero);
    case "name":
      return value(lets.get(expr.path.text)!, lets);
    case "negative":
      return value(expr.of, lets).neg();
    case "binary": {
      const [left, right] = [value(expr.left, lets), value(expr.right, lets)];
      if (expr.operator === "+") return left.add(right);
      if (expr.operator === "-") return left.sub(right);
      return expr.operator === "*" ? left.mul(right) : left.div(right);
    }
    default:
      throw new Error(`the oracle reads no ${expr.kind}`);
  }
}
