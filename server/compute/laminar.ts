import type { Cap } from "./holders";
import type { Pieces, Raise } from "./pieces";

/** Whether each two caps have nothing in common, or one is within the other. */
export function areLaminar(caps: readonly Cap[]): boolean {
  const sets = caps.map(cap => new Set(cap.of));
  return sets.every((a, i) =>
    sets.slice(0, i).every(b => {
      const shared = [...a].filter(it => b.has(it)).length;
      return shared === 0 || shared === a.size || shared === b.size;
    }),
  );
}

/**
 * For laminar caps, whose `most` is what may be added above the least amounts: the best piece is taken
 * first, as much as every cap around it leaves. Such caps make a polymatroid, where that is optimal
 * (J. Edmonds, "Submodular functions, matroids, and certain polyhedra", 1970).
 */
export function raiseGreedily(pieces: Pieces, caps: readonly Cap[]): Raise {
  const { curves, holder, length, slope } = pieces;
  const raised = new Float64Array(curves.length);
  const room = new Float64Array(caps.length);
  const around = curves.map((_, i) =>
    Int32Array.from([...caps.keys()].filter(k => caps[k]!.of.includes(i))),
  );

  return (u, v) => {
    raised.fill(0);
    for (let k = 0; k < room.length; k++) room[k] = caps[k]!.most;
    for (let j = 0; j < slope.length; j++) {
      if (u + v * slope[j]! <= 0) break;
      const i = holder[j]!;
      const limits = around[i]!;
      let amount = length[j]!;
      for (let n = 0; n < limits.length; n++) amount = Math.min(amount, room[limits[n]!]!);
      raised[i]! += amount;
      for (let n = 0; n < limits.length; n++) room[limits[n]!]! -= amount;
    }
    return raised;
  };
}
