import type { Basis, Clause, Expr, Item } from "../../grammar/tree";
import type { Unit } from "../quantity/units";
import { type Extent, sameExtent } from "./extent";
import type { Scope } from "./scope";

/** The units a figure is shown in where its author gave none. */
export interface Units {
  readonly mass: Unit;
  /** Also the unit of a bare number after FS, BL or WL. */
  readonly length: Unit;
  readonly volume: Unit;
}

/** Shares of a mass, by basis. */
export type Rates = Readonly<Record<Basis, number>>;

/** How far off a record may be that does not say so itself, one standard deviation; by basis. */
export type Spreads = Readonly<Record<Basis, Spread>>;

export interface Spread {
  readonly own: Off;
  /** An error that all records of a basis share where this was said. */
  readonly common: Off;
  readonly said: Clause | undefined;
}

/** Nothing is known of how far off it is. */
export const noSpread: Spread = {
  own: { share: 0, mass: 0 },
  common: { share: 0, mass: 0 },
  said: undefined,
};

/** A share of the figure a record gives, and kg on top of that: of the figure as written, as ± is. */
export interface Off {
  readonly share: number;
  readonly mass: number;
}

/** A place in the aircraft, in m: FS aft of the datum, BL right, WL up. Unknown is undefined. */
export interface Place {
  readonly fs: number | undefined;
  readonly bl: number | undefined;
  readonly wl: number | undefined;
}

/** Something an option puts into an assembly that stands elsewhere. */
export interface Addition {
  readonly item: Item;
  /** Where it goes, from the assembly that holds this: `["battery"]` is a member of its own. */
  readonly words: readonly string[];
  /** A budget that replaces the one of `words`; absent: the item is a thing of its own. */
  readonly budget: { readonly value: Expr; readonly clause: Clause } | undefined;
  readonly scope: Scope;
}

/**
 * What the figures inside an assembly hang on, but for its lets. One object as long as nothing in it
 * changed: the memos of everything inside hang on it.
 */
export interface Core {
  /** Dotted, from the aircraft, whose own name is left out. */
  readonly path: string;
  readonly units: Units;
  readonly growth: Rates;
  readonly spread: Spreads;
  /** Where the assembly's own FS 0, BL 0, WL 0 lies. */
  readonly origin: Place;
  /** Stands inside something mirrored. */
  readonly mirrored: boolean;
  /** The aircraft's: a place outside it is most likely a slip. */
  readonly extent: Extent | undefined;
  readonly additions: readonly Addition[];
  /** The cores of the assemblies inside, by name. */
  readonly inside: Map<string, Core>;
}

/** The core of an assembly inside: the last one again if it says the same. */
export function coreInside(outer: Core, name: string, next: Omit<Core, "inside">): Core {
  const before = outer.inside.get(name);
  if (before !== undefined && sameCore(before, next)) return before;
  const core: Core = { ...next, inside: new Map() };
  outer.inside.set(name, core);
  return core;
}

export function sameCore(a: Omit<Core, "inside">, b: Omit<Core, "inside">): boolean {
  return (
    a.path === b.path &&
    a.mirrored === b.mirrored &&
    a.units.mass === b.units.mass &&
    a.units.length === b.units.length &&
    a.units.volume === b.units.volume &&
    sameRates(a.growth, b.growth) &&
    sameSpreads(a.spread, b.spread) &&
    a.origin.fs === b.origin.fs &&
    a.origin.bl === b.origin.bl &&
    a.origin.wl === b.origin.wl &&
    sameExtent(a.extent, b.extent) &&
    a.additions.length === b.additions.length &&
    a.additions.every((it, i) => {
      const other = b.additions[i]!;
      return (
        it.item === other.item && it.scope === other.scope && it.words.join() === other.words.join()
      );
    })
  );
}

function sameRates(a: Rates, b: Rates): boolean {
  return (
    a.estimated === b.estimated &&
    a.calculated === b.calculated &&
    a.quoted === b.quoted &&
    a.weighed === b.weighed
  );
}

function sameSpreads(a: Spreads, b: Spreads): boolean {
  return a === b || bases.every(it => sameSpread(a[it], b[it]));
}

function sameSpread(a: Spread, b: Spread): boolean {
  return a === b || (sameOff(a.own, b.own) && sameOff(a.common, b.common) && a.said === b.said);
}

const sameOff = (a: Off, b: Off) => a.share === b.share && a.mass === b.mass;

const bases: readonly Basis[] = ["estimated", "calculated", "quoted", "weighed"];

export function joinPath(outer: string, name: string): string {
  return outer === "" ? name : `${outer}.${name}`;
}
