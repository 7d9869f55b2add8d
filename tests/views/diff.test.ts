import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import type { Span } from "../../grammar/tree";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { type Difference, differenceOf, type Side } from "../../server/views/diff/difference";
import { pathOf } from "../../server/views/diff/parts";

const HEAD = "aircraft kite { units lb, in, gal }\n";

function sideOf(text: string): Side {
  const project = withText(emptyProject(["/specs"]), "/specs/kite.poise", text);
  return { ...judge(project), project };
}
const between = (base: string, head: string): Difference =>
  differenceOf(sideOf(HEAD + base), sideOf(HEAD + head));

/** "was → is: cause, cause" of every part that changed. */
function parts(base: string, head: string): readonly string[] {
  const [root] = between(base, head).roots;
  return root!.parts.changes.map(it => {
    const was = it.base && it.base.path !== pathOf(it) ? `${it.base.path} → ` : "";
    return `${was}${pathOf(it)}: ${it.causes.join(", ")}`;
  });
}

type Mark = Difference["roots"][number]["yardstick"][number];
function shownMark(it: Mark): string {
  const { what, path } = (it.head ?? it.base)!;
  const of = path === undefined ? "" : ` of ${path}`;
  return `${it.effect} ${what}${of}: ${it.base?.shown ?? "none"} → ${it.head?.shown ?? "gone"}`;
}

/** "effect what: was → is" of every change to the yardstick. */
function yardstick(base: string, head: string): readonly string[] {
  const [root] = between(base, head).roots;
  return root!.yardstick.map(shownMark);
}

const spar = "part spar calculated 10 lb at FS 100";

test.each([
  ["layout", `${spar}\n`, "// the spar\npart spar {\n  calculated  10 lb\n  at FS 100\n}\n"],
  ["units", spar, "part spar calculated 160 oz at FS 8 ft 4 in"],
  ["history", spar, "part spar {\n  was estimated 12 lb\n  calculated 10 lb\n  at FS 100\n}"],
  ["a let", spar, "let m = 5 lb\npart spar calculated 2 * m at FS 100"],
  ["order", `${spar}\npart rib quoted 1 lb at FS 90`, `part rib quoted 1 lb at FS 90\n${spar}`],
])("%s alone is no change", (_, base, head) => {
  expect(parts(base, head)).toEqual([]);
  expect(between(base, head).roots[0]!.assemblies).toEqual([]);
});

const examples = fileURLToPath(new URL("../../examples", import.meta.url));

test.each(readdirSync(examples))("the example %s, laid out anew, is as it was", name => {
  const files = readdirSync(join(examples, name), { recursive: true, encoding: "utf8" })
    .filter(it => it.endsWith(".poise"))
    .map(it => [it, readFileSync(join(examples, name, it), "utf8")] as const);
  const side = (change: (text: string) => string): Side => {
    let project = emptyProject(["/specs"]);
    for (const [file, text] of files) project = withText(project, `/specs/${file}`, change(text));
    return { ...judge(project), project };
  };
  const { roots, findings } = differenceOf(
    side(it => it),
    side(it => `// laid out anew\n\n${it.replaceAll("\n", "  \n")}`),
  );
  expect(roots.length).toBeGreaterThan(0);
  for (const it of roots) {
    expect(it.parts.changes).toEqual([]);
    expect([...it.assemblies, ...it.yardstick]).toEqual([]);
    expect(it.loadings.filter(({ base, head }) => base?.cg?.by !== head?.cg?.by)).toEqual([]);
  }
  expect(findings.filter(it => it.state !== "unchanged")).toEqual([]);
});

test.each([
  ["another figure", "part spar calculated 11 lb at FS 100", "spar: revised"],
  ["a maturer basis", "part spar quoted 10 lb at FS 100", "spar: matured"],
  ["a scale", "part spar weighed 10.2 lb at FS 100", "spar: weighed"],
  ["a lesser basis", "part spar estimated 10 lb at FS 100", "spar: revised"],
  ["another place", "part spar calculated 10 lb at FS 101", "spar: moved"],
  ["more pieces", "part spar qty 2 calculated 5 lb at FS 100", "spar: revised"],
  ["both at once", "part spar weighed 9 lb at FS 101", "spar: weighed, moved"],
  ["another name", "part beam calculated 10 lb at FS 100", "spar → beam: renamed"],
  ["another assembly", `assembly wing { ${spar} }`, "spar → wing.spar: moved"],
])("%s", (_, head, change) => {
  expect(parts(spar, head)).toEqual([change]);
});

test("a part number is its identity, whatever else changes", () => {
  const before = 'part spar pn "W-1" calculated 10 lb at FS 100';
  const after = 'assembly wing { part beam pn "W-1" weighed 9 lb at FS 90 }';
  expect(parts(before, after)).toEqual(["spar → wing.beam: weighed, moved, renamed"]);
});

