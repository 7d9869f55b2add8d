import * as t from "../../../grammar/tokens";
import type { Expr, Span, Statement } from "../../../grammar/tree";
import { askOf } from "../../compute/ask";
import type { Units } from "../../model/env";
import { evaluate } from "../../model/evaluate";
import type { Root } from "../../model/root";
import { derivedUnit, inertiaUnit } from "../../quantity/derived";
import * as dim from "../../quantity/dimension";
import { unitTable } from "../../quantity/units";
import { scopeAt } from "../place";
import type { Offer } from "./offer";
import { PROBE, previousToken, readingWith, type Typed } from "./typed";

/** What a number is a figure of; undefined: anything. A share has `%`. */
type Measured = dim.Dimension | "share" | "%MAC";

export interface UnitOffers {
  readonly offers: readonly Offer[];
  /** A figure without a unit says nothing here: no other word follows. */
  readonly needed: boolean;
}

/** The units that fit behind a number, the aircraft's own first. */
export function unitsAt(typed: Typed, root: Root | undefined, units: Units): UnitOffers {
  const { nodes, statement } = readingWith(typed, PROBE);
  if (nodes.some(it => "units" in it))
    return { offers: offersOf([dim.MASS, dim.LENGTH, dim.VOLUME], units), needed: true };
  if (/[\p{L}\d]\/$/u.test(typed.before) && t.typeOfWord(lastWord(typed.before)) === t.Unit)
    return { offers: offersOf(undefined, units), needed: true };
  const at = nodes.findIndex(it => "kind" in it && it.kind === "quantity");
  const behind = previousToken(typed)?.tokenType === t.Num;
  if (!behind || at < 0 || statement === undefined) return { offers: [], needed: false };
  // the whole expression: a sum is of what its figures are of, a product may be of anything
  let top = at;
  while (top > 0 && isExpression(nodes[top - 1]!)) top--;
  const loose = nodes
    .slice(top, at)
    .some(it => "operator" in it && !sums.has(it.operator as string));
  const expr = nodes[top]!;
  const wanted = loose ? undefined : measuredAt(statement, nodes.slice(0, top), expr, typed, root);
  if (wanted?.[0] === dim.PLAIN) return { offers: [], needed: false };
  const touching = /\d$/.test(typed.before);
  const needed = wanted !== undefined && !wanted.includes(dim.LENGTH);
  const offers = offersOf(wanted, units);
  const begins = (label: string) => label.toLowerCase().startsWith(typed.word.toLowerCase());
  // a mass is often an area or a length times something; but an l typed for lb must not become a litre
  const meant = typed.word !== "" && offers.some(it => begins(it.label));
  const others = wanted?.[0] === dim.MASS && !meant ? offersOf(undefined, units) : [];
  const own = new Set(offers.map(it => it.label));
  const all = [...offers, ...others.filter(it => !own.has(it.label))];
  return {
    needed,
    offers: all.map((it, rank) => ({
      ...{ ...it, rank },
      ...(touching && it.label !== "%" && { text: ` ${it.label}` }),
    })),
  };
}

const lastWord = (text: string) => /(\p{L}*)\W*$/u.exec(text)![1]!;

const offersOf = (wanted: readonly Measured[] | undefined, units: Units): readonly Offer[] =>
  namesOf(wanted, units).map(({ name, of }, rank) => ({
    ...{ label: name, kind: "unit", rank, detail: of },
  }));

const isExpression = (node: Span) =>
  "kind" in node && ["quantity", "binary", "negative", "call"].includes(node.kind as string);
const sums = new Set(["+", "-"]);

function namesOf(wanted: readonly Measured[] | undefined, own: Units) {
  const found = new Map<string, string>();
  const add = (name: string | undefined, of: string) => {
    if (name !== undefined && !found.has(name)) found.set(name, of);
  };
  for (const it of wanted ?? [])
    if (it === "share") add("%", "share");
    else if (it === "%MAC") add("%MAC", "share of the mean aerodynamic chord");
    else {
      const of = dim.nameOf(it);
      const mine = [own.mass, own.length, own.volume].find(unit => unit.dimension === it);
      add(mine?.name ?? (it === dim.INERTIA ? inertiaUnit(own) : derivedUnit(it, own))?.name, of);
      for (const [name, unit] of unitTable)
        if (unit.dimension === it && name !== "%") add(name, of);
      for (const name of products.get(it) ?? []) add(name, of);
    }
  if (wanted === undefined)
    for (const [name, unit] of unitTable)
      add(name, name === "%" ? "share" : dim.nameOf(unit.dimension));
  const alike = (name: string) => isUs(name) === isUs(own.mass.name);
  const rank = (name: string, i: number) => (wanted && i === 0 ? 0 : alike(name) ? 1 : 2);
  return [...found]
    .map(([name, of], i) => ({ name, of: of.replace(/^an? /, ""), rank: rank(name, i) }))
    .sort((a, b) => a.rank - b.rank);
}

