import type { Basis, Clause, Item, Point, Span } from "../../grammar/tree";
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

/** What an option or an airframe does to something that stands elsewhere, by its path. */
export interface Edit {
  readonly item: Item;
  readonly does: "put" | "budget" | "record" | "remove" | "move";
  /** From the assembly that holds this: `["battery"]` is a member of its own; none: the assembly itself. */
  readonly words: readonly string[];
  /** Where the path stands, for what is wrong with it. */
  readonly at: Span;
  /** The clause of a budget or of a record. */
  readonly clause: Clause | undefined;
  /** Where it then lies: of a move, or beside a record. */
  readonly point: Point | undefined;
  readonly scope: Scope;
  /** The path named a side: what it says is of that side, and a place is where it is. */
  readonly sided: boolean;
  /** What it puts counts by its first record, if all that it has are later than what is known. */
  readonly first?: boolean;
}

export type Side = "RH" | "LH";

/**
 * What the figures inside an assembly hang on, but for its lets. One object as long as nothing in it
 * changed, for every aircraft and airframe that reads it so: the memos of everything inside hang on it.
 */
export interface Core {
  /** Dotted, from the aircraft, whose own name is left out. */
  readonly path: string;
  readonly units: Units;
  readonly growth: Rates;
  readonly spread: Spreads;
  /** Where the assembly's own FS 0, BL 0, WL 0 lies, of the right-hand one. */
  readonly origin: Place;
  /** Stands inside something mirrored. */
  readonly mirrored: boolean;
  /** One side of something mirrored, read apart because an airframe changes one of them. */
  readonly side: Side | undefined;
  /** The aircraft's: a place outside it is most likely a slip. */
  readonly extent: Extent | undefined;
  /** In the order they are made. */
  readonly edits: readonly Edit[];
  /** Of the airframe, where something inside is effective for some serials only; the design has none. */
  readonly serial: number | undefined;
  /** ISO, where something inside has a record dated after it: such a record is not known yet. */
  readonly until: string | undefined;
  /** The last ones of all assemblies of the aircraft, by path, newest first. */
  readonly table: Map<string, Core[]>;
  /** What was read in it. */
  readonly read: WeakMap<Item, unknown>;
}

/** How many aircraft and airframes may read one assembly in ways of their own without reading it anew. */
const kept = 12;

/** A core that says this: the last such one again, whoever read it. */
export function coreOf(table: Map<string, Core[]>, next: Said): Core {
  const before = table.get(next.path) ?? [];
  const found = before.findIndex(it => sameCore(it, next));
  if (found === 0) return before[0]!;
  const core = before[found] ?? { ...next, table, read: new WeakMap() };
  table.set(next.path, [core, ...before.filter(it => it !== core)].slice(0, kept));
  return core;
}

export const coreInside = (outer: Core, next: Said) => coreOf(outer.table, next);

type Said = Omit<Core, "table" | "read">;

export function sameCore(a: Said, b: Said): boolean {
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
    a.side === b.side &&
    a.serial === b.serial &&
    a.until === b.until &&
    a.edits.length === b.edits.length &&
    a.edits.every((it, i) => {
      const other = b.edits[i]!;
      return (
        it.item === other.item &&
        // a removal that weighed something is read as a record too, of one line and one path
        it.does === other.does &&
        it.clause === other.clause &&
        it.at === other.at &&
        it.scope === other.scope &&
        it.sided === other.sided &&
        it.first === other.first &&
        it.words.join() === other.words.join()
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
