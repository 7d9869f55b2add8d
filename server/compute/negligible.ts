import type { Mac } from "../model/envelope";
import { exceeds, same } from "../quantity/compare";
import { unitTable } from "../quantity/units";
import type { Balance } from "./weight";

const lb = unitTable.get("lb")!.factor;

/**
 * How much the weight of an aircraft may change and the change still be negligible, kg: 1 lb below 5,000 lb
 * of empty weight, 2 lb up to 50,000 lb, 5 lb above. FAA-H-8083-25C, chapter 10, and AC 43.13-1B, 10-2c;
 * they leave open which holds at exactly 5,000 lb: 2 lb is taken.
 * @param empty kg
 */
export function negligibleMass(empty: number): number {
  if (exceeds(empty, 50_000 * lb)) return 5 * lb;
  return exceeds(5_000 * lb, empty) ? 1 * lb : 2 * lb;
}

/** How little the CG must move, m: less than 0.05 % of the mean aerodynamic chord (the same, for airplanes). */
export const negligibleShift = (mac: Mac) => 0.0005 * mac.length;

/** Undefined: without a chord, or where a mass or a CG is not known, nobody can say. */
export function isNegligible(
  before: Balance,
  after: Balance,
  mac: Mac | undefined,
): boolean | undefined {
  const { fs } = before;
  if (!before.complete || !after.complete || fs === null || after.fs === null) return undefined;
  const by = Math.abs(after.mass - before.mass);
  if (exceeds(by, negligibleMass(before.mass))) return false;
  if (mac === undefined) return undefined;
  const shift = Math.abs(after.fs - fs);
  return shift < negligibleShift(mac) && !same(shift, negligibleShift(mac));
}
