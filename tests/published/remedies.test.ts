import { expect, test } from "vitest";
import { movesToTarget } from "../../server/compute/assembly-remedies";
import { flightsOf } from "../../server/compute/flights";
import { type Remedy, remediesOf } from "../../server/compute/remedies";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";

const [LB, INCH] = [0.45359237, 0.0254];
const rootOf = (spec: string) => {
  const text = `aircraft kite { units lb, in, gal }\n${spec}`;
  return judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text)).roots[0]!.root;
};
const by = (remedy: Remedy | undefined) => (remedy && "by" in remedy ? remedy.by : Number.NaN);

// FAA-H-8083-1B (2016), ch. 7, permanent ballast: read in part, the back-check from memory
test("FAA-H-8083-1B, ch. 7: permanent ballast of 7.7 lb", () => {
  const root = rootOf(`
part empty_aircraft weighed 1876 lb at FS 32.2
ballast tail 0 lb at FS 228
envelope normal { cg 1500 lb: FS 33.0 .. 47.3; cg 2600 lb: FS 33.0 .. 47.3 }
loading empty_aircraft under normal { bag 0 lb }
bay bag at FS 95
`);
  const found = by(remediesOf(root, flightsOf(root)[0]!, "cg-forward")[0]) / LB;
  expect(Math.abs(found - 7.7)).toBeLessThanOrEqual(0.05);
  // weight × distance out ÷ distance from the ballast to the limit
  expect(found).toBeCloseTo((1876 * (33 - 32.2)) / (228 - 33), 9);
  // the handbook's back-check: 7.696… lb there bring the CG to the limit
  expect((1876 * 32.2 + found * 228) / (1876 + found)).toBeCloseTo(33, 9);
});

// FAA-H-8083-1B (2016), ch. 2, shifting the CG of the plank: from memory
test("FAA-H-8083-1B, ch. 2: 200 lb of 500 lb moved 55 in shift the CG by 22 in", () => {
  // 500 lb in all, of which 200 lb are moved to bring the CG 22 in aft: 55 in
  const root = rootOf(`
assembly plank {
  cg FS 94 .. 200
  part rest weighed 300 lb at FS 72
  part moved weighed 200 lb at FS 72
}
`);
  const plank = root.aircraft.members[0]!;
  const moves = plank.kind === "assembly" ? movesToTarget(root, plank) : [];
  const moved = moves.find(it => it.kind === "move" && it.part.name === "moved");
  expect(by(moved) / INCH).toBeCloseTo(55, 9);
});
