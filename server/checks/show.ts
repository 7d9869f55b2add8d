import { closestShown, show } from "../quantity/show";
import type { Unit } from "../quantity/units";

/** A mass and what it is over or under, in one unit: "42.5 lb", "2.5 lb", "40 lb". */
export function over(
  value: number,
  limit: number,
  unit: Unit,
): { is: string; by: string; limit: string } {
  const [is, shownLimit] = closestShown(value, limit, unit);
  return { is, by: show(Math.abs(value - limit), unit), limit: shownLimit };
}
