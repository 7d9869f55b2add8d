import { expect, test } from "vitest";
import { clauseWords } from "../../grammar/words";
import { completion } from "../../server/features/completion";
import { explain } from "../../server/features/completion/explain";
import { clausesIn } from "../../server/features/completion/holds";
import type { Offer } from "../../server/features/completion/offer";
import { opened } from "./cursor";

const kite = `aircraft kite {
  units lb, in, gal
  mac at FS 100 length 50
}
fluid mogas 6.02 lb/gal
let cap = 3 lb
// Carries all of it.
assembly wing "Wing" budget 20 lb {
  part spar "Main spar" calculated 21 lb at FS 120
  assembly outer mirrored swing 3 deg up about FS at BL 3, WL 4 {
    part tip weighed 2.06 lb at FS 130, BL 40
  }
}
part engine quoted 180 lb at FS 60
tank main mirrored holds 14 gal of mogas at FS 122
seat pilot at FS 90 .. 95 range 110 lb .. 250 lb
envelope normal "Normal" { takeoff 900 lb; cg 400 lb: FS 60 .. 90 }
choice pack default light {
  option light "Light pack" { part cell quoted 3 lb at FS 30 }
  option heavy { part cell quoted 9 lb at FS 30 }
}
loading solo "Solo" under normal { pilot 180 lb; main 4 gal; burn main to 1 gal }
airframe sn1 "S/N 1" serial 1 { }
require fs(solo.takeoff) < 80 in "nose"
`;

/** What is offered where a line of that aircraft is being typed, and begins with what is typed. */
function offers(line: string): readonly Offer[] {
  const { project, path, position } = opened({ "kite.poise": `${kite}${line}\n` });
  const { typed = "", offers = [] } = completion(project, path, position, "2026-11-28") ?? {};
  return offers.filter(it => it.back || (it.typedAs ?? it.label).startsWith(typed));
}
const labels = (line: string, kind?: Offer["kind"]) =>
  offers(line)
    .filter(it => (kind ? it.kind === kind : it.kind !== "snippet"))
    .map(it => it.label)
    .join(" ");
const words = (line: string) => labels(line, "keyword");
/** The names, each with what stands behind it in the list. */
const names = (line: string) =>
  offers(line)
    .filter(it => it.kind !== "keyword" && it.kind !== "function")
    .map(({ label, detail, title }) => [label, detail, title].filter(Boolean).join(" | "));

test("clauses that the declaration reads and does not have yet", () => {
  expect(words("seat copilot $0")).toBe("at range mirrored effective note");
  expect(words("seat copilot at FS 92 $0")).toBe("range mirrored effective note");
  expect(words("seat copilot $0 range 0 lb .. 200 lb")).toBe("at mirrored effective note");
  expect(words("tank aux {\n  at FS 3\n  $0\n}")).toBe(
    "holds unusable filled operating mirrored effective note",
  );
  expect(words("part rib shape box 3 in, 4 in, 5 in in$0")).toBe("");
  expect(words("part rib mirrored mirrored$0")).toBe("");
  // records repeat
  expect(words("part rib { was estimated 4 lb; cal$0 }")).toBe("calculated");
});

test("each clause of the language is offered somewhere", () => {
  const places = ["aircraft", "assembly", "part", "tank", "seat", "envelope"];
  const known = new Set(places.flatMap(clausesIn));
  // a margin stands behind its budget
  expect(clauseWords.filter(it => !known.has(it))).toEqual(["margin"]);
});

test("what the clause before it still asks for, and nothing else", () => {
  expect(words("part rib calculated 4 lb at $0")).toBe("FS BL WL");
  expect(words("part rib calculated 4 lb at FS 12, $0")).toBe("BL WL");
  expect(labels("part rib shape $0")).toMatch(/^cap box cylinder tube sphere abs min /);
  expect(words("part rib kind $0")).toBe("structure required optional consumable");
  expect(words("part rib growth estimated 3%, $0")).toBe("calculated quoted weighed");
  expect(words("tank aux holds 3 gal $0").split(" ")[0]).toBe("of");
  expect(words("assembly gear swing 84 deg $0").split(" ")[0]).toBe("about");
  expect(words("require cap > 1 lb $0")).toBe("for");
  expect(words("loading l { main $0 }")).toBe("total each full");
  expect(words("loading l { burn main $0 }")).toBe("to total each");
  // a text, a date, a new name: nothing to choose from
  for (const it of ["part $0", "part rib pn $0", "part rib weighed 3 lb on $0", "let $0"])
    expect(labels(it), it).toBe("");
});

