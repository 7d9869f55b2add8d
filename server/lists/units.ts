import { LENGTH, MASS } from "../quantity/dimension";
import { type Unit, unitTable } from "../quantity/units";

/** A unit as lists write it: `lbs`, `Zoll`, `kg/ea`; undefined for what is none. */
export function unitCalled(text: string): Unit | undefined {
  const word = text
    .trim()
    .replace(
      /\s*(\/|per |pro |par )\s*(ea|each|pc|pcs|unit|st|stk|stück|stueck|pi[eè]ce)\.?$/iu,
      "",
    )
    .replace(/\.$/, "");
  const lower = word.toLowerCase();
  return unitTable.get(word) ?? unitTable.get(others.get(lower) ?? lower);
}

export const isMass = (unit: Unit) => unit.dimension === MASS;
export const isLength = (unit: Unit) => unit.dimension === LENGTH;

const others = new Map(
  Object.entries({
    g: ["gr", "gram", "grams", "gramm", "gramme", "grammes"],
    kg: ["kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramm", "kilogramme", "kilogrammes"],
    t: ["tonne", "tonnes", "tonnen"],
    lb: ["lbs", "lbm", "pound", "pounds", "pfund", "livre", "livres"],
    oz: ["ounce", "ounces", "unze", "unzen", "once", "onces"],
    mm: ["millimeter", "millimeters", "millimetre", "millimetres", "millimètre", "millimètres"],
    cm: ["centimeter", "centimetre", "zentimeter", "centimètre"],
    m: ["meter", "meters", "metre", "metres", "mètre", "mètres"],
    in: ["inch", "inches", "ins", '"', "″", "zoll", "pouce", "pouces", "po"],
    ft: ["foot", "feet", "fuß", "fuss", "pied", "pieds", "'", "′"],
  }).flatMap(([unit, names]) => names.map(name => [name, unit] as const)),
);
