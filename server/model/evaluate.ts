import type { Binary, Call, Expr, Quantity as Literal, Measure, Name } from "../../grammar/tree";
import { closest, saidInstead } from "../../grammar/unexpected";
import { functions, keywords } from "../../grammar/words";
import { ACCELERATION, ANGLE, nameOf, PLAIN, power } from "../quantity/dimension";
import {
  divide,
  minus,
  multiply,
  negate,
  plain,
  plus,
  type Quantity,
  quantity,
  raise,
} from "../quantity/quantity";
import { unitMeant } from "../quantity/unit-words";
import { type Unit, unitOf, unitTable } from "../quantity/units";
import type { Report } from "./fault";
import { asksForSums, type Rest, restOf } from "./lets";
import { type Let, lookUp, type Scope, visibleNames } from "./scope";
import { unitsBeyond } from "./units-beyond";

/** What an expression is evaluated in. */
export interface Setting {
  readonly scope: Scope;
  readonly report: Report;
  /** Answers a function of the aircraft: mass(wing). Undefined: unknown, and said so by the asker. */
  readonly ask: Ask;
  /**
   * Told of every name: of the let it means, and of those with a spread that its value rests on. A name
   * that means none yet may mean one after the next edit.
   */
  readonly uses?: (found?: Let, scope?: Scope) => void;
  /** Another value for a let, to see what hangs on it. */
  readonly instead?: { readonly of: Let; readonly value: Quantity };
  /** Where the outermost let was named: what is asked for in a let is asked for there. */
  readonly usedAt?: Expr;
  /** What lets came to that ask for sums or hang on `instead`; without it, of one name at a time. */
  readonly values?: Values;
}

/** Each is evaluated once, however many name it. */
export interface Values {
  has(of: Rest): boolean;
  get(of: Rest): Quantity | undefined;
  set(of: Rest, value: Quantity | undefined): unknown;
}

export type Ask = (call: Call, setting: Setting) => Quantity | undefined;

/**
 * The value of an expression in SI units with its dimension.
 * Undefined where something it needs is missing, unknown or does not fit; the narrowest fault is
 * reported once, so a caller goes on without a word of its own.
 */
export function evaluate(expr: Expr, setting: Setting): Quantity | undefined {
  switch (expr.kind) {
    case "quantity":
      return literal(expr, setting);
    case "name":
      return named(expr, setting);
    case "call":
      return called(expr, setting);
    case "negative": {
      const value = evaluate(expr.of, setting);
      return value && negate(value);
    }
    case "binary":
      return binary(expr, setting);
    case "missing":
      return undefined;
  }
}

function literal(expr: Literal, setting: Setting): Quantity | undefined {
  const [first, ...others] = expr.measures;
  const start = measured(first, setting);
  if (others.length === 0 || start === undefined) return start;
  // 5 lb 3 oz: each unit smaller than the one before, its figure less than one of that
  let sum = start;
  let unit = start.unit;
  for (const measure of others) {
    const next = measured(measure, setting);
    if (next === undefined) return undefined;
    const smaller = next.unit;
    if (unit === undefined || smaller === undefined || smaller.dimension !== unit.dimension) {
      setting.report(
        "syntax",
        measure,
        "figures stand side by side: write an operator between them",
      );
      return undefined;
    }
    if (smaller.factor >= unit.factor || next.value >= unit.factor) {
      const message = `after ${unit.name} comes less than one ${unit.name}, in a smaller unit`;
      setting.report("syntax", measure, message);
      return undefined;
    }
    sum = plus(sum, next)!;
    unit = smaller;
  }
  return sum;
}

function measured(measure: Measure, setting: Setting): Quantity | undefined {
  // not a number: what is wrong with it was said when its line was read
  if (Number.isNaN(measure.value)) return undefined;
  if (!Number.isFinite(measure.value)) {
    setting.report("syntax", measure, "this figure is too large to count with");
    return undefined;
  }
  if (measure.unit.length === 0) return plain(measure.value);
  const [only] = measure.unit;
  const simple =
    measure.unit.length === 1 && only!.power === 1 ? unitTable.get(only!.name) : undefined;
  const unit = simple ?? unitOf(measure.unit, unitsBeyond);
  if ("unknown" in unit) {
    const at = measure.unitAt ?? measure;
    const name = unit.unknown;
    setting.uses?.();
    if (lookUp(setting.scope, name))
      setting.report(
        "unknown-name",
        at,
        `${name} is no unit; to multiply write ${measure.value} * ${name}`,
      );
    else {
      const near = unitMeant(name) ?? closest(name, unitTable.keys());
      const other = near ? `did you mean ${near}?` : saidInstead(name);
      const hint = other ? `; ${other}` : "";
      setting.report("unknown-name", at, `${name} is no unit${hint}`);
    }
    return undefined;
  }
  return quantity(measure.value, unit);
}

