/**
 * The syntax tree. Plain immutable data; nothing in it knows what a unit or a mass means.
 *
 * Every node is a Span: a stretch of one logical line. Columns count from the start of that line's
 * text, so an edit elsewhere moves nothing; `grammar/source.ts` turns a span into rows and columns.
 */

/** A logical line: one row of the file, or several where a statement goes on in the next. */
export interface Line {
  readonly file: string;
  /** Its rows, joined with "\n". */
  readonly text: string;
  readonly rows: number;
  /** Orders the lines of one picture of a file; says nothing about distance. */
  readonly rank: number;
  /**
   * What kind of block the line stands in, innermost first: the same words mean other things in a
   * loading. As many as the line closes blocks, and one more.
   */
  readonly contexts: readonly Context[];
  readonly pieces: readonly Piece[];
  readonly faults: readonly Fault[];
}

export interface Span {
  readonly line: Line;
  readonly from: number;
  readonly to: number;
}

/** Something wrong with the text itself. The first words say what, never how to feel about it. */
export interface Fault {
  readonly at: Span;
  readonly message: string;
}

/** What a line is made of. Blocks open and close across lines, so braces are pieces of their own. */
export type Piece =
  | { readonly kind: "statement"; readonly item: Item }
  | { readonly kind: "open" | "close"; readonly at: Span };

export const contexts = ["body", "loading", "fits", "weighing", "configuration"] as const;
export type Context = (typeof contexts)[number];

/** A statement with the block that belongs to it, if any. A leaf is made once, with its line. */
export interface Item {
  readonly head: Statement;
  readonly items: readonly Item[];
  /** The brace that opens the block; absent: no block. */
  readonly open: Span | undefined;
  readonly close: Span | undefined;
}

export interface Word extends Span {
  readonly text: string;
}
/** A quoted text, without its quotes. */
export interface Text extends Span {
  readonly text: string;
}
export interface Path extends Span {
  readonly words: readonly Word[];
  /** The words joined with dots. */
  readonly text: string;
}

// ── Expressions ──────────────────────────────────────────────────────────────────────────────────

export interface UnitPower {
  readonly name: string;
  readonly power: number;
}
export interface Measure extends Span {
  readonly value: number;
  /** Empty for a plain number. `[{ name: "%", power: 1 }]` for percent. */
  readonly unit: readonly UnitPower[];
  readonly unitAt: Span | undefined;
}
/** `5 lb 3 oz` is one quantity of two measures. */
export interface Quantity extends Span {
  readonly kind: "quantity";
  readonly measures: readonly [Measure, ...Measure[]];
}
export interface Name extends Span {
  readonly kind: "name";
  readonly path: Path;
}
export interface Call extends Span {
  readonly kind: "call";
  readonly name: Word;
  readonly args: readonly Expr[];
}
export interface Negative extends Span {
  readonly kind: "negative";
  readonly of: Expr;
}
export interface Binary extends Span {
  readonly kind: "binary";
  readonly operator: "+" | "-" | "*" | "/" | "^";
  readonly operatorAt: Span;
  readonly left: Expr;
  readonly right: Expr;
}
/** Where an operand should stand and none does. */
export interface Missing extends Span {
  readonly kind: "missing";
}
export type Expr = Quantity | Name | Call | Negative | Binary | Missing;

// ── Clauses ──────────────────────────────────────────────────────────────────────────────────────

export type Basis = "estimated" | "calculated" | "quoted" | "weighed";
export type Axis = "FS" | "BL" | "WL";
export type InertiaName = "Ixx" | "Iyy" | "Izz" | "Ixy" | "Ixz" | "Iyz";
export type PartKind = "structure" | "required" | "optional" | "consumable";
export type Toward = "forward" | "aft" | "up" | "down" | "inboard" | "outboard";

export interface Coord extends Span {
  readonly axis: Axis;
  readonly value: Expr | undefined;
  readonly upTo: Expr | undefined;
}
export interface Point extends Span {
  readonly coords: readonly Coord[];
}
/** `5 ..`, `.. 4`, `2 .. 6`: serial numbers, both ends included. */
export interface Serials extends Span {
  readonly first: number | undefined;
  readonly last: number | undefined;
}
export interface Bound extends Span {
  readonly value: Expr;
  readonly ofMac: boolean;
}
export interface RecordClause extends Span {
  readonly kind: "record";
  readonly was: boolean;
  readonly basis: Basis;
  readonly total: boolean;
  readonly figure: Expr | undefined;
  readonly spread: Expr | undefined;
  readonly on: Text | undefined;
  readonly by: Text | undefined;
  readonly rev: Text | undefined;
  readonly effective: Serials | undefined;
  readonly notes: readonly Text[];
}
export interface Rate extends Span {
  /** Absent: every basis but weighed. */
  readonly basis: Basis | undefined;
  readonly value: Expr | undefined;
  readonly common: Expr | undefined;
}

