import type { Basis } from "../../grammar/tree";
import { closest } from "../../grammar/unexpected";
import { bases } from "../../grammar/words";
import { isLength, isMass, unitCalled } from "../lists/units";
import type { Unit } from "../quantity/units";
import { WrongUse } from "./check";

export interface ImportOptions {
  readonly list: string;
  readonly out: string | undefined;
  readonly mass: Unit | undefined;
  readonly length: Unit | undefined;
  readonly basis: Basis;
  /** ISO; undefined: when the file was last changed. */
  readonly on: string | undefined;
  readonly decimal: "," | "." | undefined;
  /** Whether the mass column is of one piece or of all; undefined: as its heading says. */
  readonly pieces: "one" | "all" | undefined;
  readonly sheet: string | undefined;
}

export function importOptions(args: readonly string[]): ImportOptions {
  const files: string[] = [];
  const said = new Map<string, string>();
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    const [name, joined] = arg.startsWith("--") ? split(arg) : [arg];
    if (!name.startsWith("-") || name === "-") {
      files.push(arg);
      continue;
    }
    const option = name === "-o" ? "--output" : name;
    if (!options.includes(option)) {
      const near = closest(name, options);
      throw new WrongUse(`import has no option ${name}${near ? `; did you mean ${near}?` : ""}`);
    }
    const value = joined ?? args[++i];
    if (value === undefined || value === "") throw new WrongUse(`${name} needs a value`);
    said.set(option, value);
  }
  const [list, ...more] = files;
  if (list === undefined || more.length > 0)
    throw new WrongUse("import takes one list: poise import parts.csv -o parts.poise");
  const units = unitsIn(said.get("--units"));
  const on = said.get("--on");
  if (on !== undefined && !isDate(on))
    throw new WrongUse(`--on is a date such as 2026-09-19, not ${on}`);
  const decimal = oneOf("--decimal", said.get("--decimal"), ["comma", "point"]);
  return {
    list,
    out: said.get("--output"),
    mass: units.find(isMass),
    length: units.find(isLength),
    basis: oneOf("--basis", said.get("--basis"), bases) ?? "calculated",
    on,
    decimal: decimal && (decimal === "comma" ? "," : "."),
    pieces: oneOf("--mass-of", said.get("--mass-of"), ["one", "all"]),
    sheet: said.get("--sheet"),
  };
}

const options = ["--output", "--units", "--basis", "--on", "--decimal", "--mass-of", "--sheet"];

function split(arg: string): readonly [string, string?] {
  const at = arg.indexOf("=");
  return at < 0 ? [arg] : [arg.slice(0, at), arg.slice(at + 1)];
}

function unitsIn(text: string | undefined): readonly Unit[] {
  return (text?.split(",") ?? []).map(word => {
    const unit = unitCalled(word);
    if (unit === undefined || !(isMass(unit) || isLength(unit)))
      throw new WrongUse(`--units is a mass, a length or both, as in kg,mm; ${word} is neither`);
    return unit;
  });
}

function isDate(text: string): boolean {
  const date = new Date(`${text}T00:00:00Z`);
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && date.toJSON()?.slice(0, 10) === text;
}

function oneOf<T extends string>(
  name: string,
  value: string | undefined,
  allowed: readonly T[],
): T | undefined {
  if (value === undefined) return undefined;
  const found = allowed.find(it => it === value);
  if (found === undefined) throw new WrongUse(`${name} is one of ${allowed.join(", ")}`);
  return found;
}
