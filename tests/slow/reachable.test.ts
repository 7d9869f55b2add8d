import fc from "fast-check";
import { expect, test } from "vitest";
import { type Loadings, leastOf, momentAt, mostOf } from "../../server/compute/holders";
import { areLaminar, raiseGreedily } from "../../server/compute/laminar";
import { piecesOf } from "../../server/compute/pieces";
import { raiseByProgram } from "../../server/compute/program";
import { reachable } from "../../server/compute/reachable";
import { shrunk } from "../../server/compute/shrink";
import { supportOf, supportsOf, type Vertex } from "../../server/compute/support";
import { bandOf, keeps, type Point, pointsByForce, solved } from "../compute/brute";
import { seat } from "../compute/holders";
import { between, capOn, figure, laminar, loadings } from "../compute/loadings";

const seed = 20261125;
const near = 1e-7;
const small = loadings({ holders: 4, caps: 3 });

/** How far a point is outside the polygon; to a point or a line, how far away. */
function outsideOf(polygon: readonly Point[], point: Point): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const [i, a] of polygon.entries()) {
    const b = polygon[(i + 1) % polygon.length]!;
    const [x, y] = [b.mass - a.mass, b.moment - a.moment];
    const [toX, toY] = [point.mass - a.mass, point.moment - a.moment];
    const length = Math.hypot(x, y);
    if (length === 0) return Math.hypot(toX, toY);
    most = Math.max(most, (y * toX - x * toY) / length);
    // the two sides of a line have no ends of their own
    if (polygon.length === 2) most = Math.max(most, -(x * toX + y * toY) / length);
  }
  return most;
}

test("the polygon is the one that brute force finds, and its amounts are real", () => {
  let empty = 0;
  let overlapping = 0;
  let bent = 0;
  fc.assert(
    fc.property(small, it => {
      const { vertices, outer } = reachable(it);
      const points = pointsByForce(it);
      expect(vertices.length === 0).toBe(points.length === 0);
      if (vertices.length === 0) empty++;
      if (!areLaminar(it.caps)) overlapping++;
      if (outer) bent++;

      const worst = Math.max(0, ...points.map(point => outsideOf(vertices, point)));
      expect(worst).toBeLessThan(near);
      // one claim for all, as claims cost more than the polygon
      expect(vertices.filter(vertex => !isReal(vertex, it, outer))).toEqual([]);
    }),
    { numRuns: 10_000, seed },
  );
  // the problems are of every kind
  expect(Math.min(empty, overlapping, bent)).toBeGreaterThan(200);
});

/** Amounts that are allowed, moments that the curves have (lines across them, where bent), and their sums. */
function isReal({ mass, moment, amounts, moments }: Vertex, it: Loadings, bent: boolean): boolean {
  const sum = (start: number, of: readonly number[]) => of.reduce((all, x) => all + x, start);
  return (
    keeps(amounts, it, 1e-9) &&
    Math.abs(sum(it.base.mass, amounts) - mass) < 1e-9 &&
    Math.abs(sum(it.base.moment, moments) - moment) < 1e-9 &&
    it.holders.every((holder, i) => {
      const [low, high] = bent
        ? bandOf(holder, amounts[i]!)
        : [momentAt(holder.lower, amounts[i]!), momentAt(holder.upper, amounts[i]!)];
      return moments[i]! > low - near && moments[i]! < high + near;
    })
  );
}

test("the polygon is convex, and its vertices are corners", () => {
  fc.assert(
    fc.property(small, it => {
      const { vertices } = reachable(it);
      if (vertices.length < 3) return;
      for (const [i, b] of vertices.entries()) {
        const a = vertices.at(i - 1)!;
        const c = vertices[(i + 1) % vertices.length]!;
        const turn =
          (b.mass - a.mass) * (c.moment - b.moment) - (b.moment - a.moment) * (c.mass - b.mass);
        expect(turn).toBeGreaterThan(0);
      }
    }),
    { numRuns: 2000, seed },
  );
});

const fractions = fc.array(between(0, 1), {
  minLength: 24,
  maxLength: 24,
});

