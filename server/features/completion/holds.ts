import { bases, weightLimits } from "../../../grammar/words";

const identity = ["pn", "rev", "maker", "kind"];
const piece = [
  ...[...bases, "at", "qty", "mirrored", "span", "moment", "was", "budget", "growth"],
  ...["spread", "inertia", "shape", ...identity, "sn", "effective", "note"],
];
const place = ["mirrored", "effective", "note"];
/**
 * What the model reads in each declaration, the most wanted first. The grammar takes any clause behind any
 * name, and says nothing of one that is passed over.
 */
const clauses: Readonly<Record<string, readonly string[]>> = {
  aircraft: [
    ...[
      "units",
      "datum",
      "mac",
      "growth",
      "spread",
      "budget",
      "creep",
      "cg",
      "extent",
      "levelling",
    ],
    "note",
  ],
  assembly: [
    ...[
      "budget",
      "creep",
      "mirrored",
      "at",
      "cg",
      "growth",
      "spread",
      "swing",
      "weighed",
      "moment",
    ],
    ...[...identity, "effective", "note"],
  ],
  part: piece,
  ballast: piece,
  reserve: ["at", "effective", "note"],
  fluid: ["note"],
  tank: ["holds", "unusable", "at", "filled", "operating", ...place],
  seat: ["at", "range", ...place],
  bay: ["at", "range", ...place],
  option: ["budget", "effective", "note"],
  choice: ["effective", "note"],
  envelope: [...weightLimits, "cg", "lateral", "note"],
};

const members = ["part", "assembly", "tank", "seat", "bay", "reserve", "ballast"];
const anywhere = [
  ...[...members, "let", "fluid", "choice", "envelope", "loading", "configuration", "limit"],
  ...["require", "waive", "airframe", "weighing", "change"],
];
/** What stands in each block, the most wanted first; `installed` stands behind the word install. */
const statements: Readonly<Record<string, readonly string[]>> = {
  file: [...anywhere, "include", "aircraft"],
  aircraft: anywhere,
  assembly: [...members, "let"],
  option: [...members, "let"],
  choice: ["option"],
  envelope: ["limit"],
  airframe: ["choose", "install", "remove", "move", "budget", ...bases, "was", "note"],
  loading: ["burn", "taxi", "release"],
  weighing: ["scale", "aboard", "missing", "note"],
  configuration: ["swing"],
  installed: members,
};

export const clausesIn = (kind: string): readonly string[] => clauses[kind] ?? [];

/** @param kind of the block; undefined: the top of a file */
export const statementsIn = (kind: string | undefined): readonly string[] =>
  statements[kind === "change" ? "airframe" : (kind ?? "file")] ?? [];
