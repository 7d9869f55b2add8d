import { expect, test } from "vitest";
import { type Numbers, numbersOf } from "../compute/numbers";

/**
 * One spec, every independent error of it drawn anew each time: a record's once for all its pieces and
 * both sides, a let's once for all that use it, a common part once for the basis. `z` draws the errors.
 */
const spec = (z: () => number, spreads: boolean) => {
  const plus = (text: string) => (spreads ? text : "");
  const area = 11 * (1 + 0.02 * z());
  const sheet = 0.83 * (1 + 0.05 * z());
  const common = 0.04 * z();
  const scale = z();
  const onScale = (mass: number) =>
    mass + (0.05 + 0.001 * mass) * z() + (0.04 + 0.002 * mass) * scale;
  const own = (mass: number, share: number) => mass * (1 + share * z());
  const calculated = (mass: number) => mass * (1 + common + 0.03 * z());
  return `aircraft kite {
  units kg, m
  budget 137 kg
  ${plus("spread estimated 10%, quoted 2%, weighed 0.3%")}
}
let area = ${area} m^2 ${plus("± 2%")}
let sheet = ${sheet} kg/m^2 ${plus("± 5%")}
assembly wing ${plus("spread calculated 3% common 4%")} {
  part skin calculated ${1 + common + 0.03 * z()} * 2 * area * sheet at FS 3.2, WL 1
  part spar mirrored calculated ${calculated(9.4)} kg at FS 3, BL 1.8, WL 1.1
  assembly tip mirrored at FS 3.4, BL 4, WL 1 {
    part lamp estimated ${own(0.6, 0.1)} kg at FS 0, BL 0.2, WL 0
    part rib qty 3 calculated ${calculated(0.7)} kg at FS 0.1, BL 0, WL 0
  }
}
assembly body {
  part engine quoted ${own(62, 0.02)} kg at FS 1, BL 0.1, WL 0.9
  part cover estimated ${2 * (1 + 0.1 * z())} * 0.4 * sheet * 1 m^2 at FS 1.4, WL 1
  part battery weighed ${8.1 + (0.05 + 0.001 * 8.1) * z()} kg ${plus("± 0.05 kg + 0.1%")} at FS 4, BL -0.2, WL 0.6
  assembly seat weighed ${12 * (1 + 0.003 * z())} kg { part pan quoted 11 kg at FS 2, BL -0.3, WL 0.5 }
}
assembly gear ${plus("spread weighed 0.05 kg + 0.1% common 0.04 kg + 0.2%")} {
  part leg mirrored weighed ${onScale(3.1)} kg at FS 1.9, BL 0.8, WL 0.3
  part wheel qty 3 weighed total ${onScale(3.8)} kg at FS 0.7, BL 0, WL 0.1
}
`;
};

const still = numbersOf(spec(() => 0, true));
const assemblyOf = (numbers: Numbers, path: string) =>
  numbers.assemblies.find(it => it.path === path)!;

test("spreads are those of the same spec weighed many times (seeded Monte Carlo)", () => {
  const draw = normal(20261125);
  const paths = ["", "wing", "wing.tip.RH", "body", "gear"];
  const seen = new Map(paths.map(path => [path, [[], [], [], []] as number[][]]));
  for (let i = 0; i < 3000; i++) {
    const numbers = numbersOf(spec(draw, false));
    for (const [path, columns] of seen) {
      const { basic } = assemblyOf(numbers, path);
      [basic.mass_kg, ...basic.cg_m].forEach((x, k) => void columns[k]!.push(x));
    }
  }
  for (const [path, columns] of seen) {
    const { spread_kg, cg_spread_m } = assemblyOf(still, path);
    [spread_kg, ...cg_spread_m].forEach((ours, k) => {
      const theirs = deviation(columns[k]!);
      // a deviation from 3,000 draws is good to 1.3 %; four of those, and what is second order
      if (theirs > 1e-6) expect(Math.abs(ours! / theirs - 1), `${path} ${k}`).toBeLessThan(0.06);
      else expect(ours).toBeLessThan(1e-6);
    });
  }
  const over = seen.get("")![0]!.filter(mass => mass > 137).length / 3000;
  const { chance_over } = assemblyOf(still, "");
  // four deviations of a share counted in 3,000 draws
  expect(Math.abs(chance_over! - over)).toBeLessThan(4 * Math.sqrt((over * (1 - over)) / 3000));
  expect(over).toBeGreaterThan(0.05);
});

function deviation(values: readonly number[]): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1));
}

/** Two uniform numbers make a normal one (Box and Muller 1958); mulberry32 for the uniform ones. */
function normal(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