/** Any amounts and moments that are allowed: cut down towards the least till every cap is kept. */
function carriedBy({ base, holders, caps }: Loadings, random: readonly number[]): Point {
  const raised = holders.map((it, i) => random[i]! * (mostOf(it) - leastOf(it)));
  for (const { of, most } of caps) {
    const room = Math.max(
      0,
      of.reduce((sum, i) => sum - leastOf(holders[i]!), most),
    );
    const wanted = of.reduce((sum, i) => sum + raised[i]!, 0);
    if (wanted > room) for (const i of of) raised[i]! *= room / wanted;
  }
  let { mass, moment } = base;
  for (const [i, holder] of holders.entries()) {
    const amount = leastOf(holder) + raised[i]!;
    const [low, high] = [momentAt(holder.lower, amount), momentAt(holder.upper, amount)];
    mass += amount;
    moment += low + random[12 + i]! * (high - low);
  }
  return { mass, moment };
}

test("whatever is loaded is in the polygon", () => {
  fc.assert(
    fc.property(
      loadings({ holders: 10, caps: 6 }),
      fc.array(fractions, { minLength: 3 }),
      (it, all) => {
        const { vertices } = reachable(it);
        if (vertices.length === 0) return;
        for (const random of all)
          expect(outsideOf(vertices, carriedBy(it, random))).toBeLessThan(near);
      },
    ),
    { numRuns: 3000, seed },
  );
});

const direction = fc.record({
  u: between(-6, 6),
  v: fc.oneof(fc.constantFrom(-1, 0, 1), between(-1, 1)),
});

test("the farthest vertex is the support in any direction", () => {
  fc.assert(
    fc.property(loadings({ holders: 8, caps: 5 }), direction, (it, { u, v }) => {
      const found = supportOf(it, u, v);
      const far = ({ mass, moment }: Point) => u * mass + v * moment;
      const most = Math.max(...reachable(it).vertices.map(far));
      if (found) expect(far(found)).toBeCloseTo(most, 7);
      else expect(most).toBe(Number.NEGATIVE_INFINITY);
    }),
    { numRuns: 3000, seed },
  );
});

test("nested caps: the greedy way and the linear program agree", () => {
  let bound = 0;
  fc.assert(
    fc.property(
      laminar({ holders: 12, caps: 8 }),
      fc.array(direction, { minLength: 1, maxLength: 8 }),
      ({ holders, caps }, directions) => {
        const room = caps.map(({ of, most }) => ({
          of,
          most: Math.max(
            0,
            of.reduce((sum, i) => sum - leastOf(holders[i]!), most),
          ),
        }));
        expect(areLaminar(room)).toBe(true);
        for (const side of ["upper", "lower"] as const) {
          const pieces = piecesOf(holders, side);
          const [greedy, program] = [raiseGreedily(pieces, room), raiseByProgram(pieces, room)];
          for (const { u, v } of directions) {
            const signed = side === "upper" ? Math.abs(v) : -Math.abs(v);
            const worth = (raised: Float64Array) =>
              holders.reduce((sum, holder, i) => {
                const amount = leastOf(holder) + raised[i]!;
                return sum + u * amount + signed * momentAt(pieces.curves[i]!, amount);
              }, 0);
            const best = worth(greedy(u, signed));
            expect(worth(program(u, signed))).toBeCloseTo(best, 7);
            const free = holders.reduce((sum, it) => sum + mostOf(it) - leastOf(it), 0);
            if (greedy(1, 0).reduce((sum, it) => sum + it, 0) < free) bound++;
          }
        }
      },
    ),
    { numRuns: 2000, seed },
  );
  expect(bound).toBeGreaterThan(1000);
});

test("overlapping caps on many seats: no prices of the caps promise less", () => {
  const seats = fc.array(fc.record({ most: figure(10), arm: figure(5) }), {
    minLength: 8,
    maxLength: 14,
  });
  const parts = fc.array(between(0, 0.9), {
    minLength: 3,
    maxLength: 3,
  });
  fc.assert(
    fc.property(seats, parts, direction, (list, [a, b, c], { u, v }) => {
      const holders = list.map(({ most, arm }) => seat(0, most, arm));
      const every = [...holders.keys()];
      const caps = [
        capOn(
          holders,
          every.filter(i => i % 3 !== 0),
          a!,
        ),
        capOn(
          holders,
          every.filter(i => i % 3 !== 1),
          b!,
        ),
        capOn(
          holders,
          every.filter(i => i % 2 === 0),
          c!,
        ),
      ];
      const { mass, moment } = supportOf({ base: { mass: 0, moment: 0 }, holders, caps }, u, v)!;
      const promised = leastPromise(
        list.map(({ most, arm }, i) => ({
          most,
          worth: u + v * arm,
          in: caps.map(it => it.of.includes(i)),
        })),
        caps.map(it => it.most),
      );
      expect(u * mass + v * moment).toBeCloseTo(promised, 7);
    }),
    { numRuns: 200, seed },
  );
});

