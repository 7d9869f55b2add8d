import { eigs, matrix } from "mathjs";
import { expect, test } from "vitest";
import { principalOf } from "../../server/compute/principal";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { check } from "../fixture";
import { type Numbers, numbersOf } from "./numbers";

const inertia = (parts: string) =>
  numbersOf(`aircraft kite { units kg, m }\n${parts}`).parts.basic.inertia_kg_m2;

test("a box, a cylinder, a tube, a sphere and a rod about their centres", () => {
  // m (h² + d²) / 12 and so on: any table of moments of inertia; figures worked by hand
  const box = inertia("part p weighed 12 kg at FS 5, BL 0, WL 1 shape box 2 m, 3 m, 4 m");
  expect([box.Ixx, box.Iyy, box.Izz].map(round)).toEqual([25, 20, 13]);
  const cylinder = inertia("part p weighed 10 kg at FS 5, WL 1 shape cylinder 1 m, 2 m along WL");
  expect([cylinder.Izz, cylinder.Ixx].map(round)).toEqual([1.25, 3.958333333]);
  const tube = inertia("part p weighed 8 kg at FS 5, WL 1 shape tube 1 m, 0.5 m, 3 m along BL");
  // m (D² + d²) / 8 about the axis; half of that and m L² / 12 across
  expect([tube.Iyy, tube.Ixx].map(round)).toEqual([1.25, 6.625]);
  const sphere = inertia("part p weighed 5 kg at FS 5, WL 1 shape sphere 0.6 m");
  expect([sphere.Ixx, sphere.Iyy, sphere.Izz].map(round)).toEqual([0.18, 0.18, 0.18]);
  const rod = inertia("part p weighed 3 kg span FS 0, BL 0, WL 0 .. FS 2, BL 0, WL 0");
  expect([rod.Ixx, rod.Iyy, rod.Izz].map(round)).toEqual([0, 1, 1]);
});

test("two points lie about their common CG, with the sign of ∫xy dm", () => {
  const points = `part a weighed 1 kg at FS 0, BL -1, WL 0
part b weighed 1 kg at FS 2, BL 1, WL 0`;
  const it = inertia(points);
  // each 1 m off in FS and in BL: ∫x² = ∫y² = ∫xy = 2
  expect(it).toEqual({ Ixx: 2, Iyy: 2, Izz: 4, Ixy: 2, Ixz: 0, Iyz: 0 });
});

test("a mirrored thing has no product with BL, and twice everything else", () => {
  const half =
    "weighed 2 kg at FS 1, BL 3, WL 2 inertia Ixx 1 kg m^2, Iyy 2 kg m^2, Izz 2.5 kg m^2";
  const it = inertia(`part p mirrored ${half}, Ixy 0.3 kg m^2, Ixz 0.1 kg m^2, Iyz 0.2 kg m^2`);
  expect(round(it.Ixx)).toBe(2 * 1 + 2 * 2 * 9);
  expect(round(it.Ixz)).toBe(0.2);
  expect([it.Ixy, it.Iyz].map(round)).toEqual([0, 0]);
});

test("inertia grows as the mass does, and scales with an assembly weighed as a whole", () => {
  const of = (clause: string) => `aircraft kite { units kg, m }
assembly box growth calculated 50% ${clause} {
  part a calculated 1 kg at FS 0, WL 0 shape sphere 1 m
  part b calculated 1 kg at FS 2, WL 0
}`;
  const { basic, predicted } = numbersOf(of("")).parts;
  expect(round(predicted.inertia_kg_m2.Iyy)).toBe(round(1.5 * basic.inertia_kg_m2.Iyy));
  const weighed = numbersOf(of("weighed 3 kg")).parts.basic;
  expect(round(weighed.inertia_kg_m2.Iyy)).toBe(round(1.5 * basic.inertia_kg_m2.Iyy));
});