test("a path that stays is the same part, and a number that two have names neither", () => {
  const two = 'part a pn "B-1" calculated 1 lb at FS 1\npart b pn "B-1" calculated 1 lb at FS 2\n';
  expect(parts(two, two.replace("FS 2", "FS 3"))).toEqual(["b: moved"]);
});

test("what several could be went and came", () => {
  const before = "part a calculated 1 lb at FS 1\npart b calculated 1 lb at FS 1\n";
  expect([...parts(before, before.replace("a c", "x c").replace("b c", "y c"))].sort()).toEqual([
    "a: gone",
    "b: gone",
    "x: new",
    "y: new",
  ]);
});

test("an assembly that holds the same names is renamed, and what is in it keeps its identity", () => {
  const before =
    "assembly gear { part axle calculated 9 lb at FS 8\npart skid calculated 2 lb at FS 9 }";
  const after =
    "assembly legs { part axle calculated 8 lb at FS 8\npart skid calculated 2 lb at FS 9 }";
  expect(parts(before, after)).toEqual(["gear.axle → legs.axle: revised"]);
  const legs = between(before, after).roots[0]!.assemblies.find(it => it.path === "legs");
  expect(legs?.basePath).toBe("gear");
});

test("of something mirrored both sides count above it, and one in it", () => {
  const gear = (mass: number) =>
    `assembly gear mirrored { part leg calculated ${mass} lb at FS 8, BL 20 }`;
  const [root] = between(gear(10), gear(11)).roots;
  const pound = 0.45359237;
  const revised = root!.assemblies.map(it => (it.causes.revised ?? 0) / pound);
  expect(revised[0]).toBeCloseTo(2, 9);
  expect(revised[1]).toBeCloseTo(1, 9);
});

test("in an assembly weighed as a whole its parts explain nothing", () => {
  const wing = (mass: number) =>
    `assembly wing weighed 50 lb { part spar calculated ${mass} lb at FS 8 }`;
  const [root] = between(wing(10), wing(11)).roots;
  expect(root!.parts.changes.map(pathOf)).toEqual(["wing.spar"]);
  expect(root!.assemblies).toEqual([]);
});

const wing = (clauses: string, inside = "") => `assembly wing ${clauses} {\n${inside}${spar}\n}\n`;
const tank = (full: string) =>
  `fluid mogas 6 lb/gal\ntank fuel holds 10 gal of mogas {\n  filled 4 gal at FS 99\n  filled 10 gal at ${full}\n}\n`;
const battery = (standard: string) => `choice battery default ${standard} {
  option agm { part cell quoted 22 lb at FS 160 }
  option lithium { part cell quoted 9 lb at FS 160 }
}
`;
const flying = (envelope: string, seat = "range 110 lb .. 200 lb", more = "") =>
  `part hull weighed 500 lb at FS 90\nseat pilot at FS 92 ${seat}\nenvelope normal {\n${envelope}\n}\n${more}`;
const rows = "takeoff 900 lb\ncg 400 lb: FS 80 .. 95\ncg 900 lb: FS 82 .. 95";

