import { type Corner, type Holder, type Loadings, momentAt } from "./holders";
import { type Support, supportsOf, type Vertex } from "./support";

export interface Reachable {
  /** Counter-clockwise from the lightest, mass to the right and moment up. One for a point, two for a line. */
  readonly vertices: readonly Vertex[];
  /** A holder's curve bends the wrong way: the polygon holds all that can be reached, and more. */
  readonly outer: boolean;
}

/**
 * The convex polygon of every mass, kg, and moment, kg m, that the holders reach on top of the base
 * while every cap is kept. No vertices when the least amounts break a cap already. Exact but for
 * rounding, 1e-12 of the largest mass and moment.
 */
export function reachable(loadings: Loadings): Reachable {
  const support = supportsOf(loadings);
  const outer = loadings.holders.some(isBent);
  if (!support) return { vertices: [], outer };
  const beyond = distanceIn(loadings);
  const starts = [support(-1, 0), support(0, -1), support(1, 0), support(0, 1)];
  const vertices: Vertex[] = [];
  for (const [i, a] of starts.entries()) {
    vertices.push(a);
    addBetween(a, starts[(i + 1) % 4]!, support, beyond, vertices);
  }
  return { vertices: cornersOf(vertices, beyond), outer };
}

/** Adds the vertices from a to b: the farthest outside the line between them, and so on from it. */
function addBetween(a: Vertex, b: Vertex, support: Support, beyond: Distance, to: Vertex[]): void {
  if (beyond(a, a, b).away <= rounding) return;
  const c = support(b.moment - a.moment, a.mass - b.mass);
  if (beyond(a, b, c).outside <= rounding) return;
  addBetween(a, c, support, beyond, to);
  to.push(c);
  addBetween(c, b, support, beyond, to);
}

/** Leaves out what stands on the line between its neighbours, or on one of them. */
function cornersOf(vertices: readonly Vertex[], beyond: Distance): readonly Vertex[] {
  const kept = [...vertices];
  for (let i = 0; i < kept.length && kept.length > 1; ) {
    const before = kept.at(i - 1)!;
    const after = kept[(i + 1) % kept.length]!;
    if (beyond(before, after, kept[i]!).away > rounding) i++;
    else {
      kept.splice(i, 1);
      i = Math.max(0, i - 1);
    }
  }
  return kept;
}

const rounding = 1e-12;

/** How far c is outside the line from a to b, and away from what of it lies between them. */
type Distance = (a: Vertex, b: Vertex, c: Vertex) => { outside: number; away: number };

/** Distances as parts of the largest mass and moment, which differ in unit. */
function distanceIn({ base, holders }: Loadings): Distance {
  const size = (start: number, of: (corner: Corner) => number) =>
    holders.reduce(
      (sum, { lower, upper }) =>
        sum + Math.max(...[...lower, ...upper].map(it => Math.abs(of(it)))),
      Math.abs(start),
    ) || 1;
  const mass = size(base.mass, it => it.amount);
  const moment = size(base.moment, it => it.moment);
  return (a, b, c) => {
    const along = { x: (b.mass - a.mass) / mass, y: (b.moment - a.moment) / moment };
    const to = { x: (c.mass - a.mass) / mass, y: (c.moment - a.moment) / moment };
    const length = Math.hypot(along.x, along.y) || 1;
    const part = (to.x * along.x + to.y * along.y) / length ** 2;
    const near = Math.min(Math.max(part, 0), 1);
    return {
      outside: (along.y * to.x - along.x * to.y) / length,
      away: Math.hypot(to.x - near * along.x, to.y - near * along.y),
    };
  };
}

/** Whether the upper curve is not concave or the lower one not convex, but for rounding. */
function isBent({ lower, upper }: Holder): boolean {
  return bends(upper, 1) || bends(lower, -1);
}

function bends(curve: readonly Corner[], sign: number): boolean {
  const near = rounding * Math.max(...curve.map(it => Math.abs(it.moment)));
  return curve.slice(1, -1).some((b, i) => {
    const ends = [curve[i]!, curve[i + 2]!];
    return sign * (momentAt(ends, b.amount) - b.moment) > near;
  });
}
