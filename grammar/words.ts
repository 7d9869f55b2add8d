/**
 * The words the language knows. A thing may still be called by any of them: what a word means
 * depends on where it stands.
 */
export const bases = ["estimated", "calculated", "quoted", "weighed"] as const;
export const axes = ["FS", "BL", "WL"] as const;
export const inertias = ["Ixx", "Iyy", "Izz", "Ixy", "Ixz", "Iyz"] as const;
export const kinds = ["structure", "required", "optional", "consumable"] as const;
export const directions = ["forward", "aft", "up", "down", "inboard", "outboard"] as const;
export const shapes = ["box", "cylinder", "tube", "sphere"] as const;
export const weightLimits = ["ramp", "takeoff", "landing", "zero_fuel"] as const;
/** Clauses that are a quoted text. */
export const textClauses = ["pn", "maker", "sn", "levelling", "datum"] as const;
/** Declarations that are a name, a title, clauses and a block. */
export const declarations = [
  "aircraft",
  "assembly",
  "part",
  "tank",
  "seat",
  "bay",
  "option",
] as const;
/** Declarations that are a name and a figure. */
export const figures = ["reserve", "ballast", "fluid"] as const;

/** Words a statement begins with. */
export const statementWords: readonly string[] = [
  ...["include", "let", "require", "waive", "limit", "choice", "envelope", "configuration"],
  ...["loading", "airframe", "weighing", "change"],
  ...declarations,
  ...figures,
];

/** Words a clause begins with. */
export const clauseWords: readonly string[] = [
  ...["was", "at", "moment", "note", "mirrored", "operating", "qty", "span", "inertia", "shape"],
  ...[
    "growth",
    "spread",
    "budget",
    "margin",
    "creep",
    "cg",
    "lateral",
    "range",
    "holds",
    "unusable",
  ],
  ...["rev", "kind", "extent", "effective", "filled", "swing", "units", "mac"],
  ...bases,
  ...weightLimits,
  ...textClauses,
];

/** Words that stand between others. */
const particles = [
  ...["of", "on", "by", "to", "for", "every", "until", "default", "ground", "under", "serial"],
  ...["common", "along", "about", "length", "total", "each", "full", "usable"],
  ...["burn", "release", "taxi", "choose", "remove", "omit", "install", "add", "move"],
  ...["scale", "reads", "tare", "aboard", "missing"],
] as const;

/** Every word that no `let` may be called. */
export const keywords: readonly string[] = [
  ...statementWords,
  ...clauseWords,
  ...particles,
  ...axes,
  ...inertias,
  ...kinds,
  ...directions,
  ...shapes,
];

/**
 * The units that are at hand. The grammar needs only the words, to tell `lb/ft^2` from a division;
 * what they measure is `server/quantity/units.ts`, and a test holds the two lists together.
 */
export const unitWords: readonly string[] = [
  ...["g", "kg", "mg", "t", "lb", "oz", "slug"],
  ...["mm", "cm", "m", "in", "ft", "yd", "mil"],
  ...["gal", "qt", "pt", "impgal", "L", "mL", "cc"],
  ...["deg", "rad", "s", "min", "h", "N", "kN", "lbf", "psi", "kPa"],
  ...["W", "kW", "hp", "kt", "Wh", "kWh", "J", "Ah"],
];

export const functions: readonly string[] = [
  ...["mass", "predicted", "budget", "fs", "bl", "wl", "mac"],
  ...["ramp", "takeoff", "landing", "zero_fuel", "forward", "aft"],
  ...["abs", "min", "max", "sqrt", "sin", "cos", "tan", "asin", "acos", "atan"],
];
