import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import published from "./published.json";

interface Point {
  readonly name: string;
  readonly scale: number;
  readonly tare?: number;
  readonly arm: number;
}
interface Entry {
  readonly id: string;
  readonly kind: string;
  readonly source: string;
  readonly inputs: {
    readonly points?: readonly Point[];
    readonly [key: string]: unknown;
  };
  readonly expected: Readonly<Record<string, number>>;
}

const all = published as unknown as readonly Entry[];

/** The basic empty weight of an airframe that was weighed so: lb, in. */
function emptyOf(weighing: string, fuel = ""): { lb: number; fs: number } {
  const text = `aircraft plane { units lb, in, gal }
part hull calculated 1 lb at FS 0
${fuel}
airframe sn1 { }
weighing first of sn1 on 2026-11-12 {
${weighing}
}
`;
  const judged = judge(withText(emptyProject(["/"]), "/plane.poise", text));
  expect(judged.findings.filter(it => it.severity === "error")).toEqual([]);
  const report = reportOf(judged.roots[1]!) as {
    empty: { basic: { mass_kg: number; cg_m: number[] } };
  };
  const { mass_kg, cg_m } = report.empty.basic;
  return { lb: mass_kg / 0.45359237, fs: cg_m[0]! / 0.0254 };
}

const entry = (id: string): Entry => {
  const found = all.find(it => it.id === id);
  expect(found, id).toBeDefined();
  return found!;
};
const scales = (points: readonly Point[]) =>
  points
    .map((it, i) => `  scale p${i} at FS ${it.arm} reads ${it.scale} lb tare ${it.tare ?? 0} lb`)
    .join("\n");

test("FAA-H-8083-30, figures 4-20 and 4-21 (read in part, the rest from memory): tare, fuel out, unusable in", () => {
  // the points' nets are 645, 635 and 222.5 lb; 30 gal at 5.9 lb/gal are out at FS 95, and 6 lb that cannot
  // be used are in at FS 98: 1,331.5 lb at 50.1 in
  const fuel = `fluid fuel 5.9 lb/gal
tank main holds 50 gal of fuel unusable 6 lb at FS 98 at FS 95`;
  const { lb, fs } = emptyOf(
    `${scales([
      { name: "left main", scale: 650, tare: 5, arm: 70 },
      { name: "right main", scale: 640, tare: 5, arm: 70 },
      { name: "nose", scale: 225, tare: 2.5, arm: -30 },
    ])}
  aboard main 30 gal`,
    fuel,
  );
  expect(lb).toBeCloseTo(1331.5, 9);
  expect(Math.abs(fs - 50.1)).toBeLessThan(0.05);
});

test("European question bank: nose and two mains", () => {
  const { inputs, expected } = entry("JAR-weigh");
  const { lb, fs } = emptyOf(scales(inputs.points!));
  expect(lb).toBeCloseTo(expected["total_weight"]!, 9);
  expect(Math.abs(fs - expected["cg"]!)).toBeLessThan(0.005);
});

test("FAA-H-8083-1, chapter 3 (from memory): nose wheel, datum ahead: CG = D − F L ÷ W", () => {
  const { inputs, expected } = entry("WBH-EWCG-a");
  const { D_in, F_lb, L_in, W_lb } = inputs as Record<string, number>;
  const { lb, fs } = emptyOf(
    scales([
      { name: "nose", scale: F_lb!, arm: D_in! - L_in! },
      { name: "main", scale: W_lb! - F_lb!, arm: D_in! },
    ]),
  );
  expect(lb).toBeCloseTo(W_lb!, 9);
  expect(Math.abs(fs - expected["cg_in"]!)).toBeLessThan(0.05);
});

test("FAA-H-8083-1, chapter 3 (from memory): tail wheel, datum ahead: CG = D + R L ÷ W", () => {
  const { inputs, expected } = entry("WBH-EWCG-c");
  const { D_in, R_lb, L_in, W_lb } = inputs as Record<string, number>;
  const { fs } = emptyOf(
    scales([
      { name: "tail", scale: R_lb!, arm: D_in! + L_in! },
      { name: "main", scale: W_lb! - R_lb!, arm: D_in! },
    ]),
  );
  expect(Math.abs(fs - expected["cg_in"]!)).toBeLessThan(0.05);
});
