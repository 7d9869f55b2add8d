import { describe, expect, test } from "vitest";
import type { Span } from "../../grammar/tree";
import { checks } from "../../server/checks";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { differenceOf, type Side } from "../../server/views/diff/difference";
import { causesOf } from "../../server/views/diff/tipped";

function sideOf(text: string): Side {
  const project = withText(emptyProject(["/specs"]), "/specs/kite.poise", text);
  return { project, ...judge(project) };
}
const textOf = ({ line, from, to }: Span) => line.text.slice(from, to);

/** Where the new finding of a code stands, and the first place related to it: "text < text: why". */
function place(code: string, base: string, head: string): string {
  const found = differenceOf(sideOf(base), sideOf(head)).findings.filter(
    it => it.state === "new" && it.finding.code === code,
  );
  expect(found.map(it => it.finding.code)).toEqual([code]);
  const { at, related } = found[0]!.finding;
  const [was] = related;
  return was ? `${textOf(at)} < ${textOf(was.at)}: ${was.message}` : textOf(at);
}

/** A change of a few words: every `old → new` once. */
function changed(text: string, ...swaps: readonly (readonly [string, string])[]): string {
  return swaps.reduce((now, [from, to]) => {
    expect(now.split(from)).toHaveLength(2);
    return now.replace(from, to);
  }, text);
}

const kite = (clauses = "") =>
  `aircraft kite { units lb, in, gal growth calculated 10% ${clauses} }\n`;
const wing = (clauses: string) => `assembly wing ${clauses} {
  part spar calculated 30 lb at FS 120, BL 0, WL 40
  part skin calculated 10 lb at FS 130, BL 0, WL 42
}
`;
const flying = `${kite()}part hull weighed 900 lb at FS 100
part tail calculated 20 lb at FS 200
part radio weighed 5 lb at FS 60, BL 3
part tank_bay mirrored calculated 10 lb at FS 100, BL 60
seat pilot at FS 90
bay baggage at FS 140
limit 60 lb of baggage
envelope normal {
  takeoff 1200 lb
  cg 900 lb: FS 95 .. 105
  cg 1300 lb: FS 95 .. 105
  lateral BL -1 .. 1
}
loading two under normal {
  pilot 150 lb
  baggage 40 lb
}
`;

test.each([
  [
    "over-budget",
    wing("budget 41 lb"),
    ["10 lb", "12 lb"],
    "calculated 12 lb < 41 lb: the budget of wing",
  ],
  [
    "creep",
    wing("creep 1 lb"),
    ["10 lb", "12 lb"],
    "calculated 12 lb < 1 lb: what a change may add to wing",
  ],
  [
    "budget-at-risk",
    wing("budget 45 lb"),
    ["10 lb", "11.5 lb"],
    "calculated 11.5 lb < 45 lb: the budget of wing",
  ],
  [
    "margin-low",
    wing("budget 50 lb margin 10%"),
    ["10 lb", "12 lb"],
    "calculated 12 lb < 50 lb: the budget of wing",
  ],
  [
    "over-allocated",
    wing("budget 60 lb").replace("calculated 10 lb", "budget 20 lb calculated 10 lb"),
    ["budget 20 lb", "budget 35 lb"],
    "35 lb < 60 lb: the budget of wing",
  ],
  [
    "cg-off-target",
    wing("cg FS 110 .. 124"),
    ["FS 130", "FS 145"],
    "calculated 10 lb < cg FS 110 .. 124: the target for the CG of wing",
  ],
  [
    "cg-off-target",
    wing("cg WL 39 .. 41"),
    ["WL 42", "WL 60"],
    "calculated 10 lb < cg WL 39 .. 41: the target for the CG of wing",
  ],
] as const)("%s stands at the figure that brought most of it", (code, text, swap, expected) => {
  expect(place(code, kite() + text, kite() + changed(text, swap))).toBe(expected);
});

test("what lost maturity brings its growth", () => {
  const base = kite() + wing("budget 46 lb growth estimated 25%");
  expect(
    place("budget-at-risk", base, changed(base, ["calculated 30 lb", "estimated 30 lb"])),
  ).toBe("estimated 30 lb < 46 lb: the budget of wing");
});

describe("what was promised tips what is predicted", () => {
  test("a reserve", () => {
    const base = kite() + wing("budget 46 lb").replace("}", "  reserve paint 1 lb\n}");
    expect(place("budget-at-risk", base, changed(base, ["paint 1 lb", "paint 3 lb"]))).toBe(
      "3 lb < 46 lb: the budget of wing",
    );
  });
  test("a growth that was raised, here or further out", () => {
    const own = kite() + wing("budget 46 lb growth calculated 5%");
    expect(place("budget-at-risk", own, changed(own, ["calculated 5%", "calculated 20%"]))).toBe(
      "growth calculated 20% < 46 lb: the budget of wing",
    );
    const outer = kite() + wing("budget 46 lb");
    expect(
      place("budget-at-risk", outer, changed(outer, ["calculated 10%", "calculated 20%"])),
    ).toBe("growth calculated 20% < 46 lb: the budget of wing");
  });
});

