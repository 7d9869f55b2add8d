import type { Expr, Item, Span, StatementOf } from "../../grammar/tree";
import type { Remedy } from "../compute/remedies";
import { aroundOf } from "../compute/response";
import { clauseOf, clausesOf } from "../model/clauses";
import { type Loading, unusableOf } from "../model/loading";
import type { Root } from "../model/root";
import { MASS, VOLUME } from "../quantity/dimension";
import { type Unit, unitTable } from "../quantity/units";

/** A piece of text in place of another: an insertion where the span is empty. */
export interface Edit {
  readonly at: Span;
  readonly text: string;
}

/** An edit with what a menu calls it: "Lower baggage from 60 lb to 42.5 lb". */
export interface Amendment {
  readonly title: string;
  readonly edit: Edit;
}

/**
 * A remedy as an edit, its figure rounded away from the finding, `farther` digits beyond the exact one.
 * Undefined where the figure is no plain one (a `let`, a sum): it is not for us to take apart.
 */
export function amendmentOf(
  remedy: Remedy,
  loading: Loading | undefined,
  root: Root,
  farther: number,
): Amendment | undefined {
  switch (remedy.kind) {
    case "ballast":
      return ballastAmendment(remedy, root, farther);
    case "load":
      return loading && loadAmendment(remedy, loading, root, farther);
    case "move":
      return moveAmendment(remedy, root, farther);
  }
}

type Of<K extends Remedy["kind"]> = Extract<Remedy, { readonly kind: K }>;

function ballastAmendment({ part, by }: Of<"ballast">, root: Root, farther: number) {
  const record = part.governing?.clause;
  const figure = record ? record.figure : part.head.figure;
  const mirrored = part.mirrored || aroundOf(root, part).some(it => it.mirrored);
  const pieces = part.qty * (mirrored ? 2 : 1);
  if (!isPlain(figure) || part.mass === undefined || part.qty === 0) return undefined;
  const times = record?.total ? pieces : 1;
  const was = (part.mass / part.qty) * times;
  const now = rounded(was, was + (by / pieces) * times, part.unit, farther);
  if (now < 0) return undefined;
  const verb = by > 0 ? "Raise" : "Lower";
  return {
    title: `${verb} ballast ${part.path} from ${written(was, part.unit)} to ${written(now, part.unit)}`,
    edit: { at: figure, text: written(now, part.unit) },
  };
}

function moveAmendment({ part, by }: Of<"move">, root: Root, farther: number) {
  const point = clauseOf(clausesOf(part.item), "at")?.point;
  const figure = point?.coords.find(it => it.axis === "FS")?.value;
  const origin = aroundOf(root, part).at(-1)?.core.origin.fs;
  const { fs } = part.place;
  const moment = clauseOf(clausesOf(part.item), "moment");
  if (!isPlain(figure) || fs === undefined || origin === undefined || moment) return undefined;
  const [measure] = figure.measures;
  const said = measure.unit[0] && unitTable.get(measure.unit[0].name);
  const unit = said ?? root.units.length;
  const was = fs - origin;
  const now = rounded(was, was + by, unit, farther);
  const text = said ? written(now, unit) : written(now, { ...unit, name: "" });
  const before = written(was, said ? unit : { ...unit, name: "" });
  return {
    title: `Move ${part.path} from FS ${before} to FS ${text}`,
    edit: { at: figure, text },
  };
}

function loadAmendment(
  { station, load, to }: Of<"load">,
  loading: Loading,
  root: Root,
  farther: number,
): Amendment | undefined {
  if (load === undefined) {
    const unit = station.range?.[1].unit ?? root.units.mass;
    const amount = written(rounded(0, to, unit, farther), unit);
    const edit = insertion(loading.item, `${station.path} ${amount}`);
    return edit && { title: `Load ${amount} into ${station.path}`, edit };
  }
  const amount = lineOf(loading.item, load.at)?.amount;
  if (amount === undefined || !(amount.full || isPlain(amount.value))) return undefined;
  const said = amount.full || !isPlain(amount.value) ? undefined : unitOfPlain(amount.value);
  const unit = said ?? station.holds?.unit ?? station.range?.[1].unit ?? root.units.mass;
  const density = station.fluid && root.fluids.get(station.fluid.text)?.density;
  if (unit.dimension !== MASS && unit.dimension !== VOLUME) return undefined;
  if (unit.dimension === VOLUME && density === undefined) return undefined;
  const sides = amount.sides === "total" && station.mirrored && !load.side ? 2 : 1;
  const below = amount.usable ? (unusableOf(station, root) ?? 0) : 0;
  const inText = (mass: number) =>
    ((mass - below) * sides) / (unit.dimension === VOLUME ? density! : 1);
  const [was, now] = [
    inText(load.mass),
    rounded(inText(load.mass), inText(to), unit, farther),
  ] as const;
  if (now < 0) return undefined;
  const verb = to > load.mass ? "Raise" : "Lower";
  return {
    title: `${verb} ${load.at.line.text.slice(load.at.from, load.at.to)} from ${written(was, unit)} to ${written(now, unit)}`,
    edit: { at: amount.full ? amount : amount.value!, text: written(now, unit) },
  };
}

type Quantity = Extract<Expr, { readonly kind: "quantity" }>;
function isPlain(expr: Expr | undefined): expr is Quantity {
  return expr?.kind === "quantity";
}

/** Of `5 lb 3 oz` the first: 5.25 lb says the same. */
function unitOfPlain({ measures: [{ unit }] }: Quantity): Unit | undefined {
  return unit.length === 1 && unit[0]!.power === 1 ? unitTable.get(unit[0]!.name) : undefined;
}

function lineOf({ items }: Item, at: Span): StatementOf<"load"> | undefined {
  const heads = items.map(it => it.head);
  return heads.find((it): it is StatementOf<"load"> => it.kind === "load" && it.path === at);
}

/** One more line before the first of a block, in its manner. */
function insertion({ items }: Item, text: string): Edit | undefined {
  const first = items[0]?.head;
  if (first === undefined) return undefined;
  const indent = first.line.text.slice(0, first.from);
  const at = { line: first.line, from: first.from, to: first.from };
  return { at, text: indent.trim() === "" ? `${text}\n${indent}` : `${text}; ` };
}

/**
 * The figure (SI) beyond the exact one, away from what it was: tenths, of a small change two digits, of a
 * large one whole units.
 * @param farther so many steps more
 */
export function rounded(was: number, exact: number, unit: Unit, farther: number): number {
  const change = Math.abs(exact - was) / unit.factor;
  const digits = change >= 100 ? 0 : Math.min(9, Math.max(1, 1 - Math.floor(Math.log10(change))));
  const way = exact > was ? 1 : -1;
  const scaled = (exact / unit.factor) * 10 ** digits;
  // a figure that is on its step but for rounding stays there
  const whole = way * (Math.ceil(way * scaled - 1e-7) + farther);
  return Number((whole / 10 ** digits).toFixed(digits)) * unit.factor;
}

/** As an author writes it: no thousands, and the digits that `rounded` left. */
function written(value: number, unit: Unit): string {
  const figure = Number((value / unit.factor).toPrecision(12));
  return unit.name === "" ? `${figure}` : `${figure} ${unit.name}`;
}
