import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { cases } from "./cases";

/** Every published example is a spec of its own; one run of the command line judges them all. */
const folder = mkdtempSync(join(tmpdir(), "poise-published-"));
const poise = fileURLToPath(new URL("../../dist/poise.js", import.meta.url));

interface Root {
  readonly name: string;
  readonly parts: { readonly basic: Mass; readonly predicted: Mass };
  readonly assemblies: readonly {
    readonly path: string;
    readonly basic: Mass;
    readonly predicted: Mass;
    readonly margin_kg?: number;
  }[];
  readonly loadings: readonly { readonly stages: readonly Stage[] }[];
  readonly requirements: readonly {
    readonly left: string;
    readonly right: string;
    readonly holds: boolean;
  }[];
}
interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly [number, number, number];
  readonly complete: boolean;
}
interface Stage {
  readonly stage: string;
  readonly mass_kg: number;
  readonly cg_m: readonly [number, number, number];
  readonly inside: boolean | null;
}

let roots: ReadonlyMap<string, Root>;
let codes: ReadonlyMap<string, readonly string[]>;

beforeAll(() => {
  mkdirSync(join(folder, ".git"));
  for (const { id, spec, block = "" } of cases)
    writeFileSync(
      join(folder, `${id}.poise`),
      `aircraft ${id} {\nunits lb, in, gal\n${block}\n}\n${spec}`,
    );
  let out: string;
  try {
    out = execFileSync(process.execPath, [poise, "check", folder, "--format", "json"], {
      encoding: "utf8",
    });
  } catch (error) {
    // status 1: some of the published loadings are outside on purpose
    out = (error as { stdout: string }).stdout;
  }
  const report = JSON.parse(out);
  roots = new Map(report.roots.map((root: Root) => [root.name, root]));
  const found = new Map<string, string[]>();
  for (const { file, code } of report.findings) {
    const id = file.split("/").at(-1).replace(".poise", "");
    found.set(id, [...(found.get(id) ?? []), code]);
  }
  codes = found;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const LB = 0.45359237;
const INCH = 0.0254;

describe("published figures", () => {
  for (const { id, title, source, wants } of cases)
    test(`${title} (${source})`, () => {
      const root = roots.get(id)!;
      const { basic, predicted } = root.parts;
      const stages = new Map((root.loadings[0]?.stages ?? []).map(it => [it.stage, it]));
      const figures: Record<string, number | boolean | string | undefined> = {
        weight: basic.mass_kg / LB,
        kg: basic.mass_kg,
        arm: basic.cg_m[0] / INCH,
        cm: basic.cg_m[0] * 100,
        moment: (basic.mass_kg * basic.cg_m[0]) / LB / INCH,
        predicted: predicted.mass_kg / LB,
        predicted_kg: predicted.mass_kg,
        complete: basic.complete,
      };
      for (const [name, stage] of stages) {
        figures[`${name} weight`] = stage.mass_kg / LB;
        figures[`${name} kg`] = stage.mass_kg;
        figures[`${name} arm`] = stage.cg_m[0] / INCH;
        figures[`${name} cm`] = stage.cg_m[0] * 100;
        figures[`${name} moment`] = (stage.mass_kg * stage.cg_m[0]) / LB / INCH;
        figures[`${name} inside`] = stage.inside ?? "not known";
      }
      for (const it of root.assemblies) figures[`mass of ${it.path}`] = it.basic.mass_kg;
      for (const it of root.assemblies)
        if (it.margin_kg !== undefined) figures[`margin of ${it.path}`] = it.margin_kg;
      root.requirements.forEach((it, i) => {
        figures[`left ${i}`] = Number.parseFloat(it.left.replaceAll(",", ""));
        figures[`holds ${i}`] = it.holds;
      });
      for (const code of codes.get(id) ?? []) figures[code] = true;
      for (const [what, [expected, tolerance]] of Object.entries(wants))
        if (typeof expected === "number") {
          const value = figures[what];
          expect(typeof value, `${what} of ${id}`).toBe("number");
          expect(
            Math.abs((value as number) - expected),
            `${what}: ${value}, printed ${expected}`,
          ).toBeLessThanOrEqual(tolerance + 1e-9);
        } else expect(figures[what] ?? false, what).toBe(expected);
    });
});
