import type { Point, StatementOf } from "../../grammar/tree";
import { emptyOf } from "../compute/stages";
import type { Balance } from "../compute/weight";
import type { Assembly } from "../model/assembly";
import { clauseOf, clausesOf } from "../model/clauses";
import type { Place, Units } from "../model/env";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import type { Station } from "../model/station";
import { showNumber } from "../quantity/show";

/** What is known before an airframe is weighed: all that its form prints, and nothing that is to be found out. */
export interface WeighingForm {
  /** Undefined: of the aircraft as designed. */
  readonly airframe: string | undefined;
  /** How its weighing would be called. */
  readonly name: string;
  readonly serial: number | undefined;
  readonly points: readonly WeighingPoint[];
  /** Where the points come from, in words. */
  readonly from: string;
  readonly tanks: readonly Station[];
  /** Seats and bays: nothing may be on them. */
  readonly places: readonly string[];
  readonly levelling: string | undefined;
  readonly datum: string | undefined;
  readonly units: Units;
  /** Of the same by its parts, to compare with. */
  readonly expected: Balance;
  readonly chord: Root["mac"];
}

/** Where a scale stands, as the language writes it: `FS 147.1, BL -40`; empty: to be measured. */
export interface WeighingPoint {
  readonly name: string;
  readonly at: string;
}

/**
 * The weighing points are those of the airframe's last weighing, else of the last one of another airframe,
 * else where its wheels are, else three to be found.
 * @param root by its parts
 */
export function weighingFormOf(root: Root): WeighingForm {
  const clauses = clausesOf(root.reach.aircraft);
  const text = (kind: "levelling" | "datum") => clauseOf(clauses, kind)?.text?.text;
  const stations = root.aircraft.stations;
  return {
    airframe: root.airframe?.name,
    serial: root.airframe?.serial,
    name: freshName(root),
    ...pointsOf(root),
    tanks: stations.filter(it => it.kind === "tank"),
    places: stations.filter(it => it.kind !== "tank").map(it => it.path),
    ...{ levelling: text("levelling"), datum: text("datum") },
    units: root.units,
    expected: emptyOf(root).basic,
    chord: root.mac,
  };
}

function pointsOf(root: Root): Pick<WeighingForm, "points" | "from"> {
  const weighings = root.statements.dated
    .filter(it => it.head.kind === "weighing")
    .map(item => ({ item, head: item.head as StatementOf<"weighing"> }))
    .sort((a, b) => ((a.head.on?.text ?? "") < (b.head.on?.text ?? "") ? -1 : 1));
  const own = weighings.findLast(it => it.head.of?.text === root.airframe?.name);
  const last = own ?? weighings.at(-1);
  const scales = (last?.item.items ?? []).flatMap(({ head }) =>
    head.kind === "scale" && head.name ? [{ name: head.name.text, at: written(head.at) }] : [],
  );
  if (last && scales.length > 0) {
    const of = own ? "" : ` of ${last.head.of?.text ?? "another"}`;
    return { points: scales, from: `as in the weighing ${last.head.name?.text ?? ""}${of}` };
  }
  const wheels = wheelsOf(root);
  if (wheels.length > 1) return { points: wheels, from: "where the spec has its wheels" };
  const points = ["nose_or_tail", "left", "right"].map(name => ({ name, at: "" }));
  return { points, from: "to be measured" };
}

/** A place on one row, as it was written. */
const written = (at: Point | undefined) =>
  at === undefined
    ? ""
    : at.line.text
        .slice(at.from, at.to)
        .replace(/\/\/.*$/gm, "")
        .replace(/\s+/g, " ");

/** One point for each place that has a wheel or a tire: in front or behind in the middle, left, right. */
function wheelsOf(root: Root): readonly WeighingPoint[] {
  const places = new Map<string, Place>();
  const put = ({ fs, bl, wl }: Place) => {
    if (fs !== undefined && bl !== undefined)
      places.set(`${fs.toFixed(2)} ${bl.toFixed(2)}`, { fs, bl, wl });
  };
  const visit = (assembly: Assembly, twice: boolean) => {
    for (const it of assembly.members)
      if (it.kind === "assembly") visit(it, twice || it.mirrored);
      else if (it.kind === "part" && isWheel(it)) {
        put(it.place);
        const { bl } = it.place;
        if ((twice || it.mirrored) && bl) put({ ...it.place, bl: -bl });
      }
  };
  visit(root.aircraft, root.aircraft.mirrored);
  const all = [...places.values()];
  const sides = all.filter(it => Math.abs(it.bl!) > NARROW);
  const [first, ...others] = sides.length > 0 ? sides : all;
  const middle = others.reduce((sum, it) => sum + it.fs!, first?.fs ?? 0) / (others.length + 1);
  // wheels one behind the other have no nose and no tail
  const [ahead, behind] = sides.length > 0 ? ["nose", "tail"] : ["front", "rear"];
  const names = new Set<string>();
  const { length } = root.units;
  const figure = (x: number) => showNumber(x / length.factor).replaceAll(",", "");
  return all
    .sort((a, b) => a.fs! - b.fs! || a.bl! - b.bl!)
    .map(({ fs, bl }) => {
      const isMiddle = Math.abs(bl!) <= NARROW;
      const plain = isMiddle ? (fs! < middle ? ahead! : behind!) : bl! < 0 ? "left" : "right";
      let name = plain;
      for (let i = 2; names.has(name); i++) name = `${plain}_${i}`;
      names.add(name);
      return { name, at: `FS ${figure(fs!)}${isMiddle ? "" : `, BL ${figure(bl!)}`}` };
    });
}

/** Its path, or those of its sides where it is itself mirrored: each has contents of its own. */
export function sidesOf({ path, item, mirrored }: Station): readonly string[] {
  const own = clausesOf(item).some(it => it.kind === "mirrored");
  return own ? [`${path}.LH`, `${path}.RH`] : [mirrored ? `${path} each` : path];
}

/** m: a pair of wheels that stand closer is one in the middle. */
const NARROW = 0.1;
const isWheel = ({ name }: Part) => /(^|_)(wheel|tire|tyre)s?(_|$)/i.test(name);

/** The next one that no weighing of the aircraft is called. */
function freshName({ statements, airframe }: Root): string {
  const taken = new Set<string>();
  let count = 0;
  for (const { head } of statements.dated)
    if (head.kind === "weighing") {
      if (head.name) taken.add(head.name.text);
      if (head.of?.text === airframe?.name) count++;
    }
  const plain = ["first", "second", "third", "fourth", "fifth"][count] ?? `weighing_${count + 1}`;
  if (!taken.has(plain)) return plain;
  const own = `${plain}_${airframe?.name ?? "airframe"}`;
  let name = own;
  for (let i = 2; taken.has(name); i++) name = `${own}_${i}`;
  return name;
}
