import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { specs } from "../grammar/specs";
import { weigh } from "./oracle";

/** Airframes' files stand beside the design and are not of it. */
const designs = ["tests/fixtures/amphibian", "examples/dunlin", "examples/first-steps"];

describe("the sums are those of exact fractions over the same tree", () => {
  for (const folder of designs)
    test(folder, () => {
      const files = [...specs].filter(
        ([path, text]) => path.startsWith(`${folder}/`) && !text.includes("\nairframe "),
      );
      const oracle = weigh(files.map(([path, text]) => read(path, text).items));
      let project = emptyProject([folder]);
      for (const [path, text] of files) project = withText(project, path, text);
      const report = reportOf(judge(project).roots[0]!) as {
        assemblies: {
          path: string;
          basic: Mass;
          predicted: Mass;
          growth_kg: number;
          reserve_kg: number;
        }[];
      };
      let compared = 0;
      for (const { path, basic, predicted, growth_kg, reserve_kg } of report.assemblies) {
        if (path.includes("LH")) continue;
        const exact = oracle.get(path.replaceAll(".RH", ""))!;
        near(basic.mass_kg, exact.mass.valueOf());
        near(growth_kg, exact.growth.valueOf());
        near(reserve_kg, exact.reserve.valueOf());
        near(predicted.mass_kg, exact.mass.add(exact.growth).add(exact.reserve).valueOf());
        near(basic.cg_m[0], exact.fs.div(exact.mass).valueOf());
        near(basic.cg_m[1], exact.bl.div(exact.mass).valueOf());
        compared++;
      }
      expect(compared).toBe(oracle.size);
    });
});

interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly [number, number, number];
}

/** Relative 1e-12; of what cancels to nothing, a picometre or a picogram. */
function near(value: number, exact: number): void {
  expect(Math.abs(value - exact), `${value} against ${exact}`).toBeLessThanOrEqual(
    1e-12 * Math.max(1, Math.abs(exact)),
  );
}