test.each([
  [
    "a budget raised",
    wing("budget 11 lb"),
    wing("budget 12 lb"),
    "looser budget of wing: 11 lb → 12 lb",
  ],
  [
    "a budget cut",
    wing("budget 12 lb"),
    wing("budget 11 lb"),
    "tighter budget of wing: 12 lb → 11 lb",
  ],
  ["a budget gone", wing("budget 12 lb"), wing(""), "looser budget of wing: 12 lb → gone"],
  ["a budget in other units", wing("budget 16 oz"), wing("budget 1 lb")],
  ["a new assembly with one", "", wing("budget 12 lb")],
  [
    "a margin",
    wing("budget 12 lb margin 5%"),
    wing("budget 12 lb margin 2%"),
    "looser margin of wing: 5 % → 2 %",
  ],
  [
    "growth",
    wing("growth calculated 5%"),
    wing("growth calculated 2%"),
    "looser growth calculated of wing: 5 % → 2 %",
  ],
  [
    "growth of a part",
    `${spar} growth 5%`,
    `${spar} growth 2%`,
    "looser growth estimated of spar: 5 % → 2 %",
    "looser growth calculated of spar: 5 % → 2 %",
    "looser growth quoted of spar: 5 % → 2 %",
  ],
  [
    "a part that matured under its own growth",
    `${spar} growth calculated 5%, quoted 1%`,
    `${spar.replace("calculated", "quoted")} growth calculated 5%, quoted 1%`,
  ],
  [
    "another fluid",
    "fluid mogas 6 lb/gal\n",
    "fluid mogas 6.02 lb/gal\n",
    "changed density of mogas: 6 lb/gal → 6.02 lb/gal",
  ],
  [
    "a seat that slides less",
    "seat pilot at FS 90 .. 95 range 110 lb .. 200 lb",
    "seat pilot at FS 91 .. 94 range 110 lb .. 200 lb",
    "looser arms of pilot: 90 in .. 95 in → 91 in .. 94 in",
  ],
  [
    "more that cannot be used",
    "tank t holds 12 lb unusable 1 lb at FS 90",
    "tank t holds 12 lb unusable 2 lb at FS 90",
    "changed unusable of t: 1 lb → 2 lb",
  ],
  [
    "a reserve spent",
    wing("", "reserve r 2 lb\n"),
    wing(""),
    "looser reserve of wing.r: 2 lb → gone",
  ],
  [
    "a CG target",
    wing("cg FS 90 .. 110"),
    wing("cg FS 90 .. 111"),
    "looser cg target FS of wing: 90 in .. 110 in → 90 in .. 111 in",
  ],
  [
    "a weight limit",
    flying(rows),
    flying(rows.replace("takeoff 900", "takeoff 950")),
    "looser takeoff weight of normal: 900 lb → 950 lb",
  ],
  [
    "a CG limit",
    flying(rows),
    flying(rows.replace("82 ..", "83 ..")),
    "tighter cg of normal at 900 lb: 82 in .. 95 in → 83 in .. 95 in",
  ],
  [
    "a CG limit shifted",
    flying(rows),
    flying(rows.replace("82 .. 95", "83 .. 96")),
    "changed cg of normal at 900 lb: 82 in .. 95 in → 83 in .. 96 in",
  ],
  [
    "a range of fewer pilots",
    flying(rows),
    flying(rows, "range 130 lb .. 200 lb"),
    "looser range of pilot: 110 lb .. 200 lb → 130 lb .. 200 lb",
  ],
  [
    "a limit",
    flying(rows, undefined, "limit 150 lb of pilot\n"),
    flying(rows, undefined, "limit 160 lb of pilot\n"),
    "looser limit of pilot: 150 lb → 160 lb",
  ],
  [
    "a loading dropped",
    flying(rows, undefined, "loading solo under normal { pilot 170 lb }\n"),
    flying(rows),
    "looser loading solo:  → gone",
  ],
  [
    "a loading eased",
    flying(rows, undefined, "loading solo under normal { pilot 170 lb }\n"),
    flying(rows, undefined, "loading solo under normal { pilot 150 lb }\n"),
    "changed solo: load of pilot: 170 lb → 150 lb",
  ],
  [
    "a requirement dropped",
    `${spar}\nrequire mass(spar) < 11 lb "light"\n`,
    spar,
    "looser require mass(spar) < 11 lb: light → gone",
  ],
  [
    "a spread, whichever way: a smaller one makes a budget look surer, a larger one a weighing",
    wing("spread calculated 3% common 1%"),
    wing("spread calculated 2% common 1%"),
    "changed spread calculated of wing: 3 %, common 1 % → 2 %, common 1 %",
  ],
  [
    "a spread as a mass",
    wing("spread calculated 3%"),
    wing("spread calculated 1% + 0.2 lb"),
    "changed spread calculated of wing: 3 % → 1 % + 0.2 lb",
  ],
  [
    "a tank's contents elsewhere",
    flying(rows, undefined, tank("FS 100")),
    flying(rows, undefined, tank("FS 98")),
    "changed filled, row 2 of fuel: 10 gal at FS 100 in → 10 gal at FS 98 in",
  ],
  [
    "a tank's rows in liters are the same rows",
    flying(rows, undefined, tank("FS 100")),
    flying(rows, undefined, tank("FS 8 ft 4 in").replace("filled 10 gal", "filled 37.85411784 L")),
  ],
  [
    "a gear that swings otherwise",
    wing("swing 80 deg about BL at FS 100, WL 20"),
    wing("swing 84 deg about BL at FS 100, WL 20"),
    "changed swing of wing: 80 deg about BL at FS 100, WL 20 → 84 deg about BL at FS 100, WL 20",
  ],
  [
    "the default of a choice",
    battery("lithium"),
    battery("agm"),
    "changed default of battery: lithium → agm",
  ],
  [
    "the first option, which counts without a default",
    battery("agm"),
    battery("agm").replace(" default agm", ""),
  ],
  ["a choice that is new is told by its parts", spar, battery("agm")],
  [
    "a waiver",
    wing("budget 9 lb"),
    `${wing("budget 9 lb")}waive over-budget of wing "so be it"\n`,
    "looser waive over-budget of wing: none → without an end",
  ],
])("the yardstick: %s", (_, base, head, ...changes) => {
  expect(yardstick(base!, head!)).toEqual(changes);
});

