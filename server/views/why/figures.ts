import type { Expr, Span } from "../../../grammar/tree";
import type { Place } from "../../model/env";
import { evaluate, type Setting } from "../../model/evaluate";
import { noSums } from "../../model/part";
import type { Root } from "../../model/root";
import type { Scope } from "../../model/scope";
import { unitsBeyond } from "../../model/units-beyond";
import { DENSITY, MOMENT, nameOf, PLAIN } from "../../quantity/dimension";
import type { Quantity } from "../../quantity/quantity";
import { show, showNumber } from "../../quantity/show";
import { type Unit, unitOf } from "../../quantity/units";

/** Every figure of a derivation is in the units of the aircraft's `units` line. */
export const massText = ({ units }: Root, kg: number) => show(kg, units.mass);
export const lengthText = ({ units }: Root, m: number) => show(m, units.length);
export const momentText = (root: Root, kgM: number) => show(kgM, momentUnit(root));

export function momentUnit({ units: { mass, length } }: Root): Unit {
  return {
    name: `${mass.name} ${length.name}`,
    factor: mass.factor * length.factor,
    dimension: MOMENT,
  };
}

export const percent = (share: number) => `${showNumber(100 * share)} %`;

/** "FS 149 in, BL 118 in, WL 47 in"; a WL that nobody gave is left out. */
export function placeText(root: Root, { fs, bl, wl }: Place): string {
  const of = (axis: string, x: number | undefined) =>
    `${axis} ${x === undefined ? "unknown" : lengthText(root, x)}`;
  const up = wl === undefined ? [] : [of("WL", wl)];
  return [of("FS", fs), of("BL", bl), ...up].join(", ");
}

/** On the other side what goes with BL changes its sign. */
export const onSide = (place: Place, side: "RH" | "LH" | undefined): Place =>
  side === "LH" && place.bl ? { ...place, bl: -place.bl } : place;

/** As written, on one row; the middle of a long one is left out. */
export function written({ line, from, to }: Span): string {
  const text = line.text
    .slice(from, to)
    .replace(/\/\/[^\n]*/g, "")
    .replace(/\s+/g, " ")
    .trim();
  return text.length > LONGEST
    ? `${text.slice(0, LONGEST / 2)} … ${text.slice(-LONGEST / 2)}`
    : text;
}
const LONGEST = 44;

/** "0.9 g = 0.00198 lb": as written, and the value (SI) in a unit where the text is no plain figure in it. */
export function asShown(expr: Expr, value: number, unit: Unit): string {
  const text = written(expr);
  const said = unitWritten(expr);
  return said?.factor === unit.factor && said.dimension === unit.dimension
    ? text
    : `${text} = ${show(value, unit)}`;
}

function unitWritten(expr: Expr): Unit | undefined {
  if (expr.kind !== "quantity" || expr.measures.length > 1) return undefined;
  const unit = unitOf(expr.measures[0].unit, unitsBeyond);
  return "unknown" in unit ? undefined : unit;
}

/** A value in its author's unit; a product has none, and gets the aircraft's if there is one for it. */
export function valueText(root: Root, { value, dimension, unit }: Quantity): string {
  if (dimension === PLAIN && !unit) return showNumber(value);
  const { mass, length, volume } = root.units;
  const fitting = [mass, length, volume, momentUnit(root), densityUnit(root)];
  const shown = unit ?? fitting.find(it => it.dimension === dimension);
  return shown ? show(value, shown) : `${showNumber(value)} (SI), ${nameOf(dimension)}`;
}

/** What is wrong with a figure is a finding where it stands, and not said again. */
export function quiet(scope: Scope): Setting {
  const report = () => {};
  return { scope, report, ask: noSums(report) };
}

export const valueIn = (expr: Expr | undefined, scope: Scope) =>
  expr && evaluate(expr, quiet(scope));

export function densityUnit({ units: { mass, volume } }: Root): Unit {
  return {
    name: `${mass.name}/${volume.name}`,
    factor: mass.factor / volume.factor,
    dimension: DENSITY,
  };
}
