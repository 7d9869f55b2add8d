import type { Clause, ClauseOf, Declaration, Item, Point, RecordClause } from "../../grammar/tree";
import { MOMENT, PLAIN } from "../quantity/dimension";
import type { Unit } from "../quantity/units";
import { type ArmAndMoment, armAndMoment, recordOfMoment } from "./arm-and-moment";
import { type Budget, budgetOf } from "./asked";
import { type Body, bodyOf } from "./body";
import { clauseOf, clausesOf, isUnread } from "./clauses";
import {
  type Core,
  coreInside,
  type Edit,
  joinPath,
  noSpread,
  type Place,
  type Side,
  type Spread,
} from "./env";
import { type Setting, textOf } from "./evaluate";
import { type Outside, outsideOf } from "./extent";
import { collector, type Fault } from "./fault";
import { figure, massOf, percentage } from "./figures";
import { reportAgain } from "./once";
import { middle, nowhere, placedIn, placeOf, turnedOver } from "./places";
import { spreadIn } from "./rates";
import { governingOf, isEffective, type MassRecord, recordsOf } from "./records";
import type { Scope } from "./scope";

/** A part, or a piece of ballast: one kind of piece at one place. */
export interface Part {
  readonly kind: "part" | "ballast";
  readonly item: Item;
  readonly head: Declaration;
  readonly name: string;
  readonly path: string;
  readonly records: readonly MassRecord[];
  readonly governing: MassRecord | undefined;
  readonly qty: number;
  /** There is a left-hand one too. */
  readonly mirrored: boolean;
  /** One side of something mirrored, read apart because an airframe changes one of them. */
  readonly side: Side | undefined;
  /** kg of all its pieces on one side; undefined: unknown. */
  readonly mass: number | undefined;
  /** kg of growth on top of that. */
  readonly growth: number;
  /** The CG of the pieces, of the right-hand ones where there are two sides. */
  readonly place: Place;
  /** Where both an arm and a moment are written. */
  readonly arms: ArmAndMoment | undefined;
  /** Coordinates beyond the aircraft's extent. */
  readonly outside: readonly Outside[];
  /** How one piece lies about its CG; growth lies as the piece does. */
  readonly body: Body;
  /** How far off the governing record may be where it does not say so itself. */
  readonly spread: Spread;
  readonly unit: Unit;
  readonly budget: Budget | undefined;
  /** Something in it is not understood: its mass and place are of what is, and may be of less than is written. */
  readonly broken: boolean;
  readonly faults: readonly Fault[];
}

/** Core by item: what was read, and whether it hangs on lets. */
interface Read {
  readonly scope: Scope;
  readonly usesLets: boolean;
  readonly part: Part;
}

/**
 * A part read in its surroundings; the same object as long as neither it nor what it uses changed.
 * @param edits what an airframe or an option does to it; they are among the core's
 * @param own the one side of it, where the two are read apart
 */
export function partOf(
  item: Item,
  name: string,
  around: Core,
  scope: Scope,
  edits: readonly Edit[] = noEdits,
  own?: Side,
): Part {
  const core = own === undefined ? around : coreInside(around, { ...around, side: own });
  const before = core.read.get(item) as Read | undefined;
  if (before !== undefined && (before.scope === scope || !before.usesLets)) return before.part;
  let usesLets = false;
  const uses = () => {
    usesLets = true;
  };
  const part = readPart(item, name, core, scope, uses, edits, own);
  core.read.set(item, { scope, usesLets, part } satisfies Read);
  return part;
}
const noEdits: readonly Edit[] = [];

