import type { Cap } from "./holders";
import type { Pieces, Raise } from "./pieces";
import { simplex } from "./simplex";

/** As raiseGreedily, for caps that overlap in any way. */
export function raiseByProgram(pieces: Pieces, caps: readonly Cap[]): Raise {
  const { curves, holder, length, slope } = pieces;
  const rowsOf = curves.map((_, i) => [...caps.keys()].filter(k => caps[k]!.of.includes(i)));
  const room = Float64Array.from(caps, cap => cap.most);
  const maximize = simplex({ bound: length, group: holder, rowsOf, room });
  const worth = new Float64Array(slope.length);
  const raised = new Float64Array(curves.length);
  return (u, v) => {
    for (let j = 0; j < worth.length; j++) worth[j] = u + v * slope[j]!;
    const values = maximize(worth);
    raised.fill(0);
    for (let j = 0; j < worth.length; j++) raised[holder[j]!]! += values[j]!;
    return raised;
  };
}
