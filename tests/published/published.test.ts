import { beforeAll, describe, expect, test } from "vitest";
import { amounts } from "./amounts";
import type { Case, Reading } from "./case";
import { type Figures, figuresOf } from "./figures";
import { inertias } from "./inertias";
import { limits } from "./limits";
import { moments } from "./moments";
import published from "./published.json";
import { rules } from "./rules";
import { stands } from "./stands";

const cases: Readonly<Record<string, Case>> = {
  ...moments,
  ...limits,
  ...amounts,
  ...inertias,
  ...rules,
  ...stands,
};

interface Entry {
  readonly id: string;
  readonly source: string;
  readonly provenance: string;
  readonly expected: object;
  /** Absolute: half a unit of the last printed digit; one for all, or one a figure. */
  readonly tolerance: number | object;
}
const entries: readonly Entry[] = published;

let all: ReadonlyMap<string, Figures>;
beforeAll(() => {
  all = figuresOf(cases);
});

describe("what is printed is what the command line says", () => {
  for (const { id, source, provenance, expected, tolerance } of entries)
    test(`${id} – ${source}${provenance === "read" ? "" : ` (${provenance})`}`, () => {
      const { reads, found = [], notFound = [] } = cases[id]!;
      const figures = all.get(id)!;
      expect(Object.keys(reads).sort()).toEqual(Object.keys(expected).sort());
      for (const [what, printed] of Object.entries(expected)) {
        const within =
          typeof tolerance === "number"
            ? tolerance
            : (new Map(Object.entries(tolerance)).get(what) ?? 0);
        for (const value of valuesOf(reads[what]!, figures))
          expect(
            Math.abs(value - Number(printed)),
            `${what}: ${value}, printed ${printed}`,
          ).toBeLessThanOrEqual(within + ROUNDING * Math.max(1, Math.abs(Number(printed))));
      }
      for (const code of found) expect(figures.get(`count ${code}`), code).toBeGreaterThan(0);
      for (const code of ["syntax", "unknown-name", "wrong-dimension", ...notFound])
        expect(figures.get(`count ${code}`), code).toBeUndefined();
    });

  test("every spec is of a printed figure", () => {
    expect(Object.keys(cases).sort()).toEqual(entries.map(it => it.id).sort());
  });
});

/** Of floating point: kilograms and metres turned back into pounds and inches. */
const ROUNDING = 1e-12;

function valuesOf(reading: Reading, figures: Figures): readonly number[] {
  const of = (name: string) => {
    const value = figures.get(name);
    expect(value, name).toBeTypeOf("number");
    return value!;
  };
  if (typeof reading === "string") return [of(reading)];
  if (typeof reading === "function") return [reading(of)];
  expect(of(`${reading.inside} inside`), reading.inside).toBe(1);
  expect(of(`${reading.outside} inside`), reading.outside).toBe(0);
  return reading.limit.split("|").map(of);
}