test.each([
  [
    "cg-aft",
    [["tail calculated 20 lb", "tail calculated 90 lb"]],
    "calculated 90 lb < two: two leaves its limits",
  ],
  [
    "cg-aft",
    [
      ["tail calculated 20 lb", "tail calculated 21 lb"],
      ["baggage 40 lb", "baggage 60 lb"],
      ["FS 95 .. 105\n  cg 1300 lb: FS 95 .. 105", "FS 95 .. 101\n  cg 1300 lb: FS 95 .. 101"],
    ],
    "baggage < two: two leaves its limits",
  ],
  [
    "cg-forward",
    [["radio weighed 5 lb at FS 60", "radio weighed 140 lb at FS 20"]],
    "weighed 140 lb < two: two leaves its limits",
  ],
  [
    "cg-lateral",
    [
      ["tank_bay mirrored calculated 10 lb", "tank_bay mirrored calculated 40 lb"],
      ["BL 3", "BL 300"],
    ],
    "weighed 5 lb < two: two leaves its limits",
  ],
  [
    "above-weight-limit",
    [
      ["baggage 40 lb", "baggage 60 lb"],
      ["pilot 150 lb", "pilot 250 lb"],
    ],
    "pilot < two: two leaves its limits",
  ],
  [
    "below-weight-limit",
    [["hull weighed 900 lb", "hull weighed 600 lb"]],
    "weighed 600 lb < two: two leaves its limits",
  ],
  ["loading-at-risk", [["pilot 150 lb", "pilot 213 lb"]], "pilot < two: two leaves its limits"],
  [
    "limit-exceeded",
    [
      ["baggage 40 lb", "baggage 61 lb"],
      ["pilot 150 lb", "pilot 175 lb"],
    ],
    "baggage < two: two breaks the limit",
  ],
] as const)(
  "%s stands at the part or the load that brought most of it",
  (code, swaps, expected) => {
    expect(place(code, flying, changed(flying, ...swaps))).toBe(expected);
  },
);

test("a loading that nothing in the aircraft brought out of its limits is told at the limit that was cut", () => {
  expect(
    place("above-weight-limit", flying, changed(flying, ["takeoff 1200 lb", "takeoff 1100 lb"])),
  ).toBe("takeoff 1100 lb < two: two leaves its limits");
  expect(place("limit-exceeded", flying, changed(flying, ["limit 60 lb", "limit 30 lb"]))).toBe(
    "limit 30 lb of baggage < two: two breaks the limit",
  );
});

test.each([
  [
    "requirement-failed",
    "mass(wing) <= 41 lb",
    ["calculated 10 lb", "calculated 12 lb"],
    "calculated 12 lb",
  ],
  ["requirement-failed", "fs(wing) <= 123 in", ["FS 130", "FS 145"], "calculated 10 lb"],
  [
    "requirement-at-risk",
    "mass(wing) <= 45 lb",
    ["calculated 10 lb", "calculated 11.5 lb"],
    "calculated 11.5 lb",
  ],
] as const)("%s of %s stands at what it asks of", (code, text, swap, expected) => {
  const base = `${kite()}${wing("")}part keel calculated 5 lb at FS 100\nrequire ${text} "as promised"\n`;
  const head = changed(base, swap, ["keel calculated 5 lb", "keel calculated 50 lb"]);
  expect(place(code, base, head)).toBe(`${expected} < ${text}: the requirement ${text}`);
});

test("a requirement that is new is its own cause", () => {
  const base = kite() + wing("");
  const head = `${changed(base, ["10 lb", "12 lb"])}require mass(wing) <= 41 lb "as promised"\n`;
  expect(place("requirement-failed", base, head)).toBe("mass(wing) <= 41 lb");
});

test("a requirement of a loading is broken by what is put into it", () => {
  const base = `${flying}require fs(two.takeoff) <= 102 in "trim"\n`;
  expect(place("requirement-failed", base, changed(base, ["baggage 40 lb", "baggage 60 lb"]))).toBe(
    "baggage < fs(two.takeoff) <= 102 in: the requirement fs(two.takeoff) <= 102 in",
  );
});

test("every code is moved to its cause, or stands where its cause is already", () => {
  const stays = [
    // faults of the text: the place is what is wrong
    ...["syntax", "unknown-name", "declared-twice", "wrong-dimension", "unit-missing"],
    ...["negative-mass", "inertia-impossible", "swing-impossible", "rows-out-of-order"],
    ...["out-of-range", "include-loop", "include-outside", "include-missing", "no-root"],
    // of one record, part or whole: they stand on it
    ...["record-overtaken", "figure-suspect", "mass-missing", "arm-missing"],
    ...["arm-and-moment-differ", "unlisted", "requirement-unknown", "loading-unknown"],
    // of a proof over all loadings: its counterexample stands beside it, and no one line tips it
    "loading-can-exceed",
    // of an envelope that says too little
    "no-cg-limits",
    // of the aircraft's head
    "units-assumed",
    // of a weighing and what was written after it
    ...["weighing-disagrees", "fluid-state-assumed", "one-station", "changed-after-weighing"],
    // of a waiver: it is what has to change
    ...["waiver-expired", "waiver-unused"],
  ];
  const decided = [...Object.keys(causesOf), ...stays];
  expect(decided.sort()).toEqual(checks.map(it => it.code).sort());
});