function named(expr: Name, setting: Setting): Quantity | undefined {
  const { path } = expr;
  const name = path.text;
  const let_ = path.words.length === 1 ? lookUp(setting.scope, name) : undefined;
  setting.uses?.(let_?.found, let_?.scope);
  if (let_ === undefined) {
    if (name === "g0") return standardGravity;
    const unit = unitTable.get(name);
    const near = closest(name, visibleNames(setting.scope));
    const message = unit
      ? `${name} is a unit: a number stands before it`
      : path.words.length > 1
        ? `${name} is a thing, not a figure: write mass(${name}) or another function`
        : `nothing is called ${name} here${near ? `; did you mean ${near}?` : ""}`;
    setting.report("unknown-name", path, message);
    return undefined;
  }
  return valueOfLet(let_.found, let_.scope, setting, expr);
}

/** 9.80665 m/s², exactly: the standard acceleration of gravity (3rd CGPM, 1901). */
const standardGravity: Quantity = { value: 9.80665, dimension: ACCELERATION };

/** Faults inside a let are its own and said where it stands, not where it is used. */
function valueOfLet(found: Let, scope: Scope, setting: Setting, at: Expr): Quantity | undefined {
  const { instead, ask, usedAt = at } = setting;
  if (instead?.of === found) return instead.value;
  const rest = restOf(found, scope);
  if (setting.uses) for (const [it, within] of rest.spread) setting.uses(it, within);
  const hangs = ({ asks, spread }: Rest) => asks || (instead && spread.has(instead.of));
  if (!hangs(rest)) return settle(rest, plainValues, () => true, { ask: () => undefined });
  const values = setting.values ?? new Map();
  return settle(rest, values, hangs, { ask, usedAt, values, ...(instead && { instead }) });
}

/** Of lets that hang on nothing but their scope: right as long as that is the same. */
const plainValues: Values = new WeakMap();

/**
 * The value of a let after those of all it rests on, which are left in `values`: a long chain of lets does
 * not fill the stack, and one that many name is evaluated once.
 * @param counts which lets belong into `values`
 */
function settle(
  rest: Rest,
  values: Values,
  counts: (it: Rest) => boolean | undefined,
  how: Omit<Setting, "scope" | "report">,
): Quantity | undefined {
  const open = [rest];
  for (let it = open.at(-1); it; it = open.at(-1)) {
    const { found, scope, on, lost } = it;
    const known = lost || values.has(it);
    const before = known
      ? []
      : on.filter(other => !other.lost && counts(other) && !values.has(other));
    for (const other of before) open.push(other);
    if (before.length > 0) continue;
    open.pop();
    // one without a value yet is known to have none
    if (!known)
      values.set(it, found.value && evaluate(found.value, { ...how, scope, report: quiet }));
  }
  return values.get(rest);
}

const quiet: Report = () => {};

/** A sum of thousands of terms leans to the left as deep as it is long: no call for each. */
function binary(expr: Binary, setting: Setting): Quantity | undefined {
  const chain: Binary[] = [];
  let first: Expr = expr;
  for (; first.kind === "binary"; first = first.left) chain.push(first);
  let value = evaluate(first, setting);
  for (const it of chain.reverse()) value = combined(it, value, setting);
  return value;
}

function combined(
  expr: Binary,
  left: Quantity | undefined,
  setting: Setting,
): Quantity | undefined {
  const word = expr.operator === "/" ? wordAfterUnit(expr, setting.scope) : undefined;
  if (word !== undefined) {
    setting.uses?.();
    const [figure, divisor] = [textOf(expr.left), textOf(expr.right)];
    setting.report(
      "unknown-name",
      word.path,
      `nothing is called ${word.path.text} here; a unit beyond the table takes a figure of its own: ${figure} / (1 ${divisor})`,
    );
    return undefined;
  }
  const right = evaluate(expr.right, setting);
  if (left === undefined || right === undefined) return undefined;
  switch (expr.operator) {
    case "*":
      return multiply(left, right);
    case "/":
      if (right.value === 0) {
        setting.report(
          "wrong-dimension",
          expr.right,
          "this is zero, and nothing is divided by zero",
        );
        return undefined;
      }
      return divide(left, right);
    case "^": {
      if (right.dimension !== PLAIN) {
        setting.report(
          "wrong-dimension",
          expr.right,
          `a power is a plain number, not ${nameOf(right.dimension)}`,
        );
        return undefined;
      }
      const value = raise(left, right.value);
      return Number.isFinite(value.value) ? value : undefined;
    }
    default: {
      const sum = expr.operator === "+" ? plus(left, right) : minus(left, right);
      if (sum === undefined) {
        const [a, b] = [nameOf(left.dimension), nameOf(right.dimension)];
        const words =
          expr.operator === "+"
            ? `${a} and ${b} cannot be added`
            : `${b} cannot be taken from ${a}`;
        setting.report("wrong-dimension", expr.operatorAt, words);
      }
      return sum;
    }
  }
}