test("statements that the block holds", () => {
  expect(words("choice propeller { $0 }")).toBe("option effective note");
  expect(words("loading l { $0 }")).toBe("burn taxi release");
  expect(words("configuration up { $0 }")).toBe("swing");
  expect(words("weighing w of sn1 on 2026-11-28 { $0 }")).toBe("scale aboard missing note");
  expect(words("airframe x { $0 }")).toBe(
    "choose install remove move budget estimated calculated quoted weighed was note",
  );
  expect(words("airframe x { install $0 }")).toBe("part assembly tank seat bay reserve ballast");
  expect(words("envelope e {\n  takeoff 900 lb\n  $0\n}")).toBe(
    "limit ramp landing zero_fuel cg lateral note",
  );
  // one aircraft is enough
  expect(words("a$0").split(" ")).not.toContain("aircraft");
  const { project, path, position } = opened({ "new.poise": "$0" });
  expect(completion(project, path, position, "2026-11-28")?.offers.map(it => it.label)).toContain(
    "aircraft",
  );
});

test("a block whose brace is not typed yet is still that block", () => {
  expect(words("envelope e {\n  takeoff 900 lb\n  l$0")).toBe("limit landing lateral");
  expect(words("loading l {\n  pilot 180 lb\n  b$0")).toBe("burn");
});

test("paths, a word at a time, with what each weighs and where", () => {
  expect(names("require mass($0")).toEqual([
    "wing | 25.12 lb at FS 121.6 | Wing",
    "engine | 180 lb at FS 60 | part",
    "cell | 3 lb at FS 30 | part",
    "solo | 436.3 lb at FS 83.6 | Solo",
    "empty | 208.1 lb at FS 67.01 | basic empty weight",
    "loading | every loading",
    "kite | 208.1 lb at FS 67.01 | assembly",
  ]);
  expect(names("require mass(wing.$0")).toEqual([
    "spar | 21 lb at FS 120 | Main spar",
    "outer | 2.06 lb at FS 130, each side | assembly",
  ]);
  expect(names("require mass(wing.outer.$0")).toEqual([
    "tip | 2.06 lb at FS 130 | part",
    "RH | right",
    "LH | left",
  ]);
  // the rest of the path is filled in
  expect(names("require mass(ti$0")).toContain("wing.outer.tip | 2.06 lb at FS 130 | part");
  expect(names("require fs(solo.$0")).toEqual([
    "ramp | 436.3 lb at FS 83.6",
    "takeoff | 436.3 lb at FS 83.6",
    "landing | 400.2 lb at FS 80.13",
    "zero_fuel | 388.1 lb at FS 78.83",
  ]);
});

test("names of the sort that belongs there", () => {
  expect(names("part rib calculated $0")).toEqual(["cap | 3 lb"]);
  expect(names("tank aux holds 3 gal of $0")).toEqual(["mogas | 6.02 lb/gal"]);
  expect(names("loading l under $0")).toEqual(["normal | Normal"]);
  expect(names("require takeoff($0")).toEqual(["normal | Normal"]);
  expect(names("loading l { burn $0")).toEqual([
    "main | 14 gal of mogas at FS 122, each side | tank",
  ]);
  expect(names("limit 4 lb of $0")).toEqual([
    "main | 14 gal of mogas at FS 122, each side | tank",
    "pilot | 110 lb .. 250 lb at FS 90 .. 95 | seat",
  ]);
  expect(names("airframe x { choose $0")).toEqual(["pack | choice"]);
  expect(names("airframe x { choose pack $0")).toEqual([
    "light | counts now | Light pack",
    "heavy | option",
  ]);
  expect(labels("airframe x { budget $0")).toBe("wing engine cell kite");
  expect(labels("airframe x { weighed wing.s$0")).toBe("spar");
  expect(labels("airframe x { move wing.outer.$0")).toBe("tip RH LH");
  expect(labels("airframe x { install part $0")).toBe("wing");
  expect(labels("configuration up { swing wing.$0 }")).toBe("outer");
  expect(names("weighing w of $0")).toEqual(["sn1 | S/N 1"]);
});

