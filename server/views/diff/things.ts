import type { Basis, Span } from "../../../grammar/tree";
import { memo } from "../../memo";
import type { Assembly, Member } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Place } from "../../model/env";
import type { Root } from "../../model/root";

/** Something that weighs or is loaded, as far as a reviewer compares it: kg and m, whatever it was written in. */
export interface Thing {
  readonly kind: "part" | "ballast" | "assembly" | "tank" | "seat" | "bay";
  readonly path: string;
  /** Its part number, its identity across renames. */
  readonly pn: string | undefined;
  /** kg of all its pieces on every side; undefined: unknown. Of a tank, seat or bay: of no mass of its own. */
  readonly mass: number | undefined;
  /** kg of growth on top, of all its pieces. */
  readonly growth: number;
  /** It stands on both sides. */
  readonly mirrored: boolean;
  readonly basis: Basis | undefined;
  /** Of the right-hand one where there are two. */
  readonly place: Place;
  /** How many pieces, both sides counted. */
  readonly pieces: number;
  readonly at: Span;
  /** Where its figure stands, as far as it has one. */
  readonly figureAt: Span;
}

/** Every part, ballast, tank, seat and bay of an aircraft, and the assemblies weighed as a whole. */
export const thingsOf = memo((root: Root): readonly Thing[] => inside(root.aircraft, 1));

function inside(assembly: Assembly, sides: number): readonly Thing[] {
  return assembly.members.flatMap(it => {
    if (it.kind === "reserve") return [];
    if (it.kind !== "assembly") return [thing(it, it.mirrored ? 2 : sides)];
    const both = it.mirrored ? 2 : sides;
    return it.weighed ? [whole(it, both), ...inside(it, both)] : inside(it, both);
  });
}

function thing(it: Exclude<Member, Assembly | { kind: "reserve" }>, sides: number): Thing {
  const { kind, path, place } = it;
  const own = {
    ...{ kind, path, place },
    pn: clauseOf(clausesOf(it.item), "pn")?.text?.text,
    at: it.head.path ?? it.head,
    figureAt: it.head.path ?? it.head,
  };
  const mirrored = sides === 2;
  if (!("qty" in it))
    return { ...own, mass: undefined, growth: 0, mirrored, basis: undefined, pieces: sides };
  return {
    ...own,
    figureAt: it.governing?.clause ?? it.head.figure ?? own.at,
    mass: it.mass === undefined ? undefined : it.mass * sides,
    ...{ growth: it.growth * sides, mirrored },
    basis: it.governing?.basis,
    pieces: it.qty * sides,
  };
}

/** An assembly that was weighed: its figure governs, and it stands where its parts are. */
function whole({ path, item, head, weighed }: Assembly, sides: number): Thing {
  return {
    ...{ kind: "assembly", path },
    pn: clauseOf(clausesOf(item), "pn")?.text?.text,
    mass: weighed?.mass === undefined ? undefined : weighed.mass * sides,
    ...{ growth: 0, mirrored: sides === 2 },
    basis: "weighed",
    place: { fs: undefined, bl: undefined, wl: undefined },
    pieces: sides,
    at: head.path ?? head,
    figureAt: weighed?.clause ?? head,
  };
}

/** The aircraft and every assembly in it, outer ones first, with how many sides each has. */
export const assembliesOf = memo(
  (root: Root): readonly { readonly assembly: Assembly; readonly sides: 1 | 2 }[] =>
    within(root.aircraft, 1),
);

function within(
  assembly: Assembly,
  outer: 1 | 2,
): readonly { readonly assembly: Assembly; readonly sides: 1 | 2 }[] {
  const sides = assembly.mirrored ? 2 : outer;
  return [
    { assembly, sides },
    ...assembly.members.flatMap(it => (it.kind === "assembly" ? within(it, sides) : [])),
  ];
}