function readPart(
  item: Item,
  name: string,
  core: Core,
  scope: Scope,
  uses: () => void,
  edits: readonly Edit[],
  own: Side | undefined,
): Part {
  const head = item.head as Declaration;
  const { report, found } = collector();
  const setting: Setting = { scope, report, uses, ask: noSums(report) };
  const clauses = clausesOf(item);
  reportAgain(clauses, report);
  const creep = clauseOf(clauses, "creep");
  if (creep) report("syntax", creep, "a creep is an assembly's or the aircraft's: it stands there");
  const mirrored = clauses.some(clause => clause.kind === "mirrored");
  const sides = mirrored || core.mirrored ? 2 : 1;
  if (mirrored && core.mirrored) {
    const at = clauseOf(clauses, "mirrored")!;
    report(
      "declared-twice",
      at,
      `${name} stands in something mirrored: it has a left-hand one already`,
    );
  }
  const qty = quantityOf(clauseOf(clauses, "qty"), setting);
  const recordClauses = clauses.filter((it): it is RecordClause => it.kind === "record");
  const rev = clauseOf(clauses, "rev")?.text?.text;
  const written = recordsOf(recordClauses, rev, qty * sides, setting, core);
  const fitted = edits.flatMap(edit =>
    edit.does === "record" && edit.words.length === 0
      ? recordsOf(
          [edit.clause as RecordClause],
          rev,
          edit.sided ? qty : qty * sides,
          { ...setting, scope: edit.scope },
          core,
        )
      : [],
  );
  const records = fitted.length === 0 ? written : [...written, ...fitted];
  const counts = isEffective(clauseOf(clauses, "effective")?.serials, core.serial);
  const rules = counts ? governingOf(written, fitted) : undefined;
  const figureOfItsOwn =
    rules === undefined ? massOf(head.figure, "this mass", setting) : undefined;
  if (figureOfItsOwn !== undefined && head.kind === "part")
    report(
      "syntax",
      head.figure!,
      "say what this figure rests on: estimated, calculated, quoted or weighed",
    );
  const piece = rules?.mass ?? (head.kind === "ballast" ? figureOfItsOwn?.value : undefined);
  const mass = !counts ? 0 : piece === undefined ? undefined : piece * qty;
  const rate =
    rules && head.kind === "part" ? core.growth[rules.basis] : ownGrowth(rules, core, head.kind);
  const growing = clauseOf(clauses, "growth");
  const growth = growing && rules ? (growthRate(growing, rules, setting) ?? rate) : rate;
  const moment = clauseOf(clauses, "moment");
  const stands = moment && recordOfMoment(clauses, moment, records, rules);
  const span = clauseOf(clauses, "span");
  const ends = span?.end && {
    start: placeOf(span.start, core.units.length, setting),
    end: placeOf(span.end, core.units.length, setting),
  };
  const moved = edits.findLast(it => it.point !== undefined && it.words.length === 0);
  const place = moved
    ? placeMoved(moved, core, setting)
    : placeOfPart(clauses, ends, stands, qty * sides, core, setting);
  const { mass: inMass } = core.units;
  const outside = outsideOf(
    pointsOf(clauses),
    sides === 2,
    core,
    setting,
    moment && { at: moment, fs: place.fs },
  );
  const body = turnedBody(bodyOf(clauses, ends, setting), core);
  const arms = moved ? undefined : armAndMoment(clauses, stands, qty * sides, core, setting);
  const spread = rules ? spreadIn(core.spread, clauses, setting)[rules.basis] : noSpread;
  const budget = budgetOf(clauses, edits, core, setting);
  const lost = (it: MassRecord) => it.mass === undefined && !it.history;
  const broken =
    found().length > 0 ||
    isUnread(clauses) ||
    clauses.some(it => it.kind === "qty" && it.value === undefined) ||
    records.some(lost) ||
    (says(clauses, "FS") && place.fs === undefined && core.origin.fs !== undefined);
  return {
    kind: head.kind as "part" | "ballast",
    item,
    head,
    name,
    path: joinPath(core.path, own === undefined ? name : `${name}.${own}`),
    records,
    governing: rules,
    qty,
    mirrored: mirrored && !core.mirrored && own === undefined,
    side: own,
    mass,
    growth: mass === undefined ? 0 : mass * growth,
    place,
    ...{ arms, body, spread, budget, broken },
    // a place that may be wrong is not beyond anything
    outside: broken ? [] : outside,
    unit: rules?.unit ?? figureOfItsOwn?.unit ?? inMass,
    faults: found(),
  };
}

