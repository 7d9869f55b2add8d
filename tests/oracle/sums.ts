import type Fraction from "fraction.js";
import { zero } from "./exact";

export const axes = ["FS", "BL", "WL"] as const;
export type Axis = (typeof axes)[number];
/** Metres in the aircraft's axes; what is not said is not there. */
export type Place = Readonly<Partial<Record<Axis, Fraction>>>;

/** Kilograms, and along each axis how many of them have a place and what moment these have. */
export interface Sum {
  readonly mass: Fraction;
  readonly along: Readonly<Record<Axis, { readonly placed: Fraction; readonly moment: Fraction }>>;
}

const each = (of: (axis: Axis) => Sum["along"][Axis]): Sum["along"] => ({
  FS: of("FS"),
  BL: of("BL"),
  WL: of("WL"),
});

export const nothing: Sum = { mass: zero, along: each(() => ({ placed: zero, moment: zero })) };

export const massAt = (mass: Fraction, place: Place): Sum => ({
  mass,
  along: each(axis => {
    const at = place[axis];
    return at === undefined
      ? { placed: zero, moment: zero }
      : { placed: mass, moment: mass.mul(at) };
  }),
});

export const plus = (a: Sum, b: Sum): Sum => ({
  mass: a.mass.add(b.mass),
  along: each(axis => ({
    placed: a.along[axis].placed.add(b.along[axis].placed),
    moment: a.along[axis].moment.add(b.along[axis].moment),
  })),
});

/** The same on the other side of the plane of symmetry. */
export const turned = (sum: Sum): Sum => ({
  ...sum,
  along: {
    ...sum.along,
    BL: { placed: sum.along.BL.placed, moment: sum.along.BL.moment.neg() },
  },
});

/** Of the mass that has a place: nowhere if none has. */
export function centre(sum: Sum): Place {
  const known = axes.filter(axis => !sum.along[axis].placed.equals(0));
  return Object.fromEntries(
    known.map(axis => [axis, sum.along[axis].moment.div(sum.along[axis].placed)]),
  );
}
