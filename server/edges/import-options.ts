import type { Basis } from "../../grammar/tree";
import { bases } from "../../grammar/words";
import { isLength, isMass, unitCalled } from "../lists/units";
import type { Unit } from "../quantity/units";
import { called, dateSaid, decimalSaid, oneOf } from "./options";
import { WrongUse } from "./wrong-use";

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
  /** Shows what it would change in a spec that is there, and writes nothing. */
  readonly isDry: boolean;
}

export function importOptions(args: readonly string[]): ImportOptions {
  const { rest, said, flags } = called("import", args, options, ["--dry-run"]);
  const [list, ...more] = rest;
  if (list === undefined || more.length > 0)
    throw new WrongUse("import takes one list: poise import parts.csv -o parts.poise");
  const units = unitsIn(said.get("--units"));
  return {
    list,
    out: said.get("--output"),
    mass: units.find(isMass),
    length: units.find(isLength),
    basis: oneOf("--basis", said.get("--basis"), bases) ?? "calculated",
    on: dateSaid(said),
    decimal: decimalSaid(said),
    pieces: oneOf("--mass-of", said.get("--mass-of"), ["one", "all"]),
    sheet: said.get("--sheet"),
    isDry: flags.has("--dry-run"),
  };
}

const options = ["--output", "--units", "--basis", "--on", "--decimal", "--mass-of", "--sheet"];

function unitsIn(text: string | undefined): readonly Unit[] {
  return (text?.split(",") ?? []).map(word => {
    const unit = unitCalled(word);
    if (unit === undefined || !(isMass(unit) || isLength(unit)))
      throw new WrongUse(`--units is a mass, a length or both, as in kg,mm; ${word} is neither`);
    return unit;
  });
}
