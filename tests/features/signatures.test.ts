import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import { functions, keywords } from "../../grammar/words";
import { clauseSignatures, functionSignatures } from "../../server/features/signature-table";
import { signatures } from "../../server/features/signatures";
import { faultsOf } from "../grammar/specs";
import { opened } from "./cursor";

/** What is shown with the cursor at `$0`: what is asked for there in `[ ]`. */
function shown(text: string, first = false): string | undefined {
  const { project, path, position } = opened(`aircraft kite {\n${text}\n}`);
  const found = signatures(project, path, position, first);
  if (found === undefined) return undefined;
  const { label, parameters } = found.all[found.active]!;
  const { from, to } = parameters[found.parameter]!;
  return `${label.slice(0, from)}[${label.slice(from, to)}]${label.slice(to)}`;
}

test("a place asks for its coordinates one after the other, in whatever order they come", () => {
  expect(shown("part spar at $0")).toBe("at FS [station], BL butt line, WL waterline");
  expect(shown("part spar at FS 10$0")).toBe("at FS [station], BL butt line, WL waterline");
  expect(shown("part spar at FS 10, $0")).toBe("at FS station, BL [butt line], WL waterline");
  expect(shown("part spar at FS 10, WL 4$0")).toBe("at FS station, BL butt line, WL [waterline]");
  expect(shown("part spar at WL 4, FS $0")).toBe("at FS [station], BL butt line, WL waterline");
});

test("a record says what may follow it; the clause under the cursor is the one that is meant", () => {
  expect(shown("part spar calculated 3 lb on $0")).toBe(
    "calculated mass ± one standard deviation on [date] by who note text",
  );
  expect(shown('part spar weighed 3 lb by "sc$0')).toBe(
    "weighed mass ± one standard deviation on date by [scale] note text",
  );
  expect(shown("part spar calculated 3 lb budget 4 lb margin $0")).toBe(
    "budget mass margin [percent of the budget]",
  );
  expect(shown("part spar calc$0ulated 3 lb")).toBeUndefined();
});

test("of several shapes the one that is written, else all of them", () => {
  expect(shown("part leg shape tube 3 in, $0")).toBe(
    "shape tube outer diameter, [inner diameter], length along FS, BL or WL",
  );
  expect(shown("part leg shape cylinder 3 in, 4 in along $0")).toBe(
    "shape cylinder diameter, length along [FS, BL or WL]",
  );
  const { project, path, position } = opened("part leg shape $0");
  expect(signatures(project, path, position)?.all.map(it => it.label.split(" ")[1])).toEqual([
    "box",
    "cylinder",
    "tube",
    "sphere",
  ]);
});

test("a hinge, a burn, a scale, a waiver", () => {
  const swing = (at: string) => shown(`assembly gear swing ${at}$0`);
  expect(swing("84 deg ")).toContain("angle [forward | aft | up | down | inboard | outboard]");
  expect(swing("84 deg outboard about ")).toContain("about [FS, BL or WL] at");
  expect(swing("84 deg outboard about FS")).toContain("about [FS, BL or WL] at");
  expect(swing("84 deg outboard about FS at FS 3, BL ")).toContain("BL [butt line]");
  expect(shown("loading trip {\n burn main_tank$0\n}")).toBe("burn [tank] amount");
  expect(shown("loading trip {\n burn main_tank $0\n}")).toBe("burn tank [amount]");
  expect(shown("loading trip {\n burn main_tank to 3 $0\n}")).toBe(
    "burn tank to [amount that is left]",
  );
  expect(shown("weighing first of sn1 {\n scale nose at FS 3 reads 4 lb tare $0\n}")).toContain(
    "tare [mass]",
  );
  expect(shown("waive over-budget of wing until $0")).toBe('waive code of path until [date] "why"');
});

test("rows of an envelope have a weight before them, the target of an assembly has none", () => {
  expect(shown("assembly wing {\n cg $0\n}")).toBe("cg FS [from] .. to");
  expect(shown("envelope normal {\n cg $0\n}")).toBe("cg [weight]: FS forward limit .. aft limit");
  expect(shown("envelope normal {\n cg 900 lb: FS 90 .. $0\n}")).toBe(
    "cg weight: FS forward limit .. [aft limit]",
  );
});

test("a function says what it takes, also inside another one and inside a clause", () => {
  expect(shown("require mass($0")).toBe("mass([path, or loading.stage])");
  expect(shown("let a = min(3 lb, max(1 lb, 2 lb), $0")).toBe("min(figure, figure, […])");
  expect(shown("part skin calculated sqrt($0")).toBe("sqrt([figure])");
  expect(shown("require takeoff(normal) <= $0")).toBe('require figure <= [figure] "why"');
  expect(shown("let a = budget($0")).toBe("budget([path])");
});

