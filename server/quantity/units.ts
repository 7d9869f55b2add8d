import type { Dimension } from "./dimension";
import * as dim from "./dimension";

export interface Unit {
  /** As authors write it: 'lb', 'lb/ft^2', 'kg m^2'. */
  readonly name: string;
  /** One of it in kg, m, s, rad, A. */
  readonly factor: number;
  readonly dimension: Dimension;
}

/** Knows units the table does not; undefined for what it does not know either. */
export type UnitsBeyond = (name: string) => Unit | undefined;

export interface UnitPower {
  readonly name: string;
  readonly power: number;
}

/** The units at hand everywhere, each factor its exact definition as near as a double comes. */
export const unitTable: ReadonlyMap<string, Unit> = new Map(
  (
    [
      ["%", 0.01, dim.PLAIN],

      ["g", 0.001, dim.MASS],
      ["kg", 1, dim.MASS],
      ["mg", 1e-6, dim.MASS],
      ["t", 1000, dim.MASS],
      // The pound and yard agreement of 1959 fixes lb and yd; oz is 1/16 lb.
      ["lb", 0.45359237, dim.MASS],
      ["oz", 0.028349523125, dim.MASS],
      // What 1 lbf accelerates at 1 ft/s².
      ["slug", 4.4482216152605 / 0.3048, dim.MASS],

      ["mm", 0.001, dim.LENGTH],
      ["cm", 0.01, dim.LENGTH],
      ["m", 1, dim.LENGTH],
      ["in", 0.0254, dim.LENGTH],
      ["ft", 0.3048, dim.LENGTH],
      ["yd", 0.9144, dim.LENGTH],
      ["mil", 2.54e-5, dim.LENGTH],

      // The US gallon is 231 in³, the imperial one 4.54609 L.
      ["gal", 3.785411784e-3, dim.VOLUME],
      ["qt", 0.946352946e-3, dim.VOLUME],
      ["pt", 0.473176473e-3, dim.VOLUME],
      ["impgal", 4.54609e-3, dim.VOLUME],
      ["L", 0.001, dim.VOLUME],
      ["mL", 1e-6, dim.VOLUME],
      ["cc", 1e-6, dim.VOLUME],

      ["deg", Math.PI / 180, dim.ANGLE],
      ["rad", 1, dim.ANGLE],

      ["s", 1, dim.TIME],
      ["min", 60, dim.TIME],
      ["h", 3600, dim.TIME],

      ["N", 1, dim.FORCE],
      ["kN", 1000, dim.FORCE],
      // 1 lb under the standard gravity of 9.80665 m/s².
      ["lbf", 4.4482216152605, dim.FORCE],

      ["psi", 4.4482216152605 / 0.00064516, dim.PRESSURE],
      ["kPa", 1000, dim.PRESSURE],

      ["W", 1, dim.POWER],
      ["kW", 1000, dim.POWER],
      // The mechanical one, 550 ft lbf/s.
      ["hp", 745.6998715822702, dim.POWER],

      ["kt", 1852 / 3600, dim.SPEED],

      ["Wh", 3600, dim.ENERGY],
      ["kWh", 3.6e6, dim.ENERGY],
      ["J", 1, dim.ENERGY],
      ["Ah", 3600, dim.CHARGE],
    ] as const
  ).map(([name, factor, dimension]) => [name, { name, factor, dimension }]),
);

/**
 * The unit that a product of powers stands for; of an unknown name, the first.
 * A single unit of the table is the table's own object.
 */
export function unitOf(
  powers: readonly UnitPower[],
  beyond?: UnitsBeyond,
): Unit | { readonly unknown: string } {
  let factor = 1;
  let dimension = dim.PLAIN;
  for (const { name, power } of powers) {
    const unit = unitTable.get(name) ?? beyond?.(name);
    if (unit === undefined) return { unknown: name };
    if (powers.length === 1 && power === 1) return unit;
    // Dividing keeps `mi/h` the quotient of two exact figures; multiplying by 1/h would round twice.
    if (power < 0) factor /= unit.factor ** -power;
    else factor *= unit.factor ** power;
    dimension = dim.times(dimension, dim.power(unit.dimension, power));
  }
  return { name: nameOf(powers), factor, dimension };
}

/** Readable by the grammar again: powers above the line first, then each one below it. */
function nameOf(powers: readonly UnitPower[]): string {
  const sums = new Map<string, number>();
  for (const { name, power } of powers) sums.set(name, (sums.get(name) ?? 0) + power);

  const above = [...sums].filter(([, power]) => power > 0);
  const below = [...sums].filter(([, power]) => power < 0);
  if (above.length === 0) return below.map(([name, power]) => `${name}^${power}`).join(" ");
  return (
    above.map(([name, power]) => raised(name, power)).join(" ") +
    below.map(([name, power]) => `/${raised(name, -power)}`).join("")
  );
}

function raised(name: string, power: number): string {
  return power === 1 ? name : `${name}^${power}`;
}
