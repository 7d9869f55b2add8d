import { positionsOf } from "../../../grammar/source";
import type { Span } from "../../../grammar/tree";
import { memberAt } from "../../compute/member-at";
import { basicBalance, oneSide } from "../../compute/weight";
import { memo } from "../../memo";
import type { Assembly, Member } from "../../model/assembly";
import type { Units } from "../../model/env";
import type { Root } from "../../model/root";
import type { Station } from "../../model/station";
import { type Project, sourceOf } from "../../project";
import type { Quantity } from "../../quantity/quantity";
import { show, showNumber } from "../../quantity/show";
import type { Doc, Offer } from "./offer";

/** Whether a thing may be named where the cursor stands; the aircraft itself has an empty path. */
export type Wanted = (member: Member) => boolean;

export interface Asked {
  readonly project: Project;
  readonly root: Root;
  /** The words of the path in front of the cursor. */
  readonly base: readonly string[];
  /** What is typed of the next one. */
  readonly typed: string;
}

/** As many as are read; with more, the next letter asks again. */
export const MOST = 100;

/**
 * The next word of a path: what stands in the assembly named so far, or in the aircraft; and, once a letter
 * of its name is typed, what stands deeper, with the rest of its path.
 */
export function memberOffers(asked: Asked, wanted: Wanted): readonly Offer[] {
  const { root, base, typed } = asked;
  const at = base.length === 0 ? undefined : memberAt(root, base.join("."));
  if (base.length > 0 && at === undefined) return [];
  const within = at?.member ?? root.aircraft;
  const sides = at && at.side === undefined && hasSides(within) ? sideOffers : [];
  if (within.kind !== "assembly") return sides;
  const begins = (name: string) => name.toLowerCase().startsWith(typed.toLowerCase());
  const near = uniquely(within.members).filter(it => wanted(it) || holds(it, wanted));
  const deep = typed === "" ? [] : everythingIn(within).filter(it => begins(it.name) && wanted(it));
  const prefix = within.path === "" ? 0 : within.path.length + 1;
  return [
    // one that begins with what is typed is never left out
    ...[...near.filter(it => begins(it.name)), ...near.filter(it => !begins(it.name))]
      .slice(0, MOST)
      .map(it => offerOf(asked, it, it.name, 0)),
    ...deep.slice(0, MOST).map(it => offerOf(asked, it, it.path.slice(prefix), 600)),
    ...sides,
    ...(at === undefined && wanted(within) ? [offerOf(asked, within, root.name, 450)] : []),
  ];
}

const sideOffers: readonly Offer[] = [
  { label: "RH", kind: "side", rank: 500, title: "right" },
  { label: "LH", kind: "side", rank: 501, title: "left" },
];

const hasSides = (it: Member) =>
  ("mirrored" in it && it.mirrored) || ("side" in it && it.side !== undefined);

/** All of some kind, by their paths: there are few tanks, seats and bays. */
export function stationOffers(asked: Asked, wanted: (it: Station) => boolean): readonly Offer[] {
  const { root, base } = asked;
  const start = base.map(it => `${it}.`).join("");
  const whole = base.length > 0 && memberAt(root, base.join("."));
  if (whole && isStation(whole.member) && whole.side === undefined)
    return hasSides(whole.member) ? sideOffers : [];
  return uniquely(root.aircraft.stations)
    .filter(it => wanted(it) && it.path.startsWith(start))
    .map(it => offerOf(asked, it, it.path.slice(start.length), 0));
}

function offerOf({ project, root }: Asked, member: Member, label: string, rank: number): Offer {
  const detail = figureOf(member, root);
  const title = member.head.title?.text ?? member.kind;
  const kind = member.kind === "assembly" ? "assembly" : isStation(member) ? "place" : "part";
  const doc = member.head.path && docAt(project, member.head.path);
  return {
    ...{ label, kind, rank, title },
    ...(detail && { detail }),
    ...(label !== member.name && { typedAs: member.name }),
    ...(doc && { doc }),
  };
}

/** Where something is declared, to be read about there. */
export function docAt(project: Project, span: Span): Doc | undefined {
  const source = sourceOf(project, span.line.file);
  return source && { path: source.path, position: positionsOf(source, span).start };
}

/** What a thing weighs or holds and where, each side of two: `4.06 lb at FS 112`. */
function figureOf(member: Member, { units }: Root): string | undefined {
  const each = "mirrored" in member && member.mirrored ? ", each side" : "";
  switch (member.kind) {
    case "assembly": {
      const { mass, fs } = basicBalance(oneSide(member));
      return `${show(mass, member.budget?.unit ?? units.mass)}${arm(fs, units)}${each}`;
    }
    case "part":
    case "ballast": {
      const { mass, unit, place } = member;
      return mass === undefined
        ? "no mass yet"
        : `${show(mass, unit)}${arm(place.fs, units)}${each}`;
    }
    case "reserve":
      return member.mass === undefined ? undefined : show(member.mass, member.unit);
    default:
      return `${contentsText(member, units)}${each}`;
  }
}

function contentsText({ holds, fluid, range, place, ends }: Station, units: Units): string {
  const amount = (it: Quantity) => show(it.value, it.unit ?? units.mass);
  const words = holds
    ? `${amount(holds)}${fluid ? ` of ${fluid.text}` : ""}`
    : range
      ? `${amount(range[0])} .. ${amount(range[1])}`
      : "";
  const [first, last] = [ends[0]?.fs, ends.at(-1)?.fs];
  const where =
    first !== undefined && last !== undefined && first !== last
      ? `${arm(first, units)} .. ${showNumber(last / units.length.factor)}`
      : arm(place.fs, units);
  return `${words}${where}`.trim();
}

/** As a place is written, in the unit that needs no name. */
export const arm = (fs: number | null | undefined, { length }: Units): string =>
  fs === null || fs === undefined ? "" : ` at FS ${showNumber(fs / length.factor)}`;

export const isStation = (member: Member): member is Station =>
  member.kind === "tank" || member.kind === "seat" || member.kind === "bay";

/** The two sides of one thing, where they are read apart, are called alike. */
function uniquely<M extends Member>(members: readonly M[]): readonly M[] {
  const seen = new Set<string>();
  return members.filter(({ path }) => !seen.has(path) && seen.add(path));
}

const everythingIn = memo((assembly: Assembly): readonly Member[] =>
  uniquely(
    assembly.members.flatMap(it =>
      it.kind === "assembly" ? it.members.concat(everythingIn(it)) : [],
    ),
  ),
);

/** Something inside may be named, so the way there is offered too. */
function holds(member: Member, wanted: Wanted): boolean {
  return member.kind === "assembly" && member.members.some(it => wanted(it) || holds(it, wanted));
}