test("a thing may be called like a keyword, and a comment asks for nothing", () => {
  expect(shown("part span $0")).toBeUndefined();
  expect(shown("part x calculated mass(wing.at) $0")).toContain("calculated [mass]");
  expect(shown("part spar at FS 3 // at $0")).toBeUndefined();
  expect(shown("part spar mirrored $0")).toBeUndefined();
});

test("by itself it comes right behind a keyword only, and never with a record", () => {
  expect(shown("part spar at $0", true)).toContain("at FS [station]");
  expect(shown("part spar at FS $0", true)).toBeUndefined();
  expect(shown("part spar calculated $0", true)).toBeUndefined();
  expect(shown("part spar qty $0", true)).toBeUndefined();
  expect(shown("part leg shape $0", true)).toContain("shape box");
  // written so fast that the editor asks only now
  expect(shown("part leg shape tube $0", true)).toContain("tube [outer diameter]");
  expect(shown("part leg shape tube 3 $0", true)).toBeUndefined();
});

describe("the table", () => {
  test("has every function of the language", () => {
    expect(Object.keys(functionSignatures).sort()).toEqual([...functions].sort());
    for (const [name, [label]] of Object.entries(functionSignatures))
      expect(label.startsWith(`${name}({`)).toBe(true);
  });

  /** A text for each place that a signature asks for. */
  const samples: readonly (readonly [RegExp, string])[] = [
    [/^"/, '"a text"'],
    [/^(mass|amount|whole|least|most|weight|reading|figure|value|one standard)/, "3 lb"],
    [/^(percent)/, "3 %"],
    [/^(date)/, "2026-05-03"],
    [/^(who|text)/, '"a text"'],
    [/^FS, BL or WL/, "FS"],
    [/^(forward \| aft)/, "aft"],
    [/^(moment)/, "30 in lb"],
    [/^(about the|product)/, "3 lb in^2"],
    [/^(length|width|height|.*diameter|chord)/, "3 in"],
    [/^angle/, "30 deg"],
    [/^(station|butt line|waterline|from|to|leading|.* limit)/, "3"],
    [/^(pieces|number|first|last)/, "3"],
    [/^density/, "6 lb/gal"],
    [/^code/, "over-budget"],
    [/^scale/, '"a scale"'],
    [/^(name|path|place|tank|what|fluid|option|envelope|airframe|choice)/, "thing"],
  ];
  const places: Readonly<Record<string, (text: string) => string>> = {
    burn: it => `loading trip { ${it} }`,
    taxi: it => `loading trip { ${it} }`,
    release: it => `loading trip { ${it} }`,
    scale: it => `weighing first of sn1 on 2026-05-03 { ${it} }`,
    aboard: it => `weighing first of sn1 on 2026-05-03 { ${it} }`,
    choose: it => `airframe sn1 { ${it} }`,
    move: it => `airframe sn1 { ${it} }`,
    lateral: it => `envelope normal { ${it} }`,
    holds: it => `tank main ${it}`,
    unusable: it => `tank main ${it}`,
    filled: it => `tank main ${it}`,
    range: it => `bay aft ${it}`,
    swing: it => `assembly gear ${it}`,
  };
  const statements = ["let", "require", "waive", "limit", "fluid", "reserve", "ballast", "choice"];
  const blocks = ["loading", "airframe", "weighing", "change"];

  test.each(clauseSignatures)("is what the grammar reads: %s", signature => {
    const keyword = signature.split(" ")[0]!;
    expect(keywords).toContain(keyword);
    const sized = signature
      .replaceAll("{length}, {volume}", "in, gal")
      .replace("units {mass}", "units lb");
    const text = sized.replace(/\{([^}]*)\}/g, (_, place: string) => {
      const sample = samples.find(([of]) => of.test(place))?.[1];
      expect(sample, `a sample for ${place}`).toBeDefined();
      // a scale is a text behind by, and a name elsewhere
      return sample!;
    });
    const said = text.replaceAll("by thing", 'by "a scale"').replace("by scale", 'by "a scale"');
    const line = statements.includes(keyword)
      ? said
      : blocks.includes(keyword)
        ? `${said} { }`
        : keyword === "cg" && said.includes(":")
          ? `envelope normal { ${said} }`
          : ["units", "mac", "extent"].includes(keyword)
            ? `aircraft kite { ${said} }`
            : (places[keyword] ?? (it => `part thing ${it}`))(said);
    expect(faultsOf(read("kite.poise", line)), line).toEqual([]);
  });
});
