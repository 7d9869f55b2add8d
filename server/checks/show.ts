import type { Stage } from "../compute/stages";
import { closestShown, show } from "../quantity/show";
import type { Unit } from "../quantity/units";

/**
 * A mass and what it is over or under, in one unit: "42.5 lb", "2.5 lb", "40 lb". The difference is
 * that of the figures shown, and as many digits are shown as it takes for it to be nearly the true one.
 */
export function over(
  value: number,
  limit: number,
  unit: Unit,
): { is: string; by: string; limit: string } {
  const off = Math.abs(value - limit);
  let [is, shownLimit] = closestShown(value, limit, unit);
  for (let digits = 2; digits <= MOST; digits++) {
    const shownOff = Math.abs(figureOf(is) - figureOf(shownLimit));
    const wrong = Math.abs(shownOff * unit.factor - off);
    if (wrong <= off * NEARLY)
      return { is, by: show(shownOff * unit.factor, unit, MOST), limit: shownLimit };
    is = show(value, unit, digits);
    shownLimit = show(limit, unit, digits);
  }
  return { is, by: show(off, unit), limit: shownLimit };
}

/** "at takeoff", "after wing_tank". */
export const when = ({ kind, stage }: Stage) =>
  kind === "after" ? stage : `at ${stage.replace("_", " ")}`;

const MOST = 6;
const NEARLY = 0.05;

const figureOf = (shown: string) => Number.parseFloat(shown.replaceAll(",", ""));
