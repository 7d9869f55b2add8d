import type { Corner, Holder } from "../../server/compute/holders";

/** A seat: so many kilograms, at any of these arms, m. */
export function seat(least: number, most: number, fromArm: number, toArm = fromArm): Holder {
  const line = (arm: number) => [least, most].map(amount => ({ amount, moment: amount * arm }));
  return { lower: line(fromArm), upper: line(toArm) };
}

/** A tank: from each amount, kg, to its moment, kg m. */
export function tank(...levels: readonly (readonly [amount: number, moment: number])[]): Holder {
  const curve: readonly Corner[] = levels.map(([amount, moment]) => ({ amount, moment }));
  return { lower: curve, upper: curve };
}
