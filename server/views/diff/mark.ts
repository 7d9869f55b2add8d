import type { Span } from "../../../grammar/tree";
import type { Quantity } from "../../quantity/quantity";
import { show, showNumber } from "../../quantity/show";
import type { Unit } from "../../quantity/units";

/** One thing an aircraft is measured by, as far as it can be made looser or tighter. */
export interface Mark {
  readonly kind:
    | "budget"
    | "creep"
    | "growth"
    | "spread"
    | "reserve"
    | "limit"
    | "range"
    | "extent"
    | "filled"
    | "swing"
    | "choice"
    | "loading"
    | "requirement"
    | "waiver";
  /** What it is of, where that is a path; else it is told by `what` alone. */
  readonly path: string | undefined;
  /** In words, without the path: "budget". */
  readonly what: string;
  /** SI; undefined is left open. */
  readonly values: readonly (number | undefined)[];
  /** For each value: 1, a higher one allows more; -1, a lower one does; 0 or nothing, neither is said. */
  readonly senses: readonly (1 | 0 | -1)[];
  /** Whether there being one at all allows more (1) or less (-1). */
  readonly presence: 1 | 0 | -1;
  readonly shown: string;
  readonly at: Span;
}

type Rest = Omit<Mark, "kind" | "path" | "what">;
export const mark = (
  kind: Mark["kind"],
  path: string | undefined,
  what: string,
  rest: Rest,
): Mark => ({
  ...{ kind, path, what },
  ...rest,
});

export function band(
  kind: Mark["kind"],
  path: string | undefined,
  what: string,
  low: number | undefined,
  high: number | undefined,
  unit: Unit,
  at: Span,
): Mark {
  const end = (x: number | undefined) => (x === undefined ? "" : show(x, unit));
  const shown = `${end(low)} .. ${end(high)}`.trim();
  return mark(kind, path, what, { values: [low, high], senses: [-1, 1], presence: -1, shown, at });
}

export function rate(
  kind: Mark["kind"],
  path: string,
  what: string,
  value: number,
  at: Span,
): Mark {
  const shown = `${showNumber(value * 100)} %`;
  return mark(kind, path, what, { values: [value], senses: [-1], presence: -1, shown, at });
}

export function amounts(
  path: string,
  what: string,
  values: readonly Quantity[],
  senses: Mark["senses"],
  at: Span,
): Mark {
  const shown = values.map(it => (it.unit ? show(it.value, it.unit) : showNumber(it.value)));
  return mark("range", path, what, {
    ...{ values: values.map(it => it.value), senses, presence: 0, shown: shown.join(" .. "), at },
  });
}
