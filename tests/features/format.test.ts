import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import { formatting, rowEdits } from "../../server/features/format";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { cases } from "../grammar/cases";
import { faultsOf, specs } from "../grammar/specs";
import { formatted, meaningOf, scattered, wordsOf } from "./formatted";

const becomes = (before: string, after: string) => expect(formatted(before)).toBe(after);

test("one statement a line, two spaces of indent, single spaces", () =>
  becomes(
    `aircraft kite{units lb,in; growth 6 %}
assembly wing   budget 40lb
{ part   spar	weighed  9.5 lb +/- 2% at FS 118 ,BL - 60;part skin quoted 0.17lb / ft^2*area
      cg 900 lb :FS 1..18%MAC  }
`,
    `aircraft kite {
  units lb, in
  growth 6%
}
assembly wing budget 40 lb {
  part spar weighed 9.5 lb +/- 2% at FS 118, BL -60
  part skin quoted 0.17 lb/ft^2 * area
  cg 900 lb: FS 1 .. 18 %MAC
}
`,
  ));

test("no aligned columns, and at most one blank line", () =>
  becomes(
    "\n\nfluid mogas     6.02 lb/gal\nfluid oil       7.5  lb/gal\n  \n\n\nlet a   = 3 lb\n\n\n",
    "fluid mogas 6.02 lb/gal\nfluid oil 7.5 lb/gal\n\nlet a = 3 lb\n",
  ));

test("signs of numbers, units, fractions, functions and codes touch, operators stand free", () =>
  becomes(
    `let a = - 3 1 / 2 in * min( b ,c )-2 kg m^ -2/4
waive over - budget of wing . spar.LH until 2026-12-01 "agreed"
swing 84 deg about(FS 100)..(FS 104)`,
    `let a = -3 1/2 in * min(b, c) - 2 kg m^-2 / 4
waive over-budget of wing.spar.LH until 2026-12-01 "agreed"
swing 84 deg about (FS 100) .. (FS 104)`,
  ));

test("the clauses of what is wider than 100 columns go into braces, in their order", () =>
  becomes(
    `assembly wing {
  part skin "Upper and lower skins" calculated 2 * wing_area * 0.17 lb/ft^2 on 2026-03-02 at FS 133, WL 47 // both
  part rib "Rib" pn "W-31" was estimated 4.5 lb on 2026-02-11 calculated 3.9 lb on 2026-05-03 at FS 149 { note "x" }
  part tip calculated 2 * wing_area * 0.17 lb/ft^2 on 2026-03-02 at FS 133, WL 47 // fits, for its comment may stand out
}
`,
    `assembly wing {
  part skin "Upper and lower skins" { // both
    calculated 2 * wing_area * 0.17 lb/ft^2 on 2026-03-02
    at FS 133, WL 47
  }
  part rib "Rib" {
    pn "W-31"
    was estimated 4.5 lb on 2026-02-11
    calculated 3.9 lb on 2026-05-03
    at FS 149
    note "x"
  }
  part tip calculated 2 * wing_area * 0.17 lb/ft^2 on 2026-03-02 at FS 133, WL 47 // fits, for its comment may stand out
}
`,
  ));

test("a statement that goes on in the next line is joined if it fits, else it goes on where it did", () => {
  const long = '"a reason that is written out in full, so that whoever reads it knows what for"';
  becomes(
    `limit 65 lb of baggage,\n      bow\nrequire mass(wing) +\nmass(tail) <= 40 lb ${long}`,
    `limit 65 lb of baggage, bow\nrequire mass(wing) +\n  mass(tail) <= 40 lb ${long}`,
  );
});

test("comments stay where they are: above, behind, inside, and under a head whose brace comes later", () =>
  becomes(
    `//above
   // what lifts it
assembly wing // the wing
// more of it
{part spar//behind
   // last
}  // closed
let a=(3 lb+ // first
     // second
  4 lb)
loading solo { pilot 180 lb; wing_tank full } // alone`,
    `//above
// what lifts it
assembly wing { // the wing
  // more of it
  part spar //behind
  // last
} // closed
let a = (3 lb + // first
  // second
  4 lb)
loading solo {
  pilot 180 lb
  wing_tank full
} // alone`,
  ));