/** Of the units at hand those that go with pounds and inches. */
const us = new Set([
  "lb",
  "oz",
  "slug",
  "in",
  "ft",
  "yd",
  "mil",
  "gal",
  "qt",
  "pt",
  "psi",
  "lbf",
  "hp",
]);
const isUs = (name: string) => us.has(/^\w+/.exec(name)?.[0] ?? "");

/** Products that the trade writes figures in. */
const products = new Map<dim.Dimension, readonly string[]>([
  [dim.DENSITY, ["lb/gal", "kg/L"]],
  [dim.MOMENT, ["lb in", "lb ft", "kg m", "kg mm"]],
  [dim.INERTIA, ["lb in^2", "lb ft^2", "slug ft^2", "kg m^2"]],
]);

/** What the grammar's place for an expression is a figure of. */
function measuredAt(
  statement: Statement,
  around: readonly Span[],
  expr: Span,
  typed: Typed,
  root: Root | undefined,
): readonly Measured[] | undefined {
  const is = (it: Expr | undefined) =>
    it !== undefined && it.from === expr.from && it.to === expr.to;
  for (const node of around.toReversed()) {
    if ("axis" in node && "upTo" in node) return [dim.LENGTH];
    if ("basis" in node && "common" in node) return ["share"];
    if (!("kind" in node)) continue;
    const clause = node as Span & Record<string, unknown> & { kind: string };
    if (is(clause.spread as Expr | undefined))
      return clause.kind === "let" ? undefined : [dim.MASS, "share"];
    if (is(clause.margin as Expr | undefined)) return ["share"];
    const of = figures[clause.kind];
    if (of !== undefined) return of;
    if (clause.kind === "cg" || clause.kind === "lateral") {
      // before its colon a row has a weight; limits are stations
      if (!inEnvelope(typed)) return [dim.LENGTH];
      if (clause.key === undefined) return clause.axis ? [dim.LENGTH] : [dim.MASS];
      return clause.axis || !root?.mac ? [dim.LENGTH] : [dim.LENGTH, "%MAC"];
    }
    if (clause.kind === "swing")
      return is(clause.angle as Expr | undefined) ? [dim.ANGLE] : [dim.LENGTH];
  }
  if (statement.kind === "scale") return [dim.MASS];
  if (statement.kind === "fluid") return [dim.DENSITY];
  if (statement.kind === "reserve" || statement.kind === "ballast") return [dim.MASS];
  if (statement.kind === "load" && root) {
    const station = root.aircraft.stations.find(it => it.path === statement.path.text);
    return station && station.kind !== "tank" ? [dim.MASS] : contents;
  }
  if (statement.kind === "require" && root) {
    const other = statement.sides.find(it => it.kind !== "missing" && it.from !== expr.from);
    const setting = {
      scope: scopeAt(root, typed.blocks),
      report: () => {},
      ask: askOf(root, "basic", () => {}),
    };
    const value = other && evaluate(other, setting);
    return value && [value.dimension === dim.PLAIN ? "share" : value.dimension];
  }
  return undefined;
}

const inEnvelope = ({ blocks }: Typed) => blocks.at(-1)?.head.kind === "envelope";

const contents: readonly Measured[] = [dim.VOLUME, dim.MASS, "share"];
const figures: Readonly<Record<string, readonly Measured[]>> = {
  record: [dim.MASS],
  budget: [dim.MASS],
  range: [dim.MASS],
  ramp: [dim.MASS],
  takeoff: [dim.MASS],
  landing: [dim.MASS],
  zero_fuel: [dim.MASS],
  limit: [dim.MASS],
  margin: ["share"],
  moment: [dim.MOMENT],
  qty: [dim.PLAIN],
  effective: [dim.PLAIN],
  growth: ["share"],
  spread: ["share"],
  holds: [dim.VOLUME, dim.MASS],
  unusable: [dim.VOLUME, dim.MASS],
  filled: [dim.VOLUME, dim.MASS],
  inertia: [dim.INERTIA],
  shape: [dim.LENGTH],
  mac: [dim.LENGTH],
  burn: contents,
  taxi: contents,
  release: contents,
  aboard: contents,
};
