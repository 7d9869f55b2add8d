import type { Source } from "../../../grammar/source";
import type { Bound, Coord, Measure, Quantity, Span, UnitPower } from "../../../grammar/tree";
import { reachesOf } from "../../model/reach";
import { type Project, sourceOf } from "../../project";
import { unitOf } from "../../quantity/units";
import type { Edit } from "../amend";
import { nodesIn } from "../place";
import { fileEdits, type Offer } from "./rewrite";
import { figure, isQuantity, plainNumber, statementsIn } from "./walk";

/** A family of units, and what stands in it for each unit of another one. */
interface System {
  readonly title: string;
  readonly instead: ReadonlyMap<string, string>;
}

const pairs = [
  ["lb", "kg"],
  ["slug", "kg"],
  ["oz", "g"],
  ["in", "mm"],
  ["ft", "m"],
  ["yd", "m"],
  ["mil", "mm"],
  ["gal", "L"],
  ["impgal", "L"],
  ["qt", "L"],
  ["pt", "L"],
  ["lbf", "N"],
  ["psi", "kPa"],
  ["hp", "kW"],
] as const;
const back = [
  ["kg", "lb"],
  ["t", "lb"],
  ["g", "oz"],
  ["mg", "oz"],
  ["mm", "in"],
  ["cm", "in"],
  ["m", "ft"],
  ["L", "gal"],
  ["mL", "gal"],
  ["N", "lbf"],
  ["kN", "lbf"],
  ["kPa", "psi"],
  ["kW", "hp"],
] as const;

const systems: readonly System[] = [
  { title: "kg, mm and L", instead: new Map(pairs) },
  { title: "lb, in and gal", instead: new Map(back) },
];

/**
 * Every figure of a file in the other family of units: exactly where that takes few digits, else to the
 * digits it was given with and one more. Where the file says the aircraft's units, the plain numbers of stations in all
 * its files come along.
 */
export function converting(project: Project, source: Source): readonly Offer[] {
  return systems.flatMap(({ title, instead }): readonly Offer[] => {
    const touches = statementsIn(source).some(statement =>
      [...nodesIn(statement)].some(it => "unit" in it && isForeign(it.unit, instead)),
    );
    if (!touches) return [];
    return [
      {
        title: `Write this file in ${title}`,
        kind: "units",
        rewrite: () => ({ edits: fileEdits(project, editsFor(project, source, instead)) }),
        keeps: { digits: true },
      },
    ];
  });
}

const isForeign = (unit: unknown, instead: System["instead"]) =>
  Array.isArray(unit) && unit.some(it => instead.has((it as UnitPower).name));

function editsFor(project: Project, source: Source, instead: System["instead"]): readonly Edit[] {
  const edits: Edit[] = [];
  const said = lengthsIn(source);
  const length = said && instead.get(said.name);
  for (const statement of statementsIn(source))
    for (const node of nodesIn(statement)) {
      if (isQuantity(node)) edits.push(...quantityEdits(node, instead));
      else if ("unit" in node && !("value" in node) && isForeign(node.unit, instead))
        edits.push({ at: node, text: nameOf(swapped(node.unit as readonly UnitPower[], instead)) });
    }
  if (said && length) {
    const factor = factorOf([{ name: said.name, power: 1 }], [{ name: length, power: 1 }])!;
    for (const file of filesWith(project, source))
      for (const statement of statementsIn(file)) edits.push(...stationEdits(statement, factor));
  }
  return edits;
}

function filesWith(project: Project, source: Source): readonly Source[] {
  const reach = reachesOf(project).roots.find(it => it.files.some(f => f.path === source.path));
  return reach
    ? [...reach.files, ...reach.fitting].flatMap(it => sourceOf(project, it.path) ?? [])
    : [source];
}

/** The unit of length of the aircraft, if this file says it. */
function lengthsIn(source: Source): UnitPower | undefined {
  for (const statement of statementsIn(source))
    for (const node of nodesIn(statement))
      if ("kind" in node && node.kind === "units" && "units" in node)
        for (const { unit } of node.units as readonly { unit: readonly UnitPower[] }[])
          if (unit.length === 1 && lengths.has(unit[0]!.name)) return unit[0];
  return undefined;
}
const lengths = new Set(["mm", "cm", "m", "in", "ft", "yd", "mil"]);

function quantityEdits(quantity: Quantity, instead: System["instead"]): readonly Edit[] {
  const [first] = quantity.measures;
  if (!isForeign(first.unit, instead)) return [];
  const unit = swapped(first.unit, instead);
  let value = 0;
  let step = 0;
  for (const measure of quantity.measures) {
    const factor = factorOf(measure.unit, unit);
    if (factor === undefined) return [];
    value += measure.value * factor;
    step = stepOf(measure) * factor;
  }
  // the quantity's own span goes around brackets too
  const at = { line: first.line, from: first.from, to: quantity.measures.at(-1)!.to };
  return [{ at, text: `${asGiven(value, step)} ${nameOf(unit)}` }];
}

/** Plain numbers behind FS, BL, WL and between the ends of a range of stations. */
function* stationEdits(statement: Span, factor: number): Iterable<Edit> {
  for (const node of nodesIn(statement)) {
    const ends = lengthsOf(node);
    for (const it of ends) {
      const value = plainNumber(it);
      if (it !== undefined && value !== undefined)
        yield { at: it, text: asGiven(value * factor, stepIn(it) * factor) };
    }
  }
}

/** Where a plain number is a length. */
function lengthsOf(node: Span): readonly (Span | undefined)[] {
  const { kind, axis, value, upTo, ofMac, length, key } = node as Partial<Coord & Bound> & {
    key?: { readonly axis: string | undefined; readonly value: Span };
    kind?: string;
    length?: Span;
  };
  if (axis !== undefined && "upTo" in node) return [value, upTo];
  if (ofMac === false) return [value];
  // lateral FS 97: …
  if (key?.axis !== undefined) return [key.value];
  return kind === "mac" ? [length] : [];
}

/** The worth of one in the last digit written. */
function stepOf(measure: Measure): number {
  const { line, from, to, unitAt } = measure;
  return stepIn({ line, from, to: unitAt?.from ?? to });
}
function stepIn({ line, from, to }: Span): number {
  const [, , decimals = ""] =
    /^\s*([-−]?[\d,_]*)(?:\.(\d+))?/.exec(line.text.slice(from, to)) ?? [];
  return 10 ** -decimals.length;
}

/**
 * Exactly, where that takes few digits (3263.9 mm, 2.7432 m); else to the digits that were given and one
 * more, so that what is lost lies well below what was written.
 */
function asGiven(value: number, step: number): string {
  const short = Number(value.toPrecision(FEW));
  if (Math.abs(short - value) <= Math.abs(value) * 1e-12) return `${short}`;
  return figure(value, Math.max(0, 1 + Math.ceil(-Math.log10(step) - 1e-9)));
}
const FEW = 6;

const swapped = (unit: readonly UnitPower[], instead: System["instead"]) =>
  unit.map(({ name, power }) => ({ name: instead.get(name) ?? name, power }));

function factorOf(from: readonly UnitPower[], to: readonly UnitPower[]): number | undefined {
  const [a, b] = [unitOf(from), unitOf(to)];
  return "unknown" in a || "unknown" in b ? undefined : a.factor / b.factor;
}

function nameOf(powers: readonly UnitPower[]): string {
  const unit = unitOf(powers);
  return "unknown" in unit ? "" : unit.name;
}
