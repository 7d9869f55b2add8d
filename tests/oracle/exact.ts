import Fraction from "fraction.js";
import type { Expr } from "../../grammar/tree";

/** A fraction with its powers of kilogram, metre and second. */
interface Exact {
  readonly n: Fraction;
  readonly kg: number;
  readonly m: number;
  readonly s: number;
}

/** A let is reckoned where it stands, not where it is used. */
export type Lets = ReadonlyMap<string, { readonly expr: Expr; readonly lets: Lets }>;

export const zero = new Fraction(0);

const pound = new Fraction("0.45359237");
const inch = new Fraction("0.0254");
const gallon = inch.pow(3)!.mul(231);

const mass = (n: Fraction): Exact => ({ n, kg: 1, m: 0, s: 0 });
const length = (n: Fraction): Exact => ({ n, kg: 0, m: 1, s: 0 });
const volume = (n: Fraction): Exact => ({ n, kg: 0, m: 3, s: 0 });
const plain = (n: Fraction): Exact => ({ n, kg: 0, m: 0, s: 0 });

/** By definition: the pound and the yard of 1959, the gallon of 231 cubic inches. */
const units: ReadonlyMap<string, Exact> = new Map([
  ["g", mass(new Fraction(1, 1000))],
  ["kg", mass(new Fraction(1))],
  ["lb", mass(pound)],
  ["oz", mass(pound.div(16))],
  ["mm", length(new Fraction(1, 1000))],
  ["cm", length(new Fraction(1, 100))],
  ["m", length(new Fraction(1))],
  ["in", length(inch)],
  ["ft", length(inch.mul(12))],
  ["L", volume(new Fraction(1, 1000))],
  ["gal", volume(gallon)],
  ["qt", volume(gallon.div(4))],
  ["s", { ...plain(new Fraction(1)), s: 1 }],
  ["%", plain(new Fraction(1, 100))],
]);

/** Kilograms; anything but a mass is a fault of the spec or of this oracle. */
export const kilograms = (expr: Expr, lets: Lets) => as(expr, lets, 1, 0);
export const count = (expr: Expr, lets: Lets) => as(expr, lets, 0, 0);
/** Kilogram metres. */
export const momentOf = (expr: Expr, lets: Lets) => as(expr, lets, 1, 1);
/** Metres; a bare number is in the length unit of the aircraft's `units`. */
export function metres(expr: Expr, lets: Lets, bare: Fraction): Fraction {
  const { n, kg, m, s } = exact(expr, lets);
  return kg === 0 && m === 0 && s === 0 ? n.mul(bare) : as(expr, lets, 0, 1);
}

/** Of the first length among these units, in metres. */
export function lengthAmong(names: readonly string[]): Fraction {
  const found = names.map(name => units.get(name)).find(it => it?.m === 1);
  if (found === undefined) throw new Error("the aircraft says no unit of length");
  return found.n;
}

function as(expr: Expr, lets: Lets, kg: number, m: number): Fraction {
  const it = exact(expr, lets);
  if (it.kg !== kg || it.m !== m || it.s !== 0)
    throw new Error(`${expr.line.text}: kg^${it.kg} m^${it.m} s^${it.s}`);
  return it.n;
}

function exact(expr: Expr, lets: Lets): Exact {
  switch (expr.kind) {
    case "quantity":
      return expr.measures.map(quantity).reduce(sum);
    case "name": {
      const found = lets.get(expr.path.text);
      if (found === undefined) throw new Error(`no let ${expr.path.text}`);
      return exact(found.expr, found.lets);
    }
    case "negative": {
      const of = exact(expr.of, lets);
      return { ...of, n: of.n.neg() };
    }
    case "binary": {
      const left = exact(expr.left, lets);
      const right = exact(expr.right, lets);
      switch (expr.operator) {
        case "+":
          return sum(left, right);
        case "-":
          return sum(left, { ...right, n: right.n.neg() });
        case "*":
          return product(left, right, 1);
        case "/":
          return product(left, right, -1);
        case "^":
          return product(plain(new Fraction(1)), left, Number(right.n.valueOf()));
      }
      throw new Error("no such operator");
    }
    case "call": {
      const args = expr.args.map(it => exact(it, lets));
      const least = args.reduce((a, b) => (a.n.compare(b.n) <= 0 ? a : b));
      const most = args.reduce((a, b) => (a.n.compare(b.n) >= 0 ? a : b));
      if (expr.name.text === "min") return least;
      if (expr.name.text === "max") return most;
      if (expr.name.text === "abs") return { ...most, n: most.n.abs() };
      throw new Error(`the oracle reckons no ${expr.name.text}`);
    }
    default:
      throw new Error("an operand is missing");
  }
}

type Measure = Extract<Expr, { kind: "quantity" }>["measures"][number];

/** The digits as written, mixed numbers and all: the tree's own number is a rounded one. */
function quantity({ line, from, to, unit, unitAt }: Measure): Exact {
  const digits = line.text.slice(from, unitAt?.from ?? to).trim();
  const n = digits.split(/\s+/).reduce((n, word) => n.add(new Fraction(word)), zero);
  return unit.reduce((all, { name, power }) => {
    const known = units.get(name);
    if (known === undefined) throw new Error(`the oracle does not know ${name}`);
    return product(all, known, power);
  }, plain(n));
}

function sum(a: Exact, b: Exact): Exact {
  if (a.kg !== b.kg || a.m !== b.m || a.s !== b.s) throw new Error("a sum of unlike things");
  return { ...a, n: a.n.add(b.n) };
}

function product(a: Exact, b: Exact, power: number): Exact {
  return {
    n: a.n.mul(b.n.pow(power)!),
    kg: a.kg + power * b.kg,
    m: a.m + power * b.m,
    s: a.s + power * b.s,
  };
}
