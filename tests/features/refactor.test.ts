import { expect, test } from "vitest";
import { textOf } from "../../grammar/source";
import { fileOffers, offersAt } from "../../server/features/refactor";
import { proved } from "../../server/features/refactor/proof";
import { type Offer, rewritten } from "../../server/features/refactor/rewrite";
import { judge } from "../../server/judge";
import type { Project } from "../../server/project";
import { type Files, opened } from "./cursor";

const TODAY = "2026-11-28";

interface Done {
  readonly files: Record<string, string>;
  readonly differences: readonly string[];
  readonly before: Project;
  readonly after: Project;
}

/** Does what is offered at the cursor under a title that begins so; a refusal in its words. */
function done(files: Files | string, title: string): Done | string {
  const { project, path, position } = opened(files);
  const offers = [...offersAt(project, path, position, TODAY), ...fileOffers(project, path)];
  const offer = offers.find(it => it.title.startsWith(title));
  expect(offer, offers.map(it => it.title).join("\n")).toBeDefined();
  return outcome(project, offer!);
}

function outcome(before: Project, offer: Offer): Done | string {
  const result = proved(before, offer);
  if ("refused" in result) return result.refused;
  const after = rewritten(before, result.rewrite);
  const files: Record<string, string> = {};
  for (const file of after.files.values())
    if (!("unreadable" in file)) files[file.path.slice("/specs/".length)] = textOf(file);
  return { files, differences: result.differences, before, after };
}

const kite = (rows: string) => `aircraft kite { units lb, in, gal }\n${rows}`;
/** The only file, below the aircraft's line. */
function rows(result: Done | string): string {
  if (typeof result === "string") return `refused: ${result}`;
  return result.files["kite.poise"]!.split("\n").slice(1).join("\n");
}

const titles = (marked: string) => {
  const { project, path, position } = opened(kite(marked));
  return offersAt(project, path, position, TODAY).map(it => it.title);
};

test("a new record comes behind the one that governs, which stays as history", () => {
  const title = "Keep calculated 4.2 lb";
  expect(rows(done(kite("part sp$0ar calculated 4.2 lb on 2026-03-01 at FS 10\n"), title))).toBe(
    "part spar was calculated 4.2 lb on 2026-03-01 calculated 4.2 lb on 2026-11-28 at FS 10\n",
  );
  const block = "part spar {\n  estimated 5 lb\n  calculated 4.2 lb ± 4%\n  at FS$0 10\n}\n";
  expect(rows(done(kite(block), title))).toBe(
    "part spar {\n  estimated 5 lb\n  was calculated 4.2 lb ± 4%\n  calculated 4.2 lb ± 4% on 2026-11-28\n  at FS 10\n}\n",
  );
});

test("a long row goes into braces, and its record is history there too", () => {
  const long = `part sp$0ar calculated 4.2 lb by "${"x".repeat(60)}" at FS 10\n`;
  expect(rows(done(kite(long), "Keep calculated"))).toBe(
    `part spar {\n  was calculated 4.2 lb by "${"x".repeat(60)}"\n  calculated 4.2 lb on 2026-11-28\n  at FS 10\n}\n`,
  );
});

test("a part without a record, and one recorded today, have nothing to keep", () => {
  expect(titles("part sp$0ar at FS 10\n")).toEqual([]);
  expect(titles("part sp$0ar weighed 4 lb on 2026-11-28 at FS 10\n")).toEqual([]);
});

test("an assembly goes to a file of its own, its remarks with it, and comes back", () => {
  const text = kite(
    "// the wing,\n// in two halves\nassembly wi$0ng budget 50 lb {\n  part spar weighed 4 lb at FS 10\n}\npart hull weighed 9 lb at FS 5\n",
  );
  const out = done(text, "Move assembly wing to a file of its own");
  expect(out).toMatchObject({
    files: {
      "kite.poise": kite('include "wing.poise"\npart hull weighed 9 lb at FS 5\n'),
      "wing.poise":
        "// the wing,\n// in two halves\nassembly wing budget 50 lb {\n  part spar weighed 4 lb at FS 10\n}\n",
    },
  });
  const { files } = out as Done;
  const marked = { ...files, "kite.poise": files["kite.poise"]!.replace("include", "incl$0ude") };
  expect(done(marked, "Put what is in wing.poise here")).toMatchObject({
    files: { "kite.poise": text.replace("$0", "") },
  });
});

