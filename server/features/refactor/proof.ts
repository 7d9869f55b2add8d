import { emptyOf } from "../../compute/stages";
import { emptyDeviation } from "../../compute/whole";
import type { Finding } from "../../findings";
import { type JudgedRoot, judge } from "../../judge";
import type { Project } from "../../project";
import { closestShown, show } from "../../quantity/show";
import type { Unit } from "../../quantity/units";
import { reportOf } from "../../views/report";
import { type Keeps, type Offer, type Refusal, type Rewrite, rewritten } from "./rewrite";

export interface Proved {
  readonly rewrite: Rewrite;
  /** What is not quite as it was, one line each; empty: every figure is the same. */
  readonly differences: readonly string[];
}

/**
 * Does it and judges the outcome: every aircraft has the figures it had, in all that is reported of it, and
 * no finding came. What cannot be shown to be the same is refused, with the first thing that differs.
 */
export function proved(project: Project, offer: Offer): Proved | Refusal {
  const rewrite = offer.rewrite();
  if ("refused" in rewrite) return rewrite;
  const { keeps } = offer;
  const next = rewritten(project, rewrite);
  const [was, is] = [judge(project), judge(next)];
  const fresh = newFinding(was.findings, is.findings, keeps);
  if (fresh) return { refused: `there would be a new finding: ${fresh.message}` };
  const differences: string[] = [];
  for (const root of was.roots) {
    const other = is.roots.find(it => it.name === root.name && it.airframe === root.airframe);
    if (other === undefined) return { refused: `${nameOf(root)} would be gone` };
    const changed = firstChange(root, other, keeps);
    if (changed) return { refused: `${nameOf(root)} would not stay the same, ${changed}` };
    differences.push(...differencesOf(root, other, keeps));
  }
  return { rewrite, differences };
}

/** What differs between two pictures of which one has other names; in words, undefined: nothing. */
export function figuresChanged(project: Project, next: Project): string | undefined {
  const [was, is] = [judge(project), judge(next)];
  const fresh = newFinding(was.findings, is.findings, { names: true });
  if (fresh) return `there would be a new finding: ${fresh.message}`;
  if (was.roots.length !== is.roots.length) return "an aircraft would be gone";
  for (const [i, root] of was.roots.entries()) {
    const changed = firstChange(root, is.roots[i]!, { names: true });
    if (changed) return `${nameOf(root)} would not stay the same, ${changed}`;
  }
  return undefined;
}

const nameOf = ({ name, airframe }: JudgedRoot) => airframe ?? name;

function newFinding(
  was: readonly Finding[],
  is: readonly Finding[],
  { codes = [], spreads = false, names = false }: Keeps,
): Finding | undefined {
  const left = new Map<string, number>();
  const keyOf = ({ code, airframes = [], waived }: Finding) =>
    `${code} ${names ? airframes.length : airframes.join()} ${waived !== undefined}`;
  for (const it of was) left.set(keyOf(it), (left.get(keyOf(it)) ?? 0) + 1);
  return is.find(it => {
    const count = left.get(keyOf(it)) ?? 0;
    left.set(keyOf(it), count - 1);
    // what is said of one of two alike is said of the other
    const again = spreads && was.some(other => other.code === it.code);
    return count <= 0 && !again && !codes.includes(it.code);
  });
}

type Leaf = string | number | boolean | null;

/** Every figure that is reported, by where it stands: "assemblies wing predicted mass_kg". */
function* leavesOf(
  value: unknown,
  at: string,
  label: (it: unknown) => string | undefined,
): Iterable<readonly [string, Leaf]> {
  if (typeof value !== "object" || value === null) {
    yield [at, value as Leaf];
    return;
  }
  const seen = new Map<string, number>();
  for (const [key, it] of Object.entries(value)) {
    const name = Array.isArray(value) ? (label(it) ?? key) : key;
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    yield* leavesOf(it, `${at} ${name}${count > 1 ? ` (${count})` : ""}`.trim(), label);
  }
}

/** What an entry of a list is called; figures of a list, and what has no name, stand in their order. */
function labelOf(value: unknown, texts: boolean): string | undefined {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return undefined;
  const { path, name, envelope, configuration, stage, text, code } = value as Record<string, Leaf>;
  return (
    [path ?? name ?? stage ?? (texts ? text : undefined) ?? code, envelope, configuration]
      .filter(it => it !== undefined && it !== null && it !== "")
      .join(" ") || undefined
  );
}

/** The first figure or verdict that would not be what it is, in words. */
function firstChange(was: JudgedRoot, is: JudgedRoot, keeps: Keeps): string | undefined {
  const {
    datumBy = 0,
    digits = false,
    names = false,
    assemblies = [],
    renamed = (it: string) => it,
  } = keeps;
  // a requirement is told in the author's units, and its text with them
  const figures = (of: JudgedRoot) =>
    leavesOf({ ...reportOf(of), file: "" }, "", it => (names ? undefined : labelOf(it, !digits)));
  const after = new Map(figures(is));
  const may = assemblies.map(it => `assemblies ${it} `);
  for (const [key, before] of figures(was)) {
    if (may.some(it => key.startsWith(it))) continue;
    if (keeps.spreads && /spread|chance_over/.test(key)) continue;
    if (digits && /^requirements .*(left|right|text)$/.test(key)) continue;
    if (names && / ?(name|path|text|airframe|envelope|configuration)$/.test(key)) continue;
    const now = after.get(renamed(key)) ?? null;
    if (typeof before !== "number" || typeof now !== "number") {
      const same = typeof before === "string" ? renamed(before) : before;
      if (same !== now) return changeText(key, before, now, was);
      continue;
    }
    const shift = / cg_m 0$/.test(key) && !key.includes("spread") ? datumBy : 0;
    if (!digits && Math.abs(now + shift - before) > NOISE * Math.max(1, Math.abs(before)))
      return changeText(key, before, now + shift, was);
  }
  return undefined;
}

/** What a figure may be off by after it was written in another frame: of kg, m, or of itself. */
const NOISE = 1e-9;

function changeText(key: string, before: Leaf, now: Leaf, { root }: JudgedRoot): string {
  const unit = /_kg$/.test(key)
    ? root.units.mass
    : /_m( \d)?$/.test(key)
      ? root.units.length
      : undefined;
  const said = (it: Leaf) =>
    typeof it === "number" && unit ? show(it, unit) : it === null ? "not known" : `${it}`;
  const what = key
    .replace(/_(kg|m)\b/, "")
    .replace("assemblies ", "")
    .replaceAll("_", " ");
  return `${what} would be ${said(now)}, not ${said(before)}`;
}

function differencesOf(was: JudgedRoot, is: JudgedRoot, keeps: Keeps): readonly string[] {
  const { mass, length } = was.root.units;
  const [a, b] = [emptyOf(was.root).basic, emptyOf(is.root).basic];
  const lines: string[] = [];
  const told = (what: string, from: number, to: number, unit: Unit) => {
    if (Math.abs(to - from) <= NOISE) return;
    const [before, after] = closestShown(from, to, unit);
    lines.push(`${nameOf(was)}: ${what} ${before}, then ${after}`);
  };
  if (keeps.digits) {
    told("basic empty weight", a.mass, b.mass, mass);
    if (a.fs !== null && b.fs !== null) told("its FS", a.fs, b.fs, length);
  }
  if (keeps.spreads) {
    const [from, to] = [was, is].map(it => emptyDeviation(it.root).mass) as [number, number];
    told("one standard deviation of the empty weight", from, to, mass);
  }
  return lines;
}
