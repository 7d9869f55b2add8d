import { expect, test } from "vitest";
import { read } from "../../grammar/source";
import { keywords, unitWords } from "../../grammar/words";
import { unitTable } from "../../server/quantity/units";
import { faultsOf, specs } from "./specs";

/** A text's statements and faults, in short: kinds, nested, and messages. */
function shape(text: string): string {
  const source = read("x.poise", text);
  const kinds = (items: typeof source.items): string =>
    items.map(it => it.head.kind + (it.open ? `(${kinds(it.items)})` : "")).join(" ");
  return [kinds(source.items), ...faultsOf(source).map(it => it.message)]
    .filter(Boolean)
    .join("\n");
}

test("the whole sample and every example read without a fault", () => {
  for (const [path, text] of specs)
    expect(faultsOf(read(path, text)).map(it => `${path}: ${it.message}`)).toEqual([]);
});

test.each([
  [
    'aircraft a { units lb, in, gal; datum "nose" mac at FS 121 length 54 }',
    "aircraft(clause clause clause)",
  ],
  [
    'part p mirrored qty 4 calculated 2 lb ± 4% on 2026-05-03 rev "B" note "x" at FS 1, BL 2, WL 3',
    "part",
  ],
  ["part p calculated 5 lb +/- 2% at FS 3", "part"],
  ["part takeoff weighed 3 lb; part fuel weighed 2 lb", "part part"],
  [
    "choice b default agm { option agm { part e.battery quoted 22.8 lb at FS 160 } option li { budget e 4 lb } }",
    "choice(option(part) option(clause))",
  ],
  [
    "tank t mirrored holds 14 gal of mogas unusable 0.4 gal { at BL 60\n filled 4 gal at FS 126\n }",
    "tank(clause clause)",
  ],
  [
    "envelope n { ramp 10 lb; takeoff 9 lb\ncg 8 lb: 18 %MAC .. 32 %MAC\ncg 9 lb: FS 1 ..\nlateral FS 97: BL -2 .. 2 }",
    "envelope(clause clause clause clause clause)",
  ],
  [
    'loading l "L" under n, w { pilot 180 lb at FS 92; ballast 5 gal\nwing.RH total 1 gal usable\ntaxi t 1 gal\nburn t to 2 gal\nrelease w\n}',
    "loading(load load load taxi burn release)",
  ],
  ["configuration up ground { swing gear.main, gear.nose }", "configuration(swing-these)"],
  ["assembly g swing 84 deg outboard about FS at FS 1, BL 2", "assembly"],
  ["assembly g swing -30 deg about (FS 1, BL 2, WL 3) .. (FS 4, BL 5, WL 6)", "assembly"],
  ["part p weighed 2 lb at FS 1 inertia Ixx 1 kg m^2, Iyy 2 kg m^2, Izz 2 kg m^2", "part"],
  ["part p weighed 2 lb at FS 1 shape tube 1 1/4 in, 1 in, 9 in along BL", "part"],
  [
    'airframe s "S/N 3" serial 3 { choose b agm; budget e 4 lb; weighed w.spar.LH 2 lb on 2026-01-02 by "x"\nremove a, b weighed 1 lb\ninstall part c weighed 1 lb at FS 1 { pn "c" }\nmove e to FS 140\nnote "n" }',
    "airframe(choose clause record-of remove part(clause) move clause)",
  ],
  [
    'weighing w of s on 2026-11-12 { scale n "nose" at FS 34 reads 60 lb, 61 lb ± 1 lb tare 2 lb by "A"\naboard t 0.8 gal of mogas\naboard sandbag 12 lb at FS 6\nmissing cabin.carpet }',
    "weighing(scale aboard aboard missing)",
  ],
  [
    'change r of s on 2027-01-20 "radio" { omit a\nadd part a weighed 2 lb at FS 61 }',
    "change(remove part)",
  ],
  ['waive over-budget of wing.spar until 2026-01-31 "why"', "waive"],
  ['require 1 lb <= mass(wing) < takeoff(n) for every loading "why"', "require"],
  ['limit 65 lb of baggage, bow "floor"', "limit"],
  ["growth estimated 18%,\n  calculated 6%", "clause"],
  ["let x = (3 lb +\n  2 lb) *\n  2", "let"],
  ["part p effective 5 .. weighed 2 lb effective .. 4 at FS 1", "part"],
])("%s", (text, expected) => {
  expect(shape(text)).toBe(expected);
});

test.each([
  ["part", "part\nthis part has no name yet"],
  ["part p 21,4 lb", "part\nwrite a decimal point: 21.4"],
  [
    "asembly wing {\n}",
    "nameless()\nasembly is not a word of the language here; did you mean assembly?\na block begins here, and nothing says of what",
  ],
  ["let x = 3 lb +", "let\nnothing stands after this sign"],
  ["let x = (3 lb", "let\nthis parenthesis is not closed"],
  ['part p "spar', "part\nthis text has no closing quote"],
  ["part p weighed 3 lb at FS 3 )", "part\nthis parenthesis closes nothing"],
  ["part p € weighed 3 lb", "part\n€ means nothing here"],
  [
    "assembly a {\n  part p weighed 2 lb at FS 1\nassembly b {\n  part q weighed 1 lb at FS 2\n}",
    "assembly(part) assembly(part)\na } is missing here, to end a",
  ],
])("says in plain words what is wrong with %j", (text, expected) => {
  expect(shape(text)).toBe(expected);
});

test("10,000 braces, parentheses or letters in a row end in a message, not in a hang", () => {
  expect(shape("assembly a {\n".repeat(10_000))).toContain("blocks stand more than 100 deep");
  expect(shape(`let x = ${"(".repeat(10_000)}`)).not.toBe("");
  expect(shape(`let x = ${"min(".repeat(10_000)}`)).not.toBe("");
  expect(shape("x".repeat(200_000))).toContain("Poise reads lines of up to 100,000");
});

test("the grammar's units are those of the unit table", () => {
  expect([...unitWords].sort()).toEqual([...unitTable.keys()].filter(it => it !== "%").sort());
});

test("a let may be called like anything but a word of the language", () => {
  expect(keywords).toContain("FS");
  expect(new Set(keywords).size).toBe(keywords.length);
});
