import fc from "fast-check";
import { expect, test } from "vitest";
import { expectSame, type Numbers, numbersOf } from "../compute/numbers";

/**
 * An aircraft of a few parts with everything that enters a sum: frames, sides, shapes, spreads, growth, a
 * swung leg. The same aircraft can be written in other units, from another datum, in another order.
 */
interface Piece {
  readonly kg: number;
  readonly fs: number;
  readonly bl: number;
  readonly wl: number;
  readonly qty: number;
  readonly mirrored: boolean;
  readonly basis: string;
  readonly body: "point" | "box" | "inertia";
  readonly where: 0 | 1 | 2;
}

const piece = fc.record<Piece>({
  kg: fc.integer({ min: 1, max: 4000 }).map(x => x / 16),
  fs: fc.integer({ min: -400, max: 800 }).map(x => x / 64),
  bl: fc.integer({ min: -200, max: 300 }).map(x => x / 64),
  wl: fc.integer({ min: -100, max: 200 }).map(x => x / 64),
  qty: fc.constantFrom(1, 1, 2, 3),
  mirrored: fc.boolean(),
  basis: fc.constantFrom("estimated", "calculated", "quoted", "weighed"),
  body: fc.constantFrom("point", "box", "inertia"),
  where: fc.constantFrom(0, 1, 2),
});
const pieces = fc.array(piece, { minLength: 1, maxLength: 8 });

interface Way {
  /** m of FS added to everything. */
  readonly datum: number;
  readonly mass: readonly [string, number];
  readonly length: readonly [string, number];
  readonly order: (lines: readonly string[]) => readonly string[];
}
const plain: Way = {
  datum: 0,
  mass: ["kg", 1],
  length: ["m", 1],
  order: lines => lines,
};

function written(all: readonly Piece[], way: Way): string {
  const [[kg, perKg], [m, perM]] = [way.mass, way.length];
  const mass = (x: number) => `${x / perKg} ${kg}`;
  const length = (x: number) => `${x / perM} ${m}`;
  const inertia = (x: number) => `${x / perKg / perM ** 2} ${kg} ${m}^2`;
  const lines = (where: number, datum: number) =>
    all.flatMap((it, i) => {
      if (it.where !== where) return [];
      const { body } = it;
      const shape =
        body === "box"
          ? ` shape box ${length(0.5)}, ${length(0.25)}, ${length(0.75)}`
          : body === "inertia"
            ? ` inertia Ixx ${inertia(it.kg)}, Iyy ${inertia(1.25 * it.kg)}, Izz ${inertia(1.5 * it.kg)}, Ixy ${inertia(0.125 * it.kg)}, Iyz ${inertia(-0.25 * it.kg)}`
            : "";
      const place = `at FS ${length(it.fs + datum)}, BL ${length(it.bl)}, WL ${length(it.wl)}`;
      const sides = it.mirrored && where !== 2 ? "mirrored " : "";
      return `part p${i} ${sides}qty ${it.qty} ${it.basis} ${mass(it.kg)} ${place}${shape}`;
    });
  const leg = `assembly leg mirrored swing 40 deg about BL at FS ${length(2 + way.datum)}, WL ${length(1)} {
${way.order(lines(2, way.datum)).join("\n")}
}`;
  const pod = `assembly pod at FS ${length(1 + way.datum)}, BL ${length(0.5)}, WL ${length(0.25)} {
${way.order(lines(1, 0)).join("\n")}
}`;
  return `aircraft kite { units ${kg}, ${m} growth estimated 20%, calculated 8% spread estimated 10%, calculated 3% common 2% }
${way.order([leg, pod, ...lines(0, way.datum), "configuration swung { swing leg }"]).join("\n")}
`;
}

/** What must not change: masses, CGs and inertias; assemblies by path, since their order is the text's. */
function figures({ empty, parts, assemblies, configurations }: Numbers) {
  const byPath = [...assemblies].sort((a, b) => (a.path < b.path ? -1 : 1));
  return { empty, parts, byPath, configurations };
}

/** A body without a longest axis has any, and a gyration is a root: what is left of rounding is large in it. */
function less({ empty, ...it }: ReturnType<typeof figures>) {
  return { ...it, empty: { basic: { ...empty.basic, principal_axes: null, gyration_m: null } } };
}

const runs = { numRuns: 300, seed: 7 };

test("units change no figure", () => {
  fc.assert(
    fc.property(pieces, all => {
      const other = { ...plain, mass: ["lb", 0.45359237], length: ["in", 0.0254] } as const;
      expectSame(
        less(figures(numbersOf(written(all, plain)))),
        less(figures(numbersOf(written(all, other)))),
        1e-12,
        1e3,
      );
    }),
    runs,
  );
});

test("the order of declarations changes nothing, to the bit", () => {
  fc.assert(
    fc.property(pieces, all => {
      const other = { ...plain, order: (lines: readonly string[]) => [...lines].reverse() };
      expect(figures(numbersOf(written(all, other)))).toEqual(
        figures(numbersOf(written(all, plain))),
      );
    }),
    runs,
  );
});

test("another datum moves every arm and nothing else", () => {
  fc.assert(
    fc.property(pieces, fc.constantFrom(-8, 2.5, 16), (all, datum) => {
      const moved = numbersOf(written(all, { ...plain, datum }));
      const back = (it: { cg_m: readonly number[] }) => ({
        ...it,
        cg_m: it.cg_m.map((x, i) => (i === 0 && x !== null ? x - datum : x)),
      });
      const there = figures({
        ...moved,
        empty: { basic: back(moved.empty.basic) },
        parts: { basic: back(moved.parts.basic), predicted: back(moved.parts.predicted) },
        assemblies: moved.assemblies.map(it => ({
          ...it,
          basic: back(it.basic),
          predicted: back(it.predicted),
        })),
        configurations: moved.configurations.map(it => ({ ...it, empty: back(it.empty) })),
      } as unknown as Numbers);
      const here = figures(numbersOf(written(all, plain)));
      expectSame(less(there), less(here), 1e-12, 1e4);
    }),
    runs,
  );
});

test("a part in two halves weighs what it weighed", () => {
  fc.assert(
    fc.property(pieces, all => {
      const halves = all.flatMap(it => {
        const half = { ...it, kg: it.kg / 2 };
        return [half, half];
      });
      const whole = numbersOf(written(all, plain));
      const split = numbersOf(written(halves, plain));
      expectSame(whole.parts, split.parts, 1e-12, 1e3);
      expectSame(whole.configurations, split.configurations, 1e-12, 1e3);
    }),
    runs,
  );
});

test("mirroring twice is nothing: a left-hand aircraft mirrored is the right-hand one", () => {
  fc.assert(
    fc.property(pieces, all => {
      const flat = all.map(it => ({
        ...it,
        where: 0 as const,
        body: "point" as const,
        mirrored: false,
      }));
      const turned = flat.map(it => ({ ...it, bl: -it.bl }));
      const here = numbersOf(written(flat, plain)).parts.basic;
      const there = numbersOf(written(turned, plain)).parts.basic;
      const { Ixy, Iyz, ...even } = there.inertia_kg_m2;
      const [fs, bl, wl] = there.cg_m;
      const again = { cg_m: [fs, -bl, wl], even, odd: [-Ixy, -Iyz] };
      const { Ixy: xy, Iyz: yz, ...same } = here.inertia_kg_m2;
      expectSame(again, { cg_m: here.cg_m, even: same, odd: [xy, yz] }, 1e-12, 1e3);
    }),
    runs,
  );
});
