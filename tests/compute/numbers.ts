import { expect } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";

export interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly [number, number, number];
  readonly inertia_kg_m2: Readonly<Record<"Ixx" | "Iyy" | "Izz" | "Ixy" | "Ixz" | "Iyz", number>>;
  readonly complete: boolean;
  readonly cg_complete: readonly [boolean, boolean, boolean];
  readonly inertia_complete: boolean;
}
export interface Assembly {
  readonly path: string;
  readonly basic: Mass;
  readonly predicted: Mass;
  readonly spread_kg: number;
  readonly cg_spread_m: readonly [number | null, number | null, number | null];
  readonly chance_over?: number;
  readonly by_basis_kg: Readonly<Record<string, number>>;
}
export interface Numbers {
  readonly empty: { readonly basic: Mass };
  readonly parts: { readonly basic: Mass; readonly predicted: Mass };
  readonly assemblies: readonly Assembly[];
  readonly loadings: readonly {
    readonly name: string;
    readonly configuration: string | null;
    readonly stages: readonly { readonly stage: string; readonly cg_m: readonly number[] }[];
  }[];
  readonly configurations: readonly {
    readonly name: string;
    readonly empty: Mass;
    readonly moment_change_kg_m: readonly number[];
  }[];
}

/** What leaves the program as JSON of one spec, which must have no fault in its text. */
export function numbersOf(text: string): Numbers {
  const project = withText(emptyProject(["/specs"]), "/specs/example.poise", text);
  const { roots, findings } = judge(project);
  const faults = new Set(["syntax", "unknown-name", "wrong-dimension", "swing-impossible"]);
  expect(findings.filter(it => faults.has(it.code)).map(it => it.message)).toEqual([]);
  return reportOf(roots[0]!) as unknown as Numbers;
}

/** Every figure of both, but texts and codes, side by side: relative, with a floor about zero. */
export function expectSame(a: unknown, b: unknown, within: number, floor = 1e-9, at = ""): void {
  if (typeof a === "number" && typeof b === "number") {
    expect(Math.abs(a - b), `${at}: ${a} against ${b}`).toBeLessThanOrEqual(
      within * Math.max(Math.abs(a), Math.abs(b)) + floor * within,
    );
    return;
  }
  if (typeof a === "object" && a !== null && typeof b === "object" && b !== null) {
    expect(Object.keys(b), at).toEqual(Object.keys(a));
    for (const [key, value] of Object.entries(a))
      expectSame(value, b[key as keyof typeof b], within, floor, `${at}.${key}`);
    return;
  }
  expect(b, at).toEqual(a);
}
