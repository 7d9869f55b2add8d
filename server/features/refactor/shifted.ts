import type { Span } from "../../../grammar/tree";
import type { Root } from "../../model/root";
import { unitTable } from "../../quantity/units";
import type { Edit } from "../amend";
import { figure, isQuantity, plainNumber } from "./walk";

/** A coordinate measured from an origin that lies so much farther, m, in the unit it is written in. */
export function shifted(expr: Span, by: number, root: Root): Edit {
  const plain = plainNumber(expr);
  if (plain !== undefined) {
    const { factor } = root.units.length;
    return { at: expr, text: figure(plain - by / factor) };
  }
  const value = isQuantity(expr) && expr.measures.length === 1 ? expr.measures[0] : undefined;
  const unit = value && value.unit.length === 1 ? unitTable.get(value.unit[0]!.name) : undefined;
  if (value && unit)
    return { at: expr, text: `${figure(value.value - by / unit.factor)} ${unit.name}` };
  const { length } = root.units;
  const text = expr.line.text.slice(expr.from, expr.to);
  const sign = by > 0 ? "-" : "+";
  return {
    at: expr,
    text: `${text} ${sign} ${figure(Math.abs(by) / length.factor)} ${length.name}`,
  };
}
