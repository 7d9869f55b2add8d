import { showNumber } from "./show";

/** A rounded percent, or 1 in N where it is small. */
export function chanceText(chance: number): string {
  if (chance > 0.995) return "over 99 %";
  if (chance >= 0.095) return `${Math.round(100 * chance)} %`;
  if (chance < 1e-6) return "less than 1 in a million";
  const n = Number((1 / chance).toPrecision(2));
  return `1 in ${showNumber(n, 0)}`;
}
