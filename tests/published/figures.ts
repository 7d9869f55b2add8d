import { folderOf, poise } from "../command-line/poise";
import type { Case } from "./case";

/** What the command line says of one spec, by name: masses in kg and lb, arms in m, cm and in. */
export type Figures = ReadonlyMap<string, number>;

interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly [number | null, number | null, number | null];
  readonly inertia_kg_m2?: Readonly<Record<string, number>> | null;
}
interface Root {
  readonly file: string;
  readonly empty: {
    readonly basic: Mass & {
      readonly principal_kg_m2?: readonly number[];
      readonly principal_axes?: readonly (readonly number[])[];
    };
  };
  readonly configurations: readonly { readonly name: string; readonly empty: Mass }[];
  readonly parts: { readonly basic: Mass; readonly predicted: Mass };
  readonly assemblies: readonly {
    readonly path: string;
    readonly basic: Mass;
    readonly predicted: Mass;
    readonly growth_kg: number;
    readonly margin_kg?: number;
  }[];
  readonly loadings: readonly {
    readonly name: string;
    readonly stages: readonly (Mass & {
      readonly stage: string;
      readonly inside: boolean | null;
    })[];
  }[];
  readonly requirements: readonly { readonly holds: boolean | null; readonly left: string }[];
}
interface Report {
  readonly roots: readonly Root[];
  readonly findings: readonly { readonly file: string; readonly code: string }[];
}

const LB = 0.45359237;
const INCH = 0.0254;

/** Each spec is a file and a root of its own; one run of the command line judges them all. */
export function figuresOf(cases: Readonly<Record<string, Case>>): ReadonlyMap<string, Figures> {
  const files = Object.entries(cases).map(([id, { block = "", spec }]) => [
    `${id}.poise`,
    `aircraft ${id.replaceAll("-", "_")} {\n  units lb, in, gal\n  ${block}\n}\n${spec}\n`,
  ]);
  const folder = folderOf({ ".git/HEAD": "", ...Object.fromEntries(files) });
  const report: Report = JSON.parse(
    poise(["check", ".", "--format", "json"], { in: folder }).stdout,
  );
  return new Map(
    report.roots.map(root => {
      const found = report.findings.filter(it => it.file === root.file).map(it => it.code);
      return [root.file.replace(/\.poise$/, ""), new Map(figures(root, found))];
    }),
  );
}

function* figures(root: Root, found: readonly string[]): Iterable<[string, number]> {
  for (const code of new Set(found))
    yield [`count ${code}`, found.filter(it => it === code).length];
  yield* mass("empty", root.empty.basic);
  const { principal_kg_m2 = [], principal_axes = [] } = root.empty.basic;
  for (const [i, moment] of principal_kg_m2.entries()) {
    yield [`principal ${i + 1}`, moment];
    for (const [k, part] of principal_axes[i]!.entries())
      yield [`axis ${i + 1} ${["FS", "BL", "WL"][k]}`, part];
  }
  for (const { name, empty } of root.configurations) yield* mass(name, empty);
  yield* mass("parts", root.parts.basic);
  yield* mass("parts predicted", root.parts.predicted);
  for (const { path, basic, predicted, growth_kg, margin_kg } of root.assemblies) {
    const name = path === "" ? "aircraft" : path;
    yield* mass(name, basic);
    yield* mass(`${name} predicted`, predicted);
    yield [`${name} growth kg`, growth_kg];
    if (margin_kg !== undefined) yield [`${name} margin kg`, margin_kg];
  }
  for (const { name, stages } of root.loadings) {
    for (const stage of stages) yield* mass(`${name} ${stage.stage}`, stage);
    // a state whose verdict is not known is neither
    if (stages.every(it => it.inside !== null))
      yield [`${name} inside`, Number(stages.every(it => it.inside))];
  }
  for (const [i, { holds, left }] of root.requirements.entries()) {
    yield [`requirement ${i} holds`, holds === null ? Number.NaN : Number(holds)];
    yield [`requirement ${i} left`, Number.parseFloat(left.replaceAll(",", ""))];
  }
}

function* mass(
  name: string,
  { mass_kg, cg_m: [fs, bl, wl], inertia_kg_m2 }: Mass,
): Iterable<[string, number]> {
  for (const [term, value] of Object.entries(inertia_kg_m2 ?? {})) yield [`${name} ${term}`, value];
  yield [`${name} kg`, mass_kg];
  yield [`${name} lb`, mass_kg / LB];
  if (bl !== null) yield [`${name} BL in`, bl / INCH];
  if (wl !== null) yield [`${name} WL in`, wl / INCH];
  if (fs === null) return;
  yield [`${name} m`, fs];
  yield [`${name} cm`, fs * 100];
  yield [`${name} in`, fs / INCH];
  yield [`${name} kg m`, mass_kg * fs];
  yield [`${name} kg cm`, mass_kg * fs * 100];
  yield [`${name} lb in`, (mass_kg * fs) / LB / INCH];
  yield [`${name} index`, (mass_kg * fs) / LB / INCH / 100];
}
