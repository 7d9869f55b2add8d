import fc from "fast-check";
import type { Cap, Holder, Loadings } from "../../server/compute/holders";

/** Evenly spread, which doubles drawn by their bits are not: most of those are next to nothing. */
export const between = (min: number, max: number) =>
  fc.nat(1e6).map(it => min + ((max - min) * it) / 1e6);

/** Whole figures, which tie, and any others. */
export const figure = (max: number) => fc.oneof(fc.nat(max), between(0, max));

const step = fc.record({ by: figure(10), arm: figure(5), play: figure(1) });

/** From straight seats to curves bent in any way, with amounts that stay the same and arms that do. */
const holder: fc.Arbitrary<Holder> = fc
  .record({
    least: fc.oneof(fc.constant(0), figure(10)),
    steps: fc
      .tuple(step, step, fc.integer({ min: -1, max: 2 }))
      .map(([a, b, count]) => [a, b].slice(0, Math.abs(count))),
    arm: figure(5),
    play: fc.oneof(fc.constant(0), figure(1)),
    bent: fc.nat(3).map(it => it === 0),
  })
  .map(({ least, steps, arm, play, bent }) => {
    let amount = least;
    const corners = [{ amount, arm: arm - 1, play }];
    for (const step of steps) {
      amount += step.by;
      corners.push(
        bent ? { amount, arm: step.arm - 1, play: step.play } : { ...corners[0]!, amount },
      );
    }
    const rising = corners.filter((it, i) => i === 0 || it.amount > corners[i - 1]!.amount);
    return {
      lower: rising.map(it => ({ amount: it.amount, moment: it.amount * it.arm })),
      upper: rising.map(it => ({ amount: it.amount, moment: it.amount * (it.arm + it.play) })),
    };
  });

const part = fc.oneof(fc.constantFrom(0, 0.5, 1), between(-0.05, 1.1));

/** Which holders a cap is on, of so many. */
type Sets = (count: number) => fc.Arbitrary<readonly number[]>;
const anySet: Sets = count =>
  fc
    .array(fc.boolean(), { minLength: count, maxLength: count })
    .map(are => [...are.keys()].filter(i => are[i]));

/** Halves, quarters and so on of all holders: nested or apart. */
const block: Sets = count =>
  fc.tuple(fc.nat(3), fc.nat(7)).map(([level, at]) => {
    const size = count / 2 ** level;
    const from = (at % 2 ** level) * size;
    return [...Array(count).keys()].filter(i => i >= from && i < from + size);
  });

/** Loadings with caps on any sets, from just the least amounts (sometimes less) to more than all. */
export function loadings(
  most: { readonly holders: number; readonly caps: number },
  sets = anySet,
): fc.Arbitrary<Loadings> {
  // not biased to few and small ones, which seldom have caps that overlap
  const upTo = (max: number) => fc.oneof(fc.nat(max), fc.constant(max));
  const sizes = fc.noBias(fc.record({ holders: upTo(most.holders), caps: upTo(most.caps) }));
  return sizes.chain(({ holders: count, caps }) =>
    fc
      .record({
        base: fc.record({ mass: figure(50), moment: figure(100) }),
        holders: fc.array(fc.noBias(holder), { minLength: count, maxLength: count }),
        caps: fc.array(fc.noBias(fc.tuple(sets(count), part)), {
          minLength: caps,
          maxLength: caps,
        }),
      })
      .map(({ base, holders, caps }) => ({
        base,
        holders,
        caps: caps.map(([of, part]) => capOn(holders, of, part)),
      })),
  );
}

export const laminar = (most: { readonly holders: number; readonly caps: number }) =>
  loadings(most, block);

/** A cap that leaves a part of what some holders can take above their least. */
export function capOn(holders: readonly Holder[], of: readonly number[], part: number): Cap {
  const sum = (at: number) => of.reduce((all, i) => all + holders[i]!.lower.at(at)!.amount, 0);
  return { of, most: sum(0) + part * (sum(-1) - sum(0)) };
}