export type Clause =
  | RecordClause
  /** What the reading could not go on over: it may have meant anything, so what it stands in is broken. */
  | (Span & { readonly kind: "unread" })
  | (Span & { readonly kind: "at"; readonly point: Point })
  | (Span & { readonly kind: "moment"; readonly total: boolean; readonly value: Expr | undefined })
  | (Span & { readonly kind: "note"; readonly text: Text | undefined })
  | (Span & { readonly kind: "mirrored" | "operating" })
  | (Span & { readonly kind: "qty"; readonly value: Expr | undefined })
  | (Span & { readonly kind: "span"; readonly start: Point; readonly end: Point | undefined })
  | (Span & {
      readonly kind: "inertia";
      readonly terms: readonly { readonly name: InertiaName; readonly value: Expr | undefined }[];
    })
  | (Span & {
      readonly kind: "shape";
      readonly shape: "box" | "cylinder" | "tube" | "sphere" | undefined;
      readonly sizes: readonly Expr[];
      readonly along: Axis | undefined;
    })
  | (Span & { readonly kind: "growth" | "spread"; readonly rates: readonly Rate[] })
  | (Span & {
      readonly kind: "budget";
      readonly of: Path | undefined;
      readonly value: Expr | undefined;
      readonly margin: Expr | undefined;
    })
  | (Span & { readonly kind: "margin" | "creep"; readonly value: Expr | undefined })
  | (Span & {
      readonly kind: "cg" | "lateral";
      /** What stands before the colon: a weight, or for a lateral row a station. */
      readonly key: { readonly axis: Axis | undefined; readonly value: Expr } | undefined;
      readonly axis: Axis | undefined;
      readonly low: Bound | undefined;
      readonly high: Bound | undefined;
    })
  | (Span & {
      readonly kind: "range";
      readonly low: Expr | undefined;
      readonly high: Expr | undefined;
    })
  | (Span & {
      readonly kind: "holds";
      readonly value: Expr | undefined;
      readonly of: Word | undefined;
    })
  | (Span & {
      readonly kind: "unusable";
      readonly value: Expr | undefined;
      readonly at: Point | undefined;
    })
  | (Span & {
      readonly kind: "pn" | "rev" | "maker" | "sn" | "levelling" | "datum";
      readonly text: Text | undefined;
    })
  | (Span & { readonly kind: "kind"; readonly value: PartKind | undefined })
  | (Span & { readonly kind: "extent"; readonly point: Point })
  | (Span & { readonly kind: "effective"; readonly serials: Serials })
  | (Span & { readonly kind: "filled"; readonly value: Expr | undefined; readonly point: Point })
  | (Span & {
      readonly kind: "swing";
      readonly angle: Expr | undefined;
      readonly toward: Toward | undefined;
      readonly axis: Axis | undefined;
      readonly at: Point | undefined;
      readonly ends: readonly [Point, Point] | undefined;
    })
  | (Span & {
      readonly kind: "units";
      readonly units: readonly (Span & { readonly unit: readonly UnitPower[] })[];
    })
  | (Span & {
      readonly kind: "mac";
      readonly at: Point | undefined;
      readonly length: Expr | undefined;
    })
  | (Span & {
      readonly kind: "ramp" | "takeoff" | "landing" | "zero_fuel";
      readonly value: Expr | undefined;
    });

/** The members of a union that may be of one kind. */
type OfKind<N, K> = N extends { readonly kind: infer Q } ? (K extends Q ? N : never) : never;
export type ClauseOf<K extends Clause["kind"]> = OfKind<Clause, K>;

// ── Statements ───────────────────────────────────────────────────────────────────────────────────

export interface Amount extends Span {
  readonly sides: "total" | "each" | undefined;
  readonly full: boolean;
  readonly value: Expr | undefined;
  readonly usable: boolean;
}

export const declared = [
  "aircraft",
  "assembly",
  "part",
  "tank",
  "seat",
  "bay",
  "option",
  "reserve",
  "ballast",
  "fluid",
] as const;
export type Declared = (typeof declared)[number];

/** A thing with a name: `assembly wing "Wing" budget 168 lb`. */
export interface Declaration extends Span {
  readonly kind: Declared;
  /** `install part …` in an airframe or a change. */
  readonly installed: boolean;
  readonly path: Path | undefined;
  readonly title: Text | undefined;
  /** Of a reserve, a ballast (mass) or a fluid (density). */
  readonly figure: Expr | undefined;
  readonly clauses: readonly Clause[];
}