/**
 * The dual: the least, over prices ≥ 0 of the caps, of what caps and bounds are worth. It is straight
 * between planes where a price, or a seat's worth less its prices, is nothing: so least where three meet.
 */
function leastPromise(
  seats: readonly { most: number; worth: number; in: readonly boolean[] }[],
  room: readonly number[],
): number {
  const planes = [
    [1, 0, 0, 0],
    [0, 1, 0, 0],
    [0, 0, 1, 0],
    ...seats.map(it => [...it.in.map(Number), it.worth]),
  ];
  let least = Number.POSITIVE_INFINITY;
  for (const [i, a] of planes.entries())
    for (const [j, b] of planes.slice(0, i).entries())
      for (const c of planes.slice(0, j)) {
        const prices = solved([a, b, c]);
        if (!prices?.every(it => it >= -1e-12)) continue;
        const promise = seats.reduce(
          (sum, it) => {
            const price = prices.reduce((all, y, k) => all + (it.in[k] ? y : 0), 0);
            return sum + it.most * Math.max(0, it.worth - price);
          },
          room.reduce((sum, most, k) => sum + most * prices[k]!, 0),
        );
        least = Math.min(least, promise);
      }
  return least;
}

test("seats split in ten equal ones reach the same, however much ties", () => {
  const seats = fc.array(fc.record({ most: figure(10), arm: figure(5), play: figure(1) }), {
    minLength: 2,
    maxLength: 4,
  });
  const sets = fc.array(fc.record({ of: fc.nat(15), part: fc.constantFrom(0, 0.3, 0.5, 1) }), {
    maxLength: 4,
  });
  fc.assert(
    fc.property(seats, sets, (list, sets) => {
      const base = { mass: 10, moment: 20 };
      const whole = list.map(it => seat(0, it.most, it.arm, it.arm + it.play));
      const split = list.flatMap(it =>
        Array.from({ length: 10 }, () => seat(0, it.most / 10, it.arm, it.arm + it.play)),
      );
      const caps = sets.map(({ of, part }) =>
        capOn(
          whole,
          [...whole.keys()].filter(i => (of >> i) % 2),
          part,
        ),
      );
      const finer = caps.map(({ of, most }) => ({
        of: of.flatMap(i => Array.from({ length: 10 }, (_, k) => 10 * i + k)),
        most,
      }));
      const one = reachable({ base, holders: whole, caps }).vertices;
      const other = reachable({ base, holders: split, caps: finer }).vertices;
      for (const it of one) expect(outsideOf(other, it)).toBeLessThan(near);
      for (const it of other) expect(outsideOf(one, it)).toBeLessThan(near);
    }),
    { numRuns: 1000, seed },
  );
});

test("a counterexample made plain is allowed, really outside, and has no more items", () => {
  let found = 0;
  fc.assert(
    fc.property(small, figure(5), (it, arm) => {
      const ahead = ({ mass, moment }: Point) => moment - arm * mass;
      const vertex = supportsOf(it)?.(arm, -1);
      if (!vertex) return;
      const total = (of: { amounts: readonly number[]; moments: readonly number[] }) => ({
        mass: of.amounts.reduce((sum, x) => sum + x, it.base.mass),
        moment: of.moments.reduce((sum, x) => sum + x, it.base.moment),
      });
      const steps = it.holders.map(() => [5, 1, 0.1]);
      const plain = shrunk(vertex, it, steps, of => ahead(total(of)) < -1);
      if (!plain) {
        // only a straight line across a bend, or nothing at all, was outside
        expect(reachable(it).outer || ahead(vertex) > -1 - near).toBe(true);
        return;
      }
      found++;
      expect(ahead(total(plain))).toBeLessThan(-1);
      expect(keeps(plain.amounts, it, 1e-8)).toBe(true);
      const items = (amounts: readonly number[]) =>
        amounts.filter((x, i) => x > leastOf(it.holders[i]!)).length;
      expect(items(plain.amounts)).toBeLessThanOrEqual(items(vertex.amounts));
      for (const [i, holder] of it.holders.entries()) {
        expect(plain.moments[i]).toBeGreaterThan(momentAt(holder.lower, plain.amounts[i]!) - near);
        expect(plain.moments[i]).toBeLessThan(momentAt(holder.upper, plain.amounts[i]!) + near);
      }
    }),
    { numRuns: 3000, seed },
  );
  expect(found).toBeGreaterThan(500);
});