test("an assembly in the aircraft's block is included from below it", () => {
  const text =
    "aircraft kite {\n  units lb, in\n  assembly wi$0ng {\n    part spar weighed 4 lb at FS 10\n  }\n}\n";
  expect(done(text, "Move assembly wing")).toMatchObject({
    files: {
      "kite.poise": 'aircraft kite {\n  units lb, in\n}\ninclude "wing.poise"\n',
      "wing.poise": "assembly wing {\n  part spar weighed 4 lb at FS 10\n}\n",
    },
  });
});

test("no file is overwritten, and none that another one includes is taken away", () => {
  const wing = "assembly wi$0ng { part spar weighed 4 lb at FS 10 }\n";
  expect(done({ "kite.poise": kite(wing), "wing.poise": "" }, "Move assembly")).toBe(
    "there is a file wing.poise already",
  );
  const shared = {
    "kite.poise": kite('incl$0ude "a.poise"\ninclude "b.poise"\n'),
    "a.poise": "part a weighed 1 lb at FS 1\n",
    "b.poise": 'include "a.poise"\n',
  };
  expect(done(shared, "Put what is in a.poise here")).toBe("b.poise includes it too");
});

test("includes of a file in another folder lead where they led", () => {
  const files = {
    "kite.poise": kite('inclu$0de "gear/gear.poise"\n'),
    "gear/gear.poise": 'include "wheels/main.poise"\ninclude "../oil.poise"\n',
    "gear/wheels/main.poise": "part wheel weighed 1 lb at FS 1\n",
    "oil.poise": "fluid oil 7.5 lb/gal\n",
  };
  const out = done(files, "Put what is in gear/gear.poise here") as Done;
  expect(out.files["kite.poise"]).toBe(
    kite('include "gear/wheels/main.poise"\ninclude "oil.poise"\n'),
  );
  expect(Object.keys(out.files)).not.toContain("gear/gear.poise");
});

test("a file in other units: exact where that is short, else to the digits given and one more", () => {
  const text = `aircraft kite {
  units lb, in, gal
  mac at FS 100 length 50
  assembly wi$0ng budget 50 lb {
    part spar calculated 21.4 lb at FS 128.5, BL -10
    part skin calculated 12 ft^2 * 0.17 lb/ft^2 at FS 9 ft
    part bolt weighed 1 lb 3 oz at FS 20
  }
}
envelope normal {
  takeoff 900 lb
  cg 100 lb: FS 90 .. 110
  lateral FS 90: BL -1 .. 1
}
let disc = 3 * (450 in)^2
`;
  const out = done(text, "Write this file in kg, mm and L") as Done;
  expect(out.files["kite.poise"]).toBe(`aircraft kite {
  units kg, mm, L
  mac at FS 2540 length 1270
  assembly wing budget 22.68 kg {
    part spar calculated 9.707 kg at FS 3263.9, BL -254
    part skin calculated 1.115 m^2 * 0.83 kg/m^2 at FS 2.7432 m
    part bolt weighed 0.539 kg at FS 508
  }
}
envelope normal {
  takeoff 408.23 kg
  cg 45.36 kg: FS 2286 .. 2794
  lateral FS 2286: BL -25.4 .. 25.4
}
let disc = 3 * (11430 mm)^2
`);
});

test("where the aircraft's file is converted, stations in its other files come along", () => {
  const files = {
    "kite.poise": kite('incl$0ude "wing.poise"\n'),
    "wing.poise": "part spar weighed 4 lb at FS 10, WL 2\n",
  };
  const out = done(files, "Write this file in kg") as Done;
  expect(out.files["wing.poise"]).toBe("part spar weighed 4 lb at FS 254, WL 50.8\n");
});

test("a conversion that would turn a verdict is refused", () => {
  // 3 lb is 1.360777 kg, 2.9999 lb is 1.360732 kg: to three digits a budget of 1.36 kg
  const tight = kite("assembly wing budget 3 lb { part sp$0ar weighed 2.9999 lb at FS 1 }\n");
  expect(done(tight, "Write this file in kg")).toBe(
    "there would be a new finding: wing weighs 1.3607 kg, 0.0007 kg over its budget of 1.36 kg",
  );
});