/** A ballast's own figure has no growth; its records grow like any other. */
function ownGrowth(rules: MassRecord | undefined, core: Core, kind: string): number {
  return rules && kind === "ballast" ? core.growth[rules.basis] : 0;
}

function growthRate(
  clause: ClauseOf<"growth">,
  rules: MassRecord,
  setting: Setting,
): number | undefined {
  const rate =
    clause.rates.find(it => it.basis === rules.basis) ??
    (rules.basis === "weighed" ? undefined : clause.rates.find(it => it.basis === undefined));
  return rate && percentage(rate.value, "a growth", setting);
}

/** The figure of a part may not ask for a sum that the part is in, nor hang on a let that does. */
export function noSums(report: Setting["report"]): Setting["ask"] {
  return (call, { usedAt }) => {
    const sum = textOf(call);
    const what = usedAt ? `${textOf(usedAt)} hangs on ${sum},` : `${sum} is`;
    const why = "a sum that this figure may be part of: only a requirement may ask for it";
    report("unknown-name", usedAt ?? call, `${what} ${why}`);
    return undefined;
  };
}

function quantityOf(clause: ClauseOf<"qty"> | undefined, setting: Setting): number {
  if (clause?.value === undefined) return 1;
  const value = figure(clause.value, PLAIN, "a quantity", setting)?.value;
  if (value === undefined) return 1;
  if (value >= 1 && Number.isInteger(value)) return value;
  setting.report("out-of-range", clause.value, "a quantity is a whole number of pieces, 1 or more");
  return 1;
}

const says = (clauses: readonly Clause[], axis: string) =>
  pointsOf(clauses).some(it => it.coords.some(at => at.axis === axis && at.value));

/** The places written: of a span, both its ends. */
function pointsOf(clauses: readonly Clause[]): readonly Point[] {
  const at = clauseOf(clauses, "at");
  if (at) return [at.point];
  const span = clauseOf(clauses, "span");
  return span ? (span.end ? [span.start, span.end] : [span.start]) : [];
}

/** A moment governs over an arm: printed arms are rounded (FAA-H-8083-1B gives both on its forms). */
function placeOfPart(
  clauses: readonly Clause[],
  ends: { readonly start: Place; readonly end: Place } | undefined,
  record: MassRecord | undefined,
  pieces: number,
  core: Core,
  setting: Setting,
): Place {
  const at = clauseOf(clauses, "at");
  const { length } = core.units;
  let place = ends ? middle(ends.start, ends.end) : nowhere;
  if (at) place = placeOf(at.point, length, setting);
  place = placedIn(core, place);

  const moment = clauseOf(clauses, "moment");
  if (moment?.value === undefined) return place;
  const value = figure(moment.value, MOMENT, "a moment", setting);
  const mass = record?.mass;
  if (value === undefined || mass === undefined || mass === 0) return place;
  const fs = value.value / (moment.total ? mass * pieces : mass);
  return { fs, bl: place.bl ?? 0, wl: place.wl };
}

/** Where an airframe says it is: of one side where it is, else of the right-hand one. */
function placeMoved({ point, scope, sided }: Edit, core: Core, setting: Setting): Place {
  const there = placeOf(point!, core.units.length, { ...setting, scope });
  return placedIn(core, sided && core.side === "LH" ? turnedOver(there) : there);
}

/** A left-hand one lies as the mirror image of what is written. */
function turnedBody(body: Body, core: Core): Body {
  if (body === undefined || core.side !== "LH") return body;
  const over = (x: number | undefined) => (x === undefined ? undefined : -x);
  const { second } = body;
  return { ...body, second: { ...second, xy: over(second.xy), yz: over(second.yz) } };
}
