import { memo2 } from "../memo";

/** Exponents of the base dimensions, interned: two equal dimensions are the same object. */
export interface Dimension {
  readonly mass: number;
  readonly length: number;
  readonly time: number;
  readonly angle: number;
  readonly current: number;
  /** '' or the exponents of the rarer base dimensions, such as `temperature^-1 bit`. */
  readonly other: string;
}

/** The base dimensions, in the order their exponents are kept and read out. */
export const bases = [
  "mass",
  "length",
  "time",
  "angle",
  "current",
  "temperature",
  "luminous intensity",
  "amount of substance",
  "bit",
] as const;

export type Exponents = Readonly<Partial<Record<(typeof bases)[number], number>>>;

/** The one dimension with these exponents; what is left out is zero. */
export function dimension(exponents: Exponents): Dimension {
  return interned(bases.map(base => exponents[base] ?? 0));
}

export function times(a: Dimension, b: Dimension): Dimension {
  return b === PLAIN ? a : a === PLAIN ? b : product(a, b);
}

export function over(a: Dimension, b: Dimension): Dimension {
  return b === PLAIN ? a : a === b ? PLAIN : quotient(a, b);
}

export function power(a: Dimension, n: number): Dimension {
  return a === PLAIN || n === 1 ? a : interned(exponentsOf(a).map(it => it * n));
}

/** What an engineer calls it, with its article: 'a mass', 'an area', 'length³ / time'. */
export function nameOf(d: Dimension): string {
  return names.get(d) ?? `a quantity of ${formula(d)}`;
}

// Dimensions come from the units of a text, a few dozen at most, so they are kept for good.
const known = new Map<string, Dimension>();
const vectors = new Map<Dimension, readonly number[]>();

const product = memo2((a: Dimension, b: Dimension) => {
  const right = exponentsOf(b);
  return interned(exponentsOf(a).map((it, i) => it + right[i]!));
});

const quotient = memo2((a: Dimension, b: Dimension) => {
  const right = exponentsOf(b);
  return interned(exponentsOf(a).map((it, i) => it - right[i]!));
});

export const PLAIN = dimension({});
export const MASS = dimension({ mass: 1 });
export const LENGTH = dimension({ length: 1 });
export const AREA = dimension({ length: 2 });
export const VOLUME = dimension({ length: 3 });
export const TIME = dimension({ time: 1 });
export const ANGLE = dimension({ angle: 1 });
export const CURRENT = dimension({ current: 1 });
export const DENSITY = dimension({ mass: 1, length: -3 });
/** Of mass: what weighing sheets call a moment. */
export const MOMENT = dimension({ mass: 1, length: 1 });
export const INERTIA = dimension({ mass: 1, length: 2 });
export const SPEED = dimension({ length: 1, time: -1 });
export const ACCELERATION = dimension({ length: 1, time: -2 });
export const FORCE = dimension({ mass: 1, length: 1, time: -2 });
export const PRESSURE = dimension({ mass: 1, length: -1, time: -2 });
export const ENERGY = dimension({ mass: 1, length: 2, time: -2 });
export const POWER = dimension({ mass: 1, length: 2, time: -3 });
export const CHARGE = dimension({ current: 1, time: 1 });

const names = new Map<Dimension, string>([
  [PLAIN, "a plain number"],
  [MASS, "a mass"],
  [LENGTH, "a length"],
  [AREA, "an area"],
  [VOLUME, "a volume"],
  [TIME, "a time"],
  [ANGLE, "an angle"],
  [CURRENT, "an electric current"],
  [DENSITY, "a density"],
  [dimension({ mass: 1, length: -2 }), "a mass per area"],
  [dimension({ mass: 1, length: -1 }), "a mass per length"],
  [MOMENT, "a moment (mass × length)"],
  [INERTIA, "a moment of inertia (mass × length²)"],
  [SPEED, "a speed"],
  [ACCELERATION, "an acceleration"],
  [FORCE, "a force"],
  [PRESSURE, "a pressure"],
  [ENERGY, "an energy or a torque (force × length)"],
  [POWER, "a power"],
  [CHARGE, "an electric charge"],
  [dimension({ mass: 1, length: 2, time: -3, current: -1 }), "a voltage"],
  [dimension({ temperature: 1 }), "a temperature"],
  [dimension({ time: -1 }), "a rate (per time)"],
  [dimension({ mass: 1, time: -1 }), "a mass flow"],
  [dimension({ length: 3, time: -1 }), "a volume flow"],
]);

function interned(exponents: readonly number[]): Dimension {
  const tidy = exponents.map(settled);
  const key = tidy.join();
  let found = known.get(key);
  if (found === undefined) {
    const [mass = 0, length = 0, time = 0, angle = 0, current = 0, ...rest] = tidy;
    const other = bases
      .slice(5)
      .flatMap((base, i) => raised(base, rest[i]!, "^"))
      .join(" ");
    found = Object.freeze({ mass, length, time, angle, current, other });
    known.set(key, found);
    vectors.set(found, tidy);
  }
  return found;
}

// Roots make thirds and the like; on a grid of sixtieths, three thirds are one again.
function settled(exponent: number): number {
  const sixtieths = Math.round(exponent * 60) / 60;
  return (Math.abs(exponent - sixtieths) < 1e-9 ? sixtieths : exponent) + 0;
}

function exponentsOf(d: Dimension): readonly number[] {
  return vectors.get(d)!;
}

function formula(d: Dimension): string {
  const exponents = exponentsOf(d);
  const above = bases.flatMap((base, i) => (exponents[i]! > 0 ? raised(base, exponents[i]!) : []));
  const below = bases.flatMap((base, i) => (exponents[i]! < 0 ? raised(base, -exponents[i]!) : []));
  return [above.join(" × ") || "1", ...below].join(" / ");
}

function raised(base: string, exponent: number, sign = ""): string[] {
  if (exponent === 0) return [];
  if (exponent === 1) return [base];
  const figure = String(Number(exponent.toPrecision(4)));
  const superscript = sign === "" && /^\d$/.test(figure);
  return [base + (superscript ? "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(figure)] : `^${figure}`)];
}
