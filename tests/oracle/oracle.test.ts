import type Fraction from "fraction.js";
import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { faultsOf, specs } from "../grammar/specs";
import { weigh } from "./oracle";
import { axes, centre, plus, type Sum } from "./sums";

describe("the sums are those of exact fractions over the same tree", () => {
  // airframes' files stand beside the design and are not of it
  const folders = new Set([...specs.keys()].map(path => path.replace(/\/[^/]*$/, "")));
  for (const folder of folders)
    test(folder, () => {
      compare(
        [...specs].filter(
          ([path, text]) => path.startsWith(`${folder}/`) && !text.includes("\nairframe "),
        ),
      );
    });

  test("a mirrored assembly in a frame, and a frame to one side", () => {
    agree(`assembly outer mirrored at FS 100, BL 20, WL 5 {
  part rib calculated 3 lb at FS 1, BL 2, WL 3
  assembly float at FS 10, BL -30 { part shell quoted 7 lb at FS 1, BL 1, WL 1; part wire estimated 1 lb at FS 2 }
}
assembly left_shelf at FS 50, BL -12, WL 9 {
  part radio weighed 2 lb at FS 1, BL 1
  part strap mirrored calculated 1 lb at FS 1, BL 1, WL 1
}`);
  });

  test("records: the most mature, then the latest, then the last; history counts nothing", () => {
    agree(`part a { calculated 3 lb on 2026-02-01; calculated 4 lb; calculated 5 lb on 2026-01-01; at FS 1 }
part b { estimated 3 lb on 2026-03-01; quoted 2 lb; was weighed 9 lb; at FS 2, WL 2 }
part c { weighed 1.1 lb; weighed 1.3 lb; weighed 1.2 lb on 2025-01-01; estimated 8 lb; at FS 3 }
part d { calculated 1 lb rev "A"; estimated 2 lb rev "B"; rev "B"; at FS 4 }
part e { quoted 5 lb effective 4 ..; weighed 6 lb effective .. 3; at FS 5 }`);
  });

  test("the nearest growth of each basis, down to the part's own", () => {
    agree(`assembly outer growth estimated 35% {
  part a estimated 10 lb at FS 1
  part b calculated 10 lb at FS 2
  part c weighed 10 lb at FS 3
  assembly inner growth 12% {
    part d estimated 10 lb at FS 4
    part e quoted 10 lb at FS 5
    part f calculated 10 lb growth 1% at FS 6
    part g weighed 10 lb at FS 7
  }
}`);
  });

  test("a weighed assembly keeps the CG of its parts, and its reserves", () => {
    agree(`assembly outer mirrored {
  assembly rudder weighed 12 lb at FS 200 {
    part spar estimated 3 lb at FS 1, BL 2, WL 30
    part skin calculated 5 lb at FS 7, BL 1
    reserve paint 1 lb
    reserve lead 2 lb at FS -5, WL 4
  }
  part bolt quoted 1 lb at FS 210
}`);
  });

  test("moments, totals, spans and places not known", () => {
    agree(`part engine quoted 100 lb moment 14000 lb in at FS 139, WL 80
part hinges qty 6 mirrored quoted total 9 lb at FS 140, BL 33, WL 2
part rivets qty 40 quoted 1 g moment total 12 lb in at BL 3
part cable calculated 2 lb span FS 10, BL 4, WL 6 .. FS 90, BL -8
part somewhere estimated 4 lb
part too estimated 5 lb at FS
ballast lead 6 lb at FS 8, WL 16
ballast shot { estimated 3 lb; at FS 9 }
reserve water 4 lb at FS 140, WL 18
reserve undrawn 8 lb`);
  });

  test("lets are reckoned where they stand, choices take the default", () => {
    agree(`let t = 0.040 in
let area = 3 ft * 2 ft 3 1/2 in
let gone = area * t
assembly wing growth calculated 7% {
  let t = 0.063 in
  part inner calculated gone * 0.1 lb/in^3 at FS 10 + 2, WL t * 100
  part outer calculated max(area * t, gone) * 0.1 lb/in^3 - 3 oz / 4 at FS 1 ft + t, BL -(2 in)
}
choice fit default heavy {
  option light { part wing.battery quoted 8 lb at FS 20 }
  option heavy {
    let cells = 6
    part wing.battery calculated cells * 3.5 lb at FS t * 1000
    ballast lead 2 lb 3 oz at FS 3
    assembly wing.shelf { part tray estimated 1 lb at FS 22 }
  }
}
choice skid { option first { part skid weighed 1 lb at FS 200 }; option second { part skid weighed 9 lb at FS 1 } }`);
  });

  test("a part that is effective for earlier airframes only is not of the design", () => {
    agree(`part old effective .. 3 weighed 5 lb at FS 1
part new effective 4 .. weighed 6 lb at FS 2`);
  });
});

function agree(text: string): void {
  const head = `aircraft odd {\n  units lb, in, gal\n  growth estimated 18%, calculated 6%, quoted 3%\n}\n`;
  compare([["/odd/odd.poise", `${head}${text}\n`]]);
}

interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly (number | null)[];
}
interface Report {
  readonly assemblies: readonly {
    readonly path: string;
    readonly basic: Mass;
    readonly growth_kg: number;
    readonly reserve_kg: number;
    readonly predicted: Mass;
  }[];
}

function compare(files: readonly (readonly [string, string])[]): void {
  const sources = files.map(([path, text]) => read(path, text));
  expect(sources.flatMap(faultsOf).map(it => it.message)).toEqual([]);
  const oracle = weigh(sources.map(source => source.items));
  let project = emptyProject([files[0]![0].replace(/\/[^/]*$/, "")]);
  for (const [path, text] of files) project = withText(project, path, text);
  const { assemblies } = reportOf(judge(project).roots[0]!) as unknown as Report;
  expect(assemblies.map(it => it.path).sort()).toEqual([...oracle.keys()].sort());
  for (const { path, basic, growth_kg, reserve_kg, predicted } of assemblies) {
    const exact = oracle.get(path)!;
    const whole = [exact.growth, exact.reserve].reduce(plus, exact.basic);
    same(basic, exact.basic, `${path} basic`);
    near(growth_kg, exact.growth.mass, `${path} growth`);
    near(reserve_kg, exact.reserve.mass, `${path} reserve`);
    same(predicted, whole, `${path} predicted`);
  }
}

function same({ mass_kg, cg_m }: Mass, sum: Sum, what: string): void {
  near(mass_kg, sum.mass, what);
  const at = centre(sum);
  for (const [i, axis] of axes.entries()) {
    const value = cg_m[i];
    const exact = at[axis];
    if (value === null || value === undefined || exact === undefined)
      expect(value ?? undefined, `${what} ${axis}`).toBe(exact);
    else near(value, exact, `${what} ${axis}`);
  }
}

/** Relative 1e-12; where moments cancel to next to nothing, a picometre. */
function near(value: number, exact: Fraction, what: string): void {
  const wanted = exact.valueOf();
  const off = Math.abs(value - wanted);
  expect(off, `${what}: ${value} against ${wanted}`).toBeLessThanOrEqual(
    1e-12 * (Math.abs(wanted) > 1e-3 ? Math.abs(wanted) : 1),
  );
}
