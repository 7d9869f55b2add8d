// Bundled by itself as dist/mathjs.js, so that what never meets a rare unit never loads mathjs.
import { createUnitClass } from "mathjs";

/** Exponents under the names of `bases` in server/quantity/dimension.ts. */
export interface MathjsUnit {
  /** One of it in kg, m, s, rad, A, K, cd, mol, bit. */
  readonly factor: number;
  readonly exponents: Readonly<Record<string, number>>;
}

/**
 * What mathjs knows under a single word, its prefixes included: `mi`, `kgf`, `millivolt`.
 * Undefined for anything else; also for scales that do not begin at zero (degC, degF), which no
 * factor describes, and for imaginary ones (VAR).
 */
export function unit(word: string): MathjsUnit | undefined {
  // The only text that mathjs's parser ever sees; it reads `5 lb 3 oz` as 240 oz^2.
  if (!/^[A-Za-z][A-Za-z0-9]*$/.test(word) || !Unit.isValuelessUnit(word)) return undefined;

  const { units, dimensions } = Unit.parse(word);
  const [part] = units;
  if (part === undefined || part.unit.offset !== 0) return undefined;

  const factor = Number(part.unit.value) * part.prefix.value;
  if (!Number.isFinite(factor)) return undefined;
  return { factor, exponents: Object.fromEntries(order.map((base, i) => [base, dimensions[i]!])) };
}

/** mathjs's `Unit.BASE_DIMENSIONS`, in our words. */
const order = [
  "mass",
  "length",
  "time",
  "current",
  "temperature",
  "luminous intensity",
  "amount of substance",
  "angle",
  "bit",
] as const;

/** The part of mathjs's Unit class that is used here; its own types leave it out. */
interface UnitClass {
  isValuelessUnit(word: string): boolean;
  parse(text: string): {
    readonly units: readonly {
      readonly unit: { readonly value: unknown; readonly offset: number };
      readonly prefix: { readonly value: number };
    }[];
    readonly dimensions: readonly number[];
  };
}

declare module "mathjs" {
  export function createUnitClass(parts: Readonly<Record<string, unknown>>): UnitClass;
}

/** mathjs writes the rankine's 5/9 as one. */
class Ratio {
  constructor(
    readonly over: number,
    readonly under: number,
  ) {}
  valueOf(): number {
    return this.over / this.under;
  }
}

// The class by itself, over plain numbers, is 46 kB and loads in 7 ms. `unit` with all that it
// may compute with (typed functions, big numbers, complex ones, fractions) is 227 kB and 60 ms.
const Unit = createUnitClass({
  config: { number: "number" },
  addScalar: (a: number, b: number) => a + b,
  subtractScalar: (a: number, b: number) => a - b,
  multiplyScalar: (a: number, b: number) => a * b,
  divideScalar: (a: number, b: number) => a / b,
  pow: Math.pow,
  abs: Math.abs,
  fix: Math.trunc,
  round: Math.round,
  equal: Object.is,
  isNumeric: (it: unknown) => typeof it === "number",
  format: String,
  number: Number,
  Complex: { I: Number.NaN },
  BigNumber: Number,
  Fraction: Ratio,
});