test.each([
  ["FS 0 .. 290", "FS 0 .. 310", "looser extent FS: 0 in .. 290 in → 0 in .. 310 in"],
  ["FS 0 .. 290", "FS 5 .. 290", "tighter extent FS: 0 in .. 290 in → 5 in .. 290 in"],
])("the yardstick: an extent of %s becomes %s", (base, head, change) => {
  const text = (extent: string) => `aircraft kite { units lb, in, gal extent ${extent} }\n${spar}`;
  const [root] = differenceOf(sideOf(text(base)), sideOf(text(head))).roots;
  expect(root!.yardstick.map(shownMark)).toEqual([change]);
});

test("a budget raised to pass says what it hides", () => {
  const [root] = between(wing("budget 9 lb"), wing("budget 12 lb")).roots;
  expect(root!.yardstick[0]!.hides).toBe("wing weighs 10 lb, more than the 9 lb it had");
});

test("of something renamed the yardstick is the same one", () => {
  const before = `assembly wing budget 12 lb { ${spar}\npart rib quoted 1 lb at FS 90 }\n`;
  expect(yardstick(before, before.replace("wing", "main_wing"))).toEqual([]);
});

test("a finding is the same one on another line, in a renamed part, with other figures", () => {
  const before = 'part tip pn "W-9" calculated 1 lb\n';
  const after = '// longer\n\npart wing_tip pn "W-9" calculated 2 lb\n';
  const told = between(before, after).findings.map(
    it => `${it.state} ${it.finding.code} ${it.path}`,
  );
  expect(told).toEqual(["updated arm-missing wing_tip"]);
});

test("findings come and go", () => {
  const told = between(wing("budget 9 lb"), "part tip calculated 1 lb\n").findings;
  expect(told.map(it => `${it.state} ${it.finding.code}`)).toEqual([
    "new arm-missing",
    "gone over-budget",
  ]);
});

/** "code: the text it stands on < the texts of its related places" of each new finding. */
function places(base: string, head: string): readonly string[] {
  const text = ({ line, from, to }: Span) => line.text.slice(from, to);
  return between(base, head)
    .findings.filter(it => it.state === "new")
    .map(({ finding: { code, at, related } }) =>
      [`${code}: ${text(at)}`, ...related.map(it => text(it.at))].join(" < "),
    );
}

test("a new finding sits on the changed line that tipped it, the budget is its first related place", () => {
  const before = wing("budget 12 lb", "part rib calculated 1 lb at FS 90\n");
  expect(places(before, before.replace("calculated 1 lb", "weighed 4 lb"))).toEqual([
    "over-budget: weighed 4 lb < 12 lb < spar < rib",
  ]);
});

test("a finding that no figure tipped, or that is waived, stays where it was", () => {
  expect(places(wing("budget 12 lb"), wing("budget 9 lb"))).toEqual(["over-budget: 9 lb < spar"]);
  const waived = `${wing("budget 9 lb")}waive over-budget of wing "so be it"\n`;
  expect(places(wing("budget 9 lb").replace("10 lb", "8 lb"), waived)).toEqual([
    "over-budget: 9 lb < spar",
  ]);
});

test("a CG limit is tipped by what moved the CG most that way", () => {
  const solo = "loading solo under normal { pilot 170 lb }\n";
  const parts = "part nose calculated 10 lb at FS 10\npart tail calculated 20 lb at FS 200\n";
  const before = flying(rows, undefined, solo + parts);
  const after = before
    .replace("calculated 20", "calculated 60")
    .replace("calculated 10", "weighed 11");
  expect(places(before, after).map(it => it.split(" < ").slice(0, 2))).toContainEqual([
    "cg-aft: calculated 60 lb",
    "solo",
  ]);
});

test("each loading's room: to the nearest CG limit and to the weight limit, negative outside", () => {
  const solo = "loading solo under normal { pilot 170 lb }\n";
  const [root] = between(
    flying(rows, undefined, solo),
    flying(rows.replace("takeoff 900", "takeoff 600"), undefined, solo),
  ).roots;
  const [{ base, head }] = root!.loadings as [Difference["roots"][number]["loadings"][number]];
  // 500 lb at 90 in and 170 lb at 92 in: 670 lb at 90.507 in, 4.493 in before the aft limit
  const inch = 0.0254;
  expect(head!.cg!.by / inch).toBeCloseTo(95 - (500 * 90 + 170 * 92) / 670, 9);
  expect(head!.cg!.what).toBe("the aft limit");
  const pound = 0.45359237;
  expect(base!.weight!.by / pound).toBeCloseTo(900 - 670, 9);
  expect(head!.weight!.by / pound).toBeCloseTo(600 - 670, 9);
});