test("another datum: every FS in all files but those in a frame", () => {
  const files = {
    "kite.poise": `aircraft kite { units lb, in; mac at FS 100 length 50; extent FS 0 .. 200 }
include "wing.poise"
seat pilot at FS 80 .. 90 range 0 lb .. 200 lb
envelope normal { cg 100 lb: FS 5 .. 110; lateral FS 9: BL -1 .. 1 }
loading solo under normal { pilot 100 lb at FS 85 }
`,
    "wing.poise": `part hull weighed 90 lb at FS 6$00
part tail weighed 2 lb at FS 4 m
assembly gear {
  at FS 30
  part wheel weighed 2 lb at FS 1
}
`,
  };
  const out = done(files, "Make FS 60 in the datum") as Done;
  expect(out.files["wing.poise"]).toBe(`part hull weighed 90 lb at FS 0
part tail weighed 2 lb at FS 2.476 m
assembly gear {
  at FS -30
  part wheel weighed 2 lb at FS 1
}
`);
  expect(
    out.files["kite.poise"],
  ).toBe(`aircraft kite { units lb, in; mac at FS 40 length 50; extent FS -60 .. 140 }
include "wing.poise"
seat pilot at FS 20 .. 30 range 0 lb .. 200 lb
envelope normal { cg 100 lb: FS -55 .. 50; lateral FS -51: BL -1 .. 1 }
loading solo under normal { pilot 100 lb at FS 25 }
`);
  // (90 × 60 + 2 × 157.48 + 2 × 31) / 94 = 61.457 in
  const cg = (it: Project) => judge(it).roots[0]!.cg;
  expect([cg(out.before), cg(out.after)]).toEqual(["FS 61.46 in", "FS 1.46 in"]);
});

test("what cannot follow the datum is named, and nothing is done", () => {
  expect(
    done(kite("part hull weighed 90 lb at FS 6$00\nrequire fs(empty) < 70 in\n"), "Make FS 60"),
  ).toContain("requirements fs(empty) < 70 in");
  expect(
    done(
      kite("part hull weighed 90 lb at FS 6$00\npart tail weighed 2 lb moment 300 lb in\n"),
      "Make",
    ),
  ).toContain("empty basic cg 0 would be");
});

test("one of several pieces is split off", () => {
  const text =
    "part bolt qt$0y 6 weighed 0.5 lb at FS 10, BL 4\npart bolt_2 weighed 1 lb at FS 1\n";
  expect(rows(done(kite(text), "Split one of the 6 off, as bolt_3"))).toBe(
    "part bolt qty 5 weighed 0.5 lb at FS 10, BL 4\npart bolt_3 weighed 0.5 lb at FS 10, BL 4\npart bolt_2 weighed 1 lb at FS 1\n",
  );
});

test("pieces with a spread shared one error: the difference is told", () => {
  const out = done(kite("part bo$0lt qty 2 weighed 5 lb ± 0.1 lb at FS 10\n"), "Split one") as Done;
  // 2 × 0.1 lb together; apart √2 × 0.1 lb
  expect(out.differences).toEqual([
    "kite: one standard deviation of the empty weight 0.2 lb, then 0.141 lb",
  ]);
});

test("two of a mirrored thing, the left one turned", () => {
  expect(
    rows(done(kite("part tip mirro$0red weighed 5 lb at FS 10, BL 60, WL 3\n"), "Make two")),
  ).toBe(
    "part tip_rh weighed 5 lb at FS 10, BL 60, WL 3\npart tip_lh weighed 5 lb at FS 10, BL -60, WL 3\n",
  );
  const gear =
    "assembly ge$0ar mirrored {\n  at BL 30\n  part leg weighed 5 lb at FS 10, BL 4\n}\n";
  expect(rows(done(kite(gear), "Make two"))).toBe(
    "assembly gear_rh {\n  at BL 30\n  part leg weighed 5 lb at FS 10, BL 4\n}\nassembly gear_lh {\n  at BL -30\n  part leg weighed 5 lb at FS 10, BL -4\n}\n",
  );
});