test("what an airframe installs keeps its word", () =>
  becomes(
    'airframe a serial 3 { remove b install part c weighed 1 lb;add part d { pn "D" } }\n',
    `airframe a serial 3 {
  remove b
  install part c weighed 1 lb
  add part d {
    pn "D"
  }
}
`,
  ));

test.each(["part spar weighed at", "assembly wing {", 'part a   "open', "part a ; ]"])(
  "a file with a fault in it is left alone: %s",
  fault => expect(formatted(`let a   = 3 lb\n${fault}\n`)).toBe(`let a   = 3 lb\n${fault}\n`),
);

describe("the edits", () => {
  const text = "part  a\npart b\nassembly c{part 𝒙  ;part d}\npart  e\n";
  const project = withText(emptyProject(["/"]), "/x.poise", text);

  test("replace only what differs, so that a cursor stays in its word", () => {
    expect(formatting(project, "/x.poise")).toEqual([
      { start: { line: 0, character: 5 }, end: { line: 0, character: 6 }, text: "" },
      {
        start: { line: 2, character: 10 },
        end: { line: 2, character: 27 },
        text: " {\n  part 𝒙\n  part d\n",
      },
      { start: { line: 3, character: 5 }, end: { line: 3, character: 6 }, text: "" },
    ]);
  });

  test("of a range are those of the lines it touches", () => {
    const from = (line: number, to: number, character: number) =>
      formatting(project, "/x.poise", {
        start: { line, character: 0 },
        end: { line: to, character },
      }).map(it => it.start.line);
    expect(from(1, 3, 0)).toEqual([2]);
    expect(from(2, 2, 1)).toEqual([2]);
    expect(from(3, 4, 0)).toEqual([3]);
    expect(from(1, 1, 6)).toEqual([]);
  });

  test("of a file that is not there are none", () =>
    expect(formatting(project, "/none.poise")).toEqual([]));
});

const texts = [...specs.values(), ...cases.flatMap(([, all]) => all.map(it => it.source))];

describe.each([100, 25])("at %i columns", columns => {
  test("every spec keeps its meaning, its words and its comments", () => {
    for (const text of texts) {
      const now = formatted(text, columns);
      expect(meaningOf(now)).toBe(meaningOf(text));
      expect(wordsOf(now)).toEqual(wordsOf(text));
    }
  });

  test("formatting twice is formatting once", () => {
    for (const text of texts) {
      const now = formatted(text, columns);
      expect(formatted(now, columns)).toBe(now);
    }
  });

  test("no row is replaced that stays as it is", () => {
    for (const text of texts)
      for (const { was, rows } of rowEdits(read("x.poise", text), columns))
        expect(rows).not.toEqual(was);
  });

  test("the aircraft of all examples keep their numbers and findings", () => {
    const judged = (textOf: (text: string) => string) => {
      let project = emptyProject(["/"]);
      for (const [path, text] of specs) project = withText(project, `/${path}`, textOf(text));
      const { roots, findings } = judge(project);
      const said = findings.map(it => `${it.at.line.file} ${it.code}: ${it.message}`).sort();
      return { reports: roots.map(reportOf), said };
    };
    expect(judged(it => formatted(it, columns))).toEqual(judged(it => it));
  });
});

test("however a spec was spaced and its lines were shared, it comes out the same", () => {
  const neat = texts.map(it => formatted(it));
  fc.assert(
    fc.property(fc.constantFrom(...neat), fc.infiniteStream(fc.nat(9)), (text, dice) => {
      expect(formatted(scattered(text, () => dice.next().value!))).toBe(text);
    }),
    { numRuns: 60 },
  );
});

test("comments put in anywhere stay in order, and change nothing else", () => {
  let put = 0;
  for (const text of texts) {
    let count = 0;
    const rows = text.split("\n").flatMap(row => {
      const behind = row.trim() === "" || row.includes("//") ? row : `${row} // ${count++}`;
      return count % 3 === 0 ? [`// ${count++}`, behind] : [behind];
    });
    const noted = rows.join("\n");
    if (faultsOf(read("x.poise", noted)).length > 0) continue;
    put += count;
    for (const columns of [100, 30]) {
      const now = formatted(noted, columns);
      expect(wordsOf(now)).toEqual(wordsOf(noted));
      expect(meaningOf(now)).toBe(meaningOf(noted));
      expect(formatted(now, columns)).toBe(now);
    }
  }
  expect(put).toBeGreaterThan(1000);
});