test("where a WL is not known, the vertical CG and the inertia say so", () => {
  const { basic } = numbersOf(`aircraft kite { units kg, m }
part a weighed 1 kg at FS 0, WL 0
part b weighed 1 kg at FS 2`).parts;
  expect(basic.complete).toBe(true);
  expect(basic.cg_complete).toEqual([true, true, false]);
  expect(basic.inertia_complete).toBe(false);
});

test("what is wrong with a shape leaves the inertia incomplete, not a point", () => {
  for (const body of ["shape box 1 m, 2 m", "inertia Ixx 1 kg m^2, Iyy 1 kg m^2, Izz 5 kg m^2"]) {
    const text = `aircraft kite { units kg, m }
part a weighed 1 kg at FS 0, WL 0 ${body}
part b weighed 1 kg at FS 2, WL 0`;
    const project = withText(emptyProject(["/specs"]), "/specs/kite.poise", text);
    const { parts } = reportOf(judge(project).roots[0]!) as unknown as Numbers;
    expect(parts.basic.inertia_complete).toBe(false);
  }
});

test("a whole knows no more than its parts: as much of it has no WL", () => {
  const { basic } = numbersOf(`aircraft kite { units kg, m }
assembly box weighed 4 kg {
  part a weighed 1 kg at FS 0, WL 1
  part b weighed 1 kg at FS 2
}`).parts;
  expect(basic.cg_m).toEqual([1, 0, 1]);
  expect(basic.cg_complete).toEqual([true, true, false]);
  expect(basic.inertia_complete).toBe(false);
});

test("principal axes are those of a general library", () => {
  for (const it of [
    { Ixx: 9496, Iyy: 55814, Izz: 63100, Ixy: 0, Ixz: 982, Iyz: 0 },
    { Ixx: 3, Iyy: 4, Izz: 5, Ixy: 0.5, Ixz: -0.2, Iyz: 0.7 },
    { Ixx: 2, Iyy: 2, Izz: 2, Ixy: 0, Ixz: 0, Iyz: 0 },
  ]) {
    const tensor = matrix([
      [it.Ixx, -it.Ixy, -it.Ixz],
      [-it.Ixy, it.Iyy, -it.Iyz],
      [-it.Ixz, -it.Iyz, it.Izz],
    ]);
    const theirs = (eigs(tensor).values.valueOf() as number[]).sort((a, b) => a - b);
    const ours = principalOf(it);
    ours.forEach(({ moment, axis }, i) => {
      expect(Math.abs(moment / theirs[i]! - 1)).toBeLessThan(1e-12);
      // an axis is one: turning about it takes no moment across it
      const [x, y, z] = axis;
      const across = [
        it.Ixx * x - it.Ixy * y - it.Ixz * z - moment * x,
        -it.Ixy * x + it.Iyy * y - it.Iyz * z - moment * y,
        -it.Ixz * x - it.Iyz * y + it.Izz * z - moment * z,
      ];
      expect(Math.hypot(...across)).toBeLessThan(1e-9 * it.Izz);
    });
  }
});

test("products larger than the moments allow are told", () => {
  check(`aircraft kite { units kg, m }
part p weighed 5 kg at FS 1 inertia Ixx 1 kg m^2, Iyy 1 kg m^2, Izz 1 kg m^2, Ixy 0.9 kg m^2
//                          ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[inertia-impossible]: no body has this inertia: its products are larger than its moments allow
`);
});

test("a shape says all its sizes, and which way it lies", () => {
  check(`aircraft kite { units kg, m }
part p weighed 5 kg at FS 1 shape box 1 m, 2 m
//                          ^^^^^^^^^^^^^^^^^^ error[syntax]: a box is given by its length along FS, width along BL, height along WL
part q weighed 5 kg at FS 1 shape tube 1 m, 2 m, 3 m along FS
//                          ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[out-of-range]: a tube is wider outside than inside
part r weighed 5 kg at FS 1 shape cylinder 1 m, 2 m
//                          ^^^^^^^^^^^^^^^^^^^^^^^ error[syntax]: a cylinder lies along FS, BL or WL: write along and which
`);
});

const round = (x: number) => Number(x.toPrecision(10));