test("what is spoken of by its side is called by its own name then, and back", () => {
  const text = "part tip mirrored weighed 5 lb at FS 10, BL 60\nrequire mass(tip.LH) < 9 lb\n";
  const apart = `part tip_rh weighed 5 lb at FS 10, BL 60
part tip_lh weighed 5 lb at FS 10, BL -60
require mass(tip_lh) < 9 lb
`;
  expect(rows(done(kite(text.replace("mirrored", "mirro$0red")), "Make two"))).toBe(apart);
  expect(
    rows(done(kite(apart.replace("tip_rh", "tip_r$0h")), "Make one mirrored tip of tip_rh and")),
  ).toBe(text);
});

test("what is spoken of as a pair stays mirrored, and what is not alike stays apart", () => {
  const pair = "part tip mirro$0red weighed 5 lb at FS 10, BL 60\nrequire mass(tip) < 19 lb\n";
  expect(done(kite(pair), "Make two")).toContain("tip");
  const unlike = `part tip_ri$0ght weighed 5 lb at FS 10, BL 60
part tip_left weighed 6 lb at FS 10, BL -60
`;
  expect(done(kite(unlike), "Make one")).toContain("would not stay the same");
});

test("rows that belong together are joined, unless a remark stands between them", () => {
  expect(rows(done(kite("part tip weighed 5 lb at FS 10,\n  BL$0 60\n"), "Join"))).toBe(
    "part tip weighed 5 lb at FS 10, BL 60\n",
  );
  expect(done(kite("part tip weighed 5 lb at FS 10, // aft\n  BL$0 60\n"), "Join")).toBe(
    "there is a remark between its rows",
  );
});

const moves = (files: Files | string) => {
  const { project, path, position } = opened(files);
  return offersAt(project, path, position, TODAY).flatMap(it =>
    it.kind === "move" ? it.title : [],
  );
};
const framed = (at: string): Files => ({
  "kite.poise": kite(`include "wing.poise"
assembly power budget 20 lb {
  at FS 10, WL 1
  // the one that turns
  part mo$0tor weighed 9 lb at FS 12, WL 3
}
require mass(power.motor) < 10 lb
`).replace("$0", at),
  "wing.poise": "assembly wing {\n  at FS 100, BL 5\n  part skin weighed 3 lb at FS 1\n}\n",
  "sn1.poise": 'include "kite.poise"\nairframe sn1 { weighed power.motor 9.1 lb }\n',
});

test("a part goes to another assembly: it stays where it is, and is spoken of by its new path", () => {
  expect(moves(framed("$0"))).toEqual(["Move motor to wing"]);
  expect(done(framed("$0"), "Move motor to wing")).toMatchObject({
    files: {
      "kite.poise": kite(`include "wing.poise"
assembly power budget 20 lb {
  at FS 10, WL 1
}
require mass(wing.motor) < 10 lb
`),
      "wing.poise": `assembly wing {
  at FS 100, BL 5
  part skin weighed 3 lb at FS 1
  // the one that turns
  part motor weighed 9 lb at FS -78, WL 4, BL -5
}
`,
      "sn1.poise": 'include "kite.poise"\nairframe sn1 { weighed wing.motor 9.1 lb }\n',
    },
  });
});

test("an assembly goes with all that is in it", () => {
  const text = kite(`assembly wing { at FS 100 }
assembly tip$0s {
  at FS 20, WL 3
  part cap weighed 1 lb at FS 2
}
require mass(tips.cap) < 2 lb
`);
  expect(rows(done(text, "Move tips to wing"))).toBe(`assembly wing { at FS 100; assembly tips {
  at FS -80, WL 3
  part cap weighed 1 lb at FS 2
} }
require mass(wing.tips.cap) < 2 lb
`);
});

test("where it would grow otherwise, or both sides would have it, it stays", () => {
  const text = (wing: string) =>
    kite(`assembly wing ${wing} { part rib weighed 1 lb at FS 1 }
assembly power {
  part mo$0tor estimated 9 lb at FS 12
}
`);
  expect(done(text("growth estimated 20%"), "Move motor to wing")).toBe(
    "kite would not stay the same, empty predicted mass would be 11.8 lb, not 10 lb",
  );
  expect(done(text("mirrored"), "Move motor to wing")).toContain("would not stay the same");
});