/** Of the head of a block, `unread`: something in it could not be read, as with the clause of that name. */
export type Statement =
  | Declaration
  | (Span & { readonly kind: "include"; readonly path: Text | undefined })
  | (Span & {
      readonly kind: "let";
      readonly name: Word | undefined;
      readonly value: Expr | undefined;
      readonly spread: Expr | undefined;
    })
  | (Span & {
      readonly kind: "waive";
      readonly code: Word | undefined;
      readonly of: Path | undefined;
      readonly requirement: Text | undefined;
      readonly until: Text | undefined;
      readonly why: Text | undefined;
    })
  | (Span & {
      readonly kind: "require";
      readonly sides: readonly Expr[];
      readonly comparisons: readonly Comparison[];
      readonly everyLoading: boolean;
      readonly why: Text | undefined;
    })
  | (Span & {
      readonly kind: "limit";
      readonly amount: Expr | undefined;
      readonly of: readonly Path[];
      readonly why: Text | undefined;
    })
  | (Span & { readonly kind: "clause"; readonly clause: Clause })
  | (Span & {
      readonly kind: "choice";
      readonly unread?: true;
      readonly name: Word | undefined;
      readonly title: Text | undefined;
      readonly standard: Word | undefined;
    })
  | (Span & {
      readonly kind: "envelope";
      readonly unread?: true;
      readonly name: Word | undefined;
      readonly title: Text | undefined;
    })
  | (Span & {
      readonly kind: "configuration";
      readonly unread?: true;
      readonly name: Word | undefined;
      readonly title: Text | undefined;
      readonly ground: boolean;
    })
  | (Span & {
      readonly kind: "loading";
      readonly unread?: true;
      readonly name: Word | undefined;
      readonly title: Text | undefined;
      readonly under: readonly Word[];
    })
  | (Span & {
      readonly kind: "airframe";
      readonly unread?: true;
      readonly name: Word | undefined;
      readonly title: Text | undefined;
      readonly serial: number | undefined;
    })
  | (Span & {
      readonly kind: "change" | "weighing";
      readonly unread?: true;
      readonly name: Word | undefined;
      readonly of: Word | undefined;
      readonly on: Text | undefined;
      readonly title: Text | undefined;
    })
  // in a loading
  | (Span & {
      readonly kind: "load";
      readonly path: Path;
      readonly amount: Amount | undefined;
      readonly at: Point | undefined;
    })
  | (Span & {
      readonly kind: "burn" | "release" | "taxi";
      readonly path: Path | undefined;
      /** `to 2 gal`: down to that, else by that. */
      readonly downTo: boolean;
      readonly amount: Amount | undefined;
    })
  // in an airframe or a change
  | (Span & {
      readonly kind: "choose";
      readonly choice: Word | undefined;
      readonly option: Word | undefined;
    })
  | (Span & {
      readonly kind: "remove";
      readonly paths: readonly Path[];
      readonly record: RecordClause | undefined;
    })
  | (Span & {
      readonly kind: "move";
      readonly path: Path | undefined;
      readonly target: Point | undefined;
    })
  | (Span & {
      readonly kind: "record-of";
      readonly record: RecordClause;
      readonly path: Path | undefined;
      readonly at: Point | undefined;
    })
  | (Span & {
      readonly kind: "serial-of";
      readonly path: Path | undefined;
      readonly text: Text | undefined;
    })
  // in a weighing
  | (Span & {
      readonly kind: "scale";
      readonly name: Word | undefined;
      readonly title: Text | undefined;
      readonly at: Point | undefined;
      readonly reads: readonly Expr[];
      readonly spread: Expr | undefined;
      readonly tare: Expr | undefined;
      readonly by: Text | undefined;
    })
  | (Span & {
      readonly kind: "aboard";
      readonly path: Path | undefined;
      readonly title: Text | undefined;
      readonly amount: Amount | undefined;
      readonly of: Word | undefined;
      readonly at: Point | undefined;
    })
  | (Span & { readonly kind: "missing"; readonly paths: readonly Path[] })
  // in a configuration
  | (Span & { readonly kind: "swing-these"; readonly paths: readonly Path[] })
  /** Where a block stands whose head is gone: what is inside still counts. */
  | (Span & { readonly kind: "nameless" });

export type StatementOf<K extends Statement["kind"]> = OfKind<Statement, K>;
export type Comparison = "<=" | ">=" | "<" | ">" | "==" | "!=";
