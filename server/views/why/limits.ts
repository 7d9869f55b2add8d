import type { Bound, Clause, Expr } from "../../../grammar/tree";
import { type Limit, limitsAt } from "../../compute/limit-lines";
import { hasRowsAt, weightLimitAt } from "../../compute/limits";
import type { Stage } from "../../compute/stages";
import type { Balance } from "../../compute/weight";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Envelope, Row } from "../../model/envelope";
import type { Root } from "../../model/root";
import { exceeds } from "../../quantity/compare";
import { show } from "../../quantity/show";
import { asShown, lengthText, massText, written } from "./figures";
import { line, type Step, section, type WhyLine } from "./lines";

/** Every limit of an envelope that holds for a state, and how far the state is from it. */
export function distanceSteps(
  root: Root,
  envelope: Envelope,
  kind: Stage["kind"],
  balance: Balance,
  swung: boolean,
): readonly Step[] {
  const { mass, fs, bl, complete, blComplete, massKnown } = balance;
  const steps: Step[] = [];
  // what is swung weighs what it weighs
  const weight = swung ? undefined : weightLimitAt(kind, envelope);
  if (weight) {
    const { mass: most, unit, clause } = weight.limit;
    const by = most - mass;
    const word = exceeds(mass, most) ? "over it" : "left";
    steps.push([
      bare(weight.what),
      `${show(most, unit)}: ${show(mass, unit)} aboard, ${massKnown || word === "over it" ? "" : "at most "}${show(Math.abs(by), unit)} ${word}`,
      clause,
    ]);
  }
  if (kind === "ramp") return [...steps, ["CG limits", "the ramp is checked for weight only"]];
  const keyed = envelope.rows.filter(row => row.key !== undefined);
  const [first, last] = [keyed[0], keyed.at(-1)];
  if (first && exceeds(first.key!, mass) && kind !== "zero_fuel")
    steps.push([
      "lightest row",
      `${massText(root, first.key!)}: below it nothing is allowed`,
      first.clause,
    ]);
  if (last && exceeds(mass, last.key!))
    steps.push([
      "heaviest row",
      `${massText(root, last.key!)}: above it nothing is allowed`,
      last.clause,
    ]);
  const ends = (axis: "FS" | "BL", x: number | null, limits: readonly Limit[], where: string) => {
    for (const limit of limits)
      steps.push([
        bare(limit.what),
        endText(root, axis, x, limit, where, axis === "FS" ? complete : complete && blComplete),
        limit.row.clause,
      ]);
  };
  const here = ` at ${massText(root, mass)}`;
  if (hasRowsAt(mass, kind, envelope)) ends("FS", fs, limitsAt(envelope.rows, mass), here);
  ends("BL", bl, limitsAt(envelope.lateral, mass, "lateral"), here);
  if (fs !== null)
    ends(
      "BL",
      bl,
      limitsAt(envelope.lateralByStation, fs, "lateral"),
      ` at FS ${lengthText(root, fs)}`,
    );
  return steps;
}

const bare = (what: string) => what.replace(/^the /, "");

function endText(
  root: Root,
  axis: string,
  x: number | null,
  limit: Limit,
  where: string,
  sure: boolean,
): string {
  const stands = `${axis} ${lengthText(root, limit.x)}${limit.row.key === undefined ? "" : where}`;
  if (x === null) return `${stands}: the CG is not known`;
  const inside = (limit.x - x) * limit.out;
  const word = inside < -1e-8 ? "outside" : "inside";
  const by = `${stands}: CG at ${lengthText(root, x)}, ${lengthText(root, Math.abs(inside))} ${word}`;
  return sure ? by : `${by}, of what has a mass and a place: not judged`;
}

/** An envelope as it was written, each limit in the aircraft's units; of one weight limit, that alone. */
export function envelopeLines(root: Root, envelope: Envelope, only?: string): readonly WhyLine[] {
  const weights = (["ramp", "takeoff", "landing", "zero_fuel"] as const).flatMap(kind => {
    const limit = envelope[kind];
    if (limit === undefined || (only !== undefined && only !== kind)) return [];
    const { value } = limit.clause as { readonly value?: Expr };
    const text = value ? asShown(value, limit.mass, root.units.mass) : massText(root, limit.mass);
    return [[kind.replace("_", " "), text, limit.clause] as const];
  });
  const head = envelope.item.head;
  const at = "name" in head ? head.name : head;
  if (only !== undefined)
    return [line(`${envelope.name}.${only}`, at), ...section("Weight", weights)];
  return [
    line(`${envelope.name}, an envelope`, at),
    ...section("Weights", weights),
    ...section("CG, straight in FS against weight", [
      ...rowSteps(root, envelope.rows, "FS"),
      ...chordStep(root, envelope.rows),
    ]),
    ...section(
      "Lateral CG",
      rowSteps(root, [...envelope.lateral, ...envelope.lateralByStation], "BL"),
    ),
  ];
}

function rowSteps(root: Root, rows: readonly Row[], axis: string): readonly Step[] {
  return rows.map((row): Step => {
    const { clause, key, low, high } = row;
    const label =
      key === undefined
        ? "at every weight"
        : clause.key?.axis
          ? `at ${clause.key.axis} ${lengthText(root, key)}`
          : `at ${massText(root, key)}`;
    const open = "no corner";
    const ends = [
      boundText(root, low, clause.low) ?? open,
      boundText(root, high, clause.high) ?? open,
    ];
    return [label, `${axis} ${ends.join(" .. ")}`, clause as Clause];
  });
}

function boundText(
  root: Root,
  x: number | undefined,
  bound: Bound | undefined,
): string | undefined {
  if (x === undefined) return undefined;
  return bound?.ofMac ? `${lengthText(root, x)} (${written(bound)})` : lengthText(root, x);
}

/** What a share of the chord means in the aircraft's lengths. */
function chordStep(root: Root, rows: readonly Row[]): readonly Step[] {
  const { mac, aircraft } = root;
  if (!mac || !rows.some(({ clause }) => clause.low?.ofMac || clause.high?.ofMac)) return [];
  const text = `${lengthText(root, mac.fs)} + share × ${lengthText(root, mac.length)}`;
  return [["%MAC", text, clauseOf(clausesOf(aircraft.item), "mac")]];
}
