import type { UnitsBeyond } from "../quantity/units";

let known: UnitsBeyond = () => undefined;

/** The edge hands over what knows the units the table does not: too heavy to load before it is needed. */
export function useUnitsBeyond(units: UnitsBeyond): void {
  known = units;
}

export const unitsBeyond: UnitsBeyond = name => known(name);