test("units of what the number is of, the aircraft's own first", () => {
  const units = (line: string, most = 3) => names(line).slice(0, most);
  expect(units("part rib calculated 4 $0")).toEqual(["lb | mass", "oz | mass", "slug | mass"]);
  expect(words("part rib calculated 4 $0")).toBe("");
  // an area times a mass per area is a mass too, but who types an l means pounds and no litres
  expect(labels("part rib calculated 4 $0").split(" ")).toContain("ft");
  expect(labels("part rib calculated 4 f$0").split(" ")).toContain("ft");
  expect(labels("part rib calculated 4 l$0").split(" ")).not.toContain("L");
  expect(units("part rib calculated 4 lb at FS 4 $0", 2)).toEqual(["in | length", "ft | length"]);
  expect(words("part rib calculated 4 lb at FS 4 mom$0")).toBe("moment");
  expect(units("part rib calculated 4 lb ± 4 $0", 8)).toContain("% | share");
  expect(units("fluid oil 7.5 $0")).toEqual(["lb/gal | density", "kg/L | density"]);
  expect(units("fluid oil 7.5 lb/$0", 200)).toContain("gal | volume");
  expect(units("tank aux holds 4 $0", 1)).toEqual(["gal | volume"]);
  expect(units("loading l { pilot 4 $0", 1)).toEqual(["lb | mass"]);
  expect(names("assembly gear swing 84 $0")).toEqual(["deg | angle", "rad | angle"]);
  expect(names("part rib growth 4 $0")).toEqual(["% | share"]);
  expect(units("part rib moment 4 $0", 1)).toEqual(["lb in | moment (mass × length)"]);
  expect(names("envelope e { cg 4 lb: 18 $0 }").at(-1)).toBe(
    "%MAC | share of the mean aerodynamic chord",
  );
  expect(units("envelope e { cg 4 $0 }", 1)).toEqual(["lb | mass"]);
  expect(units("require fs(wing) < 4 $0", 1)).toEqual(["in | length"]);
  expect(units("require mass(wing) < 4 $0", 1)).toEqual(["lb | mass"]);
  expect(names("part rib qty 4 $0")).toEqual([]);
  // behind a number that nothing parts from it
  expect(offers("part rib calculated 4$0")[0]).toMatchObject({ label: "lb", text: " lb" });
});

test("codes that can be waived, those found now first, and what they are found of", () => {
  expect(names("waive $0").slice(0, 3)).toEqual([
    "over-budget | found once | error",
    "requirement-failed | found once | error",
    "budget-at-risk | warning",
  ]);
  // half of a code is typed: all of it is replaced
  expect(offers("waive over-b$0")[0]).toMatchObject({ label: "over-budget", back: 5 });
  expect(names("waive over-budget of $0")[0]).toBe(
    "wing | wing weighs 25.12 lb, 5.12 lb over its budget of 20 lb",
  );
  expect(names("waive requirement-failed of $0")[0]).toMatch(/^"nose" \| /);
});

test("a declaration is offered whole where it may stand, dated today", () => {
  const find = (line: string, label: string) =>
    offers(line).find(it => it.kind === "snippet" && it.label === label);
  expect(find("flu$0", "fluid")).toMatchObject({
    snippet: expect.stringMatching(/^fluid \$\{1:mogas\} \$\{2:6.02 lb\/gal\}$/),
    text: "fluid mogas 6.02 lb/gal",
  });
  expect(find("$0", "change")?.text).toContain("change radio of sn001 on 2026-11-28 {\n  install");
  expect(labels("assembly tail {\n  $0\n}", "snippet")).toBe(
    "assembly assembly-mirrored part part-records tank seat bay",
  );
  // its name has a hyphen, which parts words elsewhere
  expect(labels("require-dr$0", "snippet")).toBe("require-drop-height");
  expect(offers("require-dr$0")[0]).toMatchObject({ back: 8 });
  for (const it of ["part rib $0", "loading l { $0 }", "let x = $0"])
    expect(labels(it, "snippet"), it).toBe("");
});

test("nothing in a comment, a text or a number", () => {
  for (const it of [
    "// par$0",
    'part rib "ma$0',
    'part rib "main" // $0',
    "part rib calculated 4.$05 lb",
  ])
    expect(offers(it), it).toEqual([]);
});

test("each offer can be read about: its hover, its sentence, its page", () => {
  const { project, path, position } = opened({ "kite.poise": `${kite}require mass(w$0\n` });
  const read = (label: string, at = position) => {
    const found = completion(project, path, at, "2026-11-28")?.offers.find(
      it => it.label === label,
    );
    return found?.doc && explain(project, found.doc);
  };
  expect(read("wing")).toContain("| basic | 25.12 lb |");
  expect(read("wing")).toContain("Carries all of it.");
  const qty = offers("part rib q$0").find(it => it.label === "qty");
  expect(explain(project, qty!.doc!)).toBe("so many like pieces; the record is of one.");
  const forward = offers("let x = for$0").find(it => it.label === "forward");
  expect(explain(project, forward!.doc!)).toMatch(/^`forward\(.*envelope.*\)`: the foremost CG/);
  expect(explain(project, offers("waive over-b$0")[0]!.doc!)).toMatch(/weighs? more/);
});