/**
 * The `dm` of `1 g/dm^2`: after a slash only a unit of the table belongs to the unit before it, and any
 * other reads as a name. Undefined where something is called so, or nearly so.
 */
function wordAfterUnit({ left, right }: Binary, scope: Scope): Name | undefined {
  const word = right.kind === "binary" && right.operator === "^" ? right.left : right;
  if (word.kind !== "name" || word.path.words.length > 1) return undefined;
  let end = left;
  while (end.kind === "binary" && end.operator !== "^") end = end.right;
  if (end.kind !== "quantity" || end.measures.at(-1)?.unit.length === 0) return undefined;
  const { text } = word.path;
  const known = lookUp(scope, text) !== undefined || text === "g0" || unitTable.has(text);
  return known || closest(text, visibleNames(scope)) ? undefined : word;
}

export const textOf = ({ line, from, to }: Expr) => line.text.slice(from, to);

function called(expr: Call, setting: Setting): Quantity | undefined {
  const name = expr.name.text;
  const own = pure.get(name);
  if (own === undefined) {
    if (asksForSums.has(name)) return setting.ask(expr, setting);
    const near = closest(name, functions);
    const hint = near
      ? `; did you mean ${near}?`
      : keywords.includes(name)
        ? `; put a space before (`
        : "";
    setting.report("unknown-name", expr.name, `${name} is no function${hint}`);
    return undefined;
  }
  const args = expr.args.map(arg => evaluate(arg, setting));
  if (args.length < own.least || args.length > own.most) {
    const wanted = own.least === 1 && own.most === 1 ? "one figure" : "figures";
    setting.report("wrong-dimension", expr, `${name} takes ${wanted} in its parentheses`);
    return undefined;
  }
  if (!args.every(arg => arg !== undefined)) return undefined;
  const result = own.of(args);
  if (result === undefined) {
    setting.report("wrong-dimension", expr, own.wants);
    return undefined;
  }
  return result;
}

interface Pure {
  readonly least: number;
  readonly most: number;
  readonly wants: string;
  readonly of: (args: readonly Quantity[]) => Quantity | undefined;
}

const finite = (q: Quantity) => (Number.isFinite(q.value) ? q : undefined);
const turn = (of: (x: number) => number): Pure => ({
  least: 1,
  most: 1,
  wants: "the figure here is an angle or a plain number",
  of: ([x]) => (x!.dimension === ANGLE || x!.dimension === PLAIN ? plain(of(x!.value)) : undefined),
});
const inverse = (of: (x: number) => number): Pure => ({
  least: 1,
  most: 1,
  wants: "the figure here is a plain number an angle can have",
  of: ([x]) =>
    x!.dimension === PLAIN
      ? finite({ value: of(x!.value), dimension: ANGLE, unit: degrees })
      : undefined,
});
const extreme = (of: (...x: number[]) => number): Pure => ({
  least: 1,
  most: Number.POSITIVE_INFINITY,
  wants: "the figures here are of one dimension",
  of: args =>
    args.every(arg => arg.dimension === args[0]!.dimension)
      ? args.find(arg => arg.value === of(...args.map(it => it.value)))
      : undefined,
});
const degrees: Unit = unitTable.get("deg")!;

const pure: ReadonlyMap<string, Pure> = new Map([
  ["sin", turn(Math.sin)],
  ["cos", turn(Math.cos)],
  ["tan", turn(Math.tan)],
  ["asin", inverse(Math.asin)],
  ["acos", inverse(Math.acos)],
  ["atan", inverse(Math.atan)],
  ["min", extreme(Math.min)],
  ["max", extreme(Math.max)],
  ["abs", { least: 1, most: 1, wants: "", of: ([x]) => ({ ...x!, value: Math.abs(x!.value) }) }],
  [
    "sqrt",
    {
      least: 1,
      most: 1,
      wants: "the root of a negative figure does not exist",
      of: ([x]) => {
        const { dimension } = x!;
        return finite({
          value: Math.sqrt(x!.value),
          dimension: dimension === PLAIN ? PLAIN : power(dimension, 0.5),
        });
      },
    },
  ],
]);
