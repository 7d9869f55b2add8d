import type { Sums } from "../../server/compute/stretch";
import { judge } from "../../server/judge";
import type { Envelope } from "../../server/model/envelope";
import { emptyProject, withText } from "../../server/project";

/** An envelope as an author writes it, in kg and m; the chord runs from FS 2 to FS 3. */
export function envelope(rows: string): Envelope {
  const text = `aircraft kite { units kg, m, L mac at FS 2 length 1 }\nenvelope normal {\n${rows}\n}\n`;
  const { roots } = judge(withText(emptyProject(["/"]), "/kite.poise", text));
  return roots[0]!.root.envelopes[0]!;
}

/** A mass (kg) with everything placed, by its CG (m). */
export const sums = (mass: number, fs: number, bl = 0): Sums => ({
  mass,
  ...{ fsMoment: mass * fs, fsMass: mass, blMoment: mass * bl, blMass: mass },
});
