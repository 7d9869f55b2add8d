import { expect, test } from "vitest";
import { positionsOf, textOf } from "../../grammar/source";
import { actions } from "../../server/features/actions";
import { judge } from "../../server/judge";
import { emptyProject, type Project, sourceOf, withEdit, withText } from "../../server/project";

const AT = "/specs/kite.poise";
const everything = {
  start: { line: 0, character: 0 },
  end: { line: 1000, character: 0 },
};
const kite = (spec: string) =>
  withText(emptyProject(["/specs"]), AT, `aircraft kite { units lb, in, gal }\n${spec}`);
const all = (project: Project) => actions(project, AT, everything);
const offered = (project: Project) =>
  all(project).filter(it => it.finding.code !== "loading-can-exceed");
const titles = (spec: string) => offered(kite(spec)).map(it => it.title);

/** The row that an action changes, as it reads afterwards. */
function applied(spec: string, index = 0): Project {
  const project = kite(spec);
  const { at, text } = offered(project)[index]!.edits[0]!;
  const { start, end } = positionsOf(sourceOf(project, AT)!, at);
  return withEdit(project, AT, start, end, text);
}
/** A loading is mended; that another one may leave the envelope is another finding. */
const found = (project: Project) =>
  judge(project)
    .findings.map(it => it.code)
    .filter(code => code !== "loading-can-exceed");

const aftHeavy = `
part airframe weighed 900 lb at FS 100
bay baggage at FS 140 range 0 lb .. 100 lb
envelope normal { takeoff 1150 lb; cg 800 lb: FS 95 .. 102; cg 1200 lb: FS 95 .. 102 }
loading aft_heavy under normal { baggage 100 lb }
`;

test("less baggage, by just so much that the CG is on its limit", () => {
  // (900 × 100 + b × 140) / (900 + b) = 102: b = 900 × 2 / 38 = 47.37 lb
  expect(titles(aftHeavy)).toEqual(["Lower baggage from 100 lb to 47.3 lb"]);
  const project = applied(aftHeavy);
  expect(textOf(sourceOf(project, AT)!)).toContain("{ baggage 47.3 lb }");
  expect(found(project)).toEqual([]);
});

test("ballast, a bay that may take more, and less of what is loaded: the smallest change first", () => {
  const spec = `
part airframe weighed 900 lb at FS 100
ballast nose 6 lb at FS 10
bay locker at FS 40 range 0 lb .. 40 lb
bay baggage at FS 140 range 0 lb .. 100 lb
envelope normal { takeoff 1150 lb; cg 800 lb: FS 95 .. 102; cg 1200 lb: FS 95 .. 102 }
loading two under normal {
  baggage 80 lb
}
`;
  expect(titles(spec)).toEqual([
    "Raise ballast nose from 6 lb to 13.5 lb",
    "Load 11.1 lb into locker",
    "Lower baggage from 80 lb to 61.8 lb",
  ]);
  expect(textOf(sourceOf(applied(spec, 1), AT)!)).toContain(
    "loading two under normal {\n  locker 11.1 lb\n  baggage 80 lb\n}",
  );
  for (const i of [0, 1, 2]) expect(found(applied(spec, i))).toEqual([]);
});

test("a limit that slopes with the weight", () => {
  const spec = `
part airframe weighed 900 lb at FS 100
ballast nose 0 lb at FS 10
envelope normal { cg 800 lb: FS 90 .. 98; cg 1200 lb: FS 90 .. 102 }
loading bare under normal { baggage 0 lb }
bay baggage at FS 140 range 0 lb .. 100 lb
`;
  // 90000 + 10 x = (98 + (100 + x) / 100) (900 + x): x² / 100 + 98 x − 900 = 0, x = 9.175
  expect(titles(spec)).toEqual(["Raise ballast nose from 0 lb to 9.2 lb"]);
});

test("nothing below a range, nothing that breaks another limit, and nothing taken apart", () => {
  const held = aftHeavy.replace("range 0 lb", "range 60 lb");
  expect(titles(held)).toEqual([]);
  expect(titles(`limit 10 lb of nose\nbay nose at FS 30 range 0 lb .. 90 lb${aftHeavy}`)).toEqual([
    "Lower baggage from 100 lb to 47.3 lb",
  ]);
  expect(
    titles(`let most = 100 lb${aftHeavy.replace("{ baggage 100 lb", "{ baggage most")}`),
  ).toEqual([]);
});

test("too heavy: less fuel, in the words it was loaded with", () => {
  const spec = `
fluid mogas 6 lb/gal
part airframe weighed 900 lb at FS 100
tank wing mirrored holds 20 gal of mogas unusable 1 gal at FS 100, BL 40
envelope normal { takeoff 1050 lb; cg 800 lb: FS 95 .. 102; cg 1200 lb: FS 95 .. 102 }
loading full under normal { wing total 30 gal usable; burn wing }
`;
  expect(titles(spec)).toEqual(["Lower wing from 30 gal to 23 gal"]);
  expect(titles(spec.replace("total 30 gal usable", "full"))).toEqual([
    "Lower wing from 20 gal to 12.5 gal",
  ]);
});

