import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";

interface Mass {
  readonly mass_kg: number;
  readonly cg_m: readonly (number | null)[];
  readonly complete: boolean;
}

function parts(spec: string): Record<"basic" | "predicted", Mass> {
  const text = `aircraft kite { units kg, m }\n${spec}`;
  const judged = judge(withText(emptyProject(["/specs"]), "/specs/kite.poise", text));
  return (reportOf(judged.roots[0]!) as { parts: Record<"basic" | "predicted", Mass> }).parts;
}

test("a reserve in an assembly without a CG has its mass, and no place that anyone knows", () => {
  const { basic, predicted } = parts(
    "part keel weighed 30 kg at FS 2, WL 1\nassembly wiring { reserve looms 10 kg }\n",
  );
  expect(basic).toMatchObject({ mass_kg: 30, cg_m: [2, 0, 1], complete: true });
  // of what has a place, and marked: never drawn towards FS 0
  expect(predicted).toMatchObject({ mass_kg: 40, cg_m: [2, 0, 1], complete: false });
});

test("a reserve alone has no CG at all", () => {
  const { predicted } = parts("assembly wiring { reserve looms 10 kg }\n");
  expect(predicted).toMatchObject({ mass_kg: 10, cg_m: [null, null, null], complete: false });
});

test("a reserve among parts of unknown place has none either", () => {
  const { predicted } = parts(
    "part keel weighed 30 kg at FS 2\nassembly wiring { part bus weighed 5 kg\nreserve looms 10 kg }\n",
  );
  expect(predicted.mass_kg).toBe(45);
  expect(predicted.cg_m[0]).toBe(2);
  expect(predicted.complete).toBe(false);
});