test("a burn that leaves the envelope on its way", () => {
  const spec = `
fluid mogas 6 lb/gal
part airframe weighed 900 lb at FS 100
ballast nose 0 lb at FS 10
tank aux holds 30 gal of mogas {
  at FS 130
  filled 15 gal at FS 124
  filled 30 gal at FS 100
}
envelope normal { cg 800 lb: FS 95 .. 101.5; cg 1200 lb: FS 95 .. 101.5 }
loading long under normal { aux full; burn aux }
`;
  // at 15 gal: (90000 + 90 × 124) / 990 = 102.18: 990 × 0.6818 / 91.5 = 7.38 lb
  expect(titles(spec)[0]).toBe("Raise ballast nose from 0 lb to 7.4 lb");
  expect(found(applied(spec))).toEqual([]);
});

test("an assembly's CG: how far one part must move", () => {
  const spec = `
assembly electrical at FS 60 {
  cg FS 124 .. 136
  part bus calculated 30 lb at FS 50
  part battery calculated 20 lb at FS 100
}
`;
  // (30 × 110 + 20 × 160) / 50 = 130 in: inside
  expect(titles(spec)).toEqual([]);
  // 125 would take 50 × 5 / 20 = 12.5 in of the battery, 8.3 in of the bus
  expect(titles(spec.replace("124 .. 136", "124 .. 125"))).toEqual([
    "Move electrical.bus from FS 50 to FS 41.6",
    "Move electrical.battery from FS 100 to FS 87.5",
  ]);
});

test("equipment may move, structure may not", () => {
  const spec = aftHeavy.replace(
    "bay baggage",
    "part battery kind required weighed 20 lb at FS 200\npart tail kind structure weighed 30 lb at FS 130\nbay baggage",
  );
  expect(titles(spec).filter(it => it.startsWith("Move"))).toEqual([]);
  const lighter = spec.replace("baggage 100 lb", "baggage 20 lb");
  expect(titles(lighter)).toEqual(["Move battery from FS 200 to FS 112"]);
});

test("an overtaken record becomes history", () => {
  const spec = `
part frame {
  weighed 6.9 lb on 2026-06-14
  calculated 7.3 lb on 2026-09-01
  at FS 124
}
`;
  expect(titles(spec)).toEqual(["Keep the older record as history (was)"]);
  expect(textOf(sourceOf(applied(spec), AT)!)).toContain("  was weighed 6.9 lb on 2026-06-14");
});

test("mass cannot be edited away", () => {
  expect(titles("assembly wing budget 4 lb {\n  part spar calculated 5 lb at FS 1\n}")).toEqual([]);
});

test("beside the plane of symmetry: a weight on the other side", () => {
  const spec = `
part airframe weighed 900 lb at FS 100, BL 1
ballast tip 0 lb at FS 100, BL -60
envelope normal { cg 800 lb: FS 95 .. 102; cg 1200 lb: FS 95 .. 102; lateral BL -0.5 .. 0.5 }
loading bare under normal { bag 0 lb }
bay bag at FS 100
`;
  // 900 × 0.5 / 60.5 = 7.44 lb
  expect(titles(spec)).toEqual(["Raise ballast tip from 0 lb to 7.5 lb"]);
});

test("figures keep the unit they were written in", () => {
  const project = withText(
    emptyProject(["/specs"]),
    AT,
    `aircraft kite { units kg, mm, L }
assembly electrical {
  cg FS 1.9 m .. 2 m
  part bus calculated 12 kg at FS 2200
  part battery calculated 10 kg at FS 1.7 m
}
`,
  );
  // the CG is at (12 × 2200 + 10 × 1700) / 22 = 1972.7 mm: inside; 40 mm back takes 73.3 mm or 88 mm
  expect(offered(project)).toEqual([]);
  const text = textOf(sourceOf(project, AT)!).replace("1.9 m .. 2 m", "1.9 m .. 1.93 m");
  const moves = offered(withText(project, AT, text)).map(it => it.title);
  // 42.727 mm × 22 kg: 78.3 mm of the bus, 94 mm of the battery
  expect(moves).toEqual([
    "Move electrical.bus from FS 2200 to FS 2121.6",
    "Move electrical.battery from FS 1.7 m to FS 1.606 m",
  ]);
});

test("a choice of what is waived, and of a place where something is unknown: none", () => {
  expect(titles(aftHeavy.replace("bay baggage", "part radio at FS 40\nbay baggage"))).toEqual([]);
  const off = `
assembly electrical {
  cg FS 124 .. 125
  part bus calculated 30 lb at FS 110
}
`;
  expect(titles(off)).toHaveLength(1);
  expect(titles(`${off}waive cg-off-target of electrical "agreed"\n`)).toEqual([]);
});

test("an envelope that can be left: the loading that leaves it, written down and judged", () => {
  const project = kite(aftHeavy.replace("100 lb }", "10 lb }"));
  const [write] = all(project);
  expect(write!.title).toBe("Write the loading that leaves normal down, as normal_aft");
  const { at, text } = write!.edits[0]!;
  const { start, end } = positionsOf(sourceOf(project, AT)!, at);
  const next = withEdit(project, AT, start, end, text);
  const findings = judge(next).findings;
  expect(findings.map(it => it.code)).toEqual(["loading-can-exceed", "cg-aft"]);
  expect(findings[1]!.message).toMatch(/^normal_aft at takeoff/);
});
