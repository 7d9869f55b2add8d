import type { RecordClause, StatementOf } from "../../grammar/tree";
import { memo, memo2 } from "../memo";
import { faultsIn } from "../model/assembly";
import { membersOf } from "../model/clauses";
import type { Fault } from "../model/fault";
import { isPlainDate } from "../model/figures";
import { airframeAfter, type Change, type Root } from "../model/root";
import { empty } from "./contents";
import { rounded } from "./exact";
import { type Weighing, weighingOf } from "./scales";
import { asDrawn, emptyTotals, putContents } from "./stages";
import { balanceOf, merge, none, subtract, type Totals, weightOf } from "./weight";

/**
 * The weighings of an airframe, in order of their dates. Readings less tare, moments about the datum
 * (FAA-H-8083-1B, chapter 3: the sum of net weights and of their moments); repeated readings are averaged,
 * and the scatter of their mean is their spread (JCGM 100:2008, 4.2.3); scales are independent.
 * @param root the airframe by its parts
 */
export const weighingsOf = memo((root: Root): readonly Weighing[] => {
  const { airframe } = root;
  if (airframe === undefined) return [];
  return root.statements.dated
    .filter(({ head }) => head.kind === "weighing" && head.of?.text === airframe.name)
    .map(item => {
      const on = (item.head as StatementOf<"weighing">).on?.text ?? "";
      // on the day of a weighing a change counts as after it
      const before = root.changes.filter(it => it.on < on);
      const then =
        before.length === root.changes.length ? root : airframeAfter(root, { changes: before });
      // what was recorded later does not enter the comparison
      return weighingOf(item, then, airframeAfter(root, { changes: before, until: on }));
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
    .map((it, i, sorted) => {
      if (it.on === "" || sorted[i - 1]?.on !== it.on) return it;
      const message = `${airframe.name} was weighed on that day already: which of the two counts?`;
      const related = [{ at: sorted[i - 1]!.at, message: "the other one" }];
      return {
        ...it,
        faults: [...it.faults, { code: "declared-twice", at: it.at, message, related }],
      };
    });
});

/** The last one that counts. */
export const lastWeighing = (root: Root): Weighing | undefined =>
  weighingsOf(root).findLast(it => !it.broken);

/**
 * An airframe that was weighed: a whole that governs over its parts, growth and reserves spent; its WL
 * stays the one of its parts.
 */
export const asWeighed = memo((root: Root): Root => weighedInstead(root, root));

/**
 * The same of an airframe that would be `root` by its parts instead: what differs comes in and goes out as
 * with a change.
 * @param weighed the airframe by its parts, as it is
 */
export function weighedInstead(weighed: Root, root: Root): Root {
  const weighings = weighingsOf(weighed);
  const weighing = lastWeighing(weighed);
  // what rests on a weighing that could not be read is not what the scales would say
  const doubtful = weighings.some(it => it.broken && it.on >= (weighing?.on ?? ""));
  if (weighing === undefined)
    return doubtful ? { ...root, aircraft: { ...root.aircraft, doubtful } } : root;
  const parts = none();
  merge(parts, weighing.totals);
  merge(parts, emptyTotals(asDrawn(root)));
  subtract(parts, emptyTotals(asDrawn(weighed)));
  let lacking = unknownIn(root) !== unknownIn(weighed);
  for (const change of weighed.changes)
    if (change.on >= weighing.on) {
      merge(parts, changeOf(weighed, change));
      lacking ||= changesUnknown(weighed, change);
    }
  for (const [station, contents] of empty(root)) {
    const fluid = none();
    putContents(fluid, station, contents, asDrawn(root));
    subtract(parts, fluid);
  }
  const balance = balanceOf(parts, 0);
  const head = weighing.item.head as StatementOf<"weighing">;
  const clause: RecordClause = {
    ...{ line: head.line, from: weighing.at.from, to: weighing.at.to },
    ...{ kind: "record", was: false, basis: "weighed", total: false, notes: [] },
    ...{ figure: undefined, spread: undefined, by: undefined, rev: undefined },
    ...{ on: head.on, effective: undefined },
  };
  return {
    ...root,
    rolledUp: root,
    aircraft: {
      ...root.aircraft,
      atWeighing: undefined,
      weighed: {
        ...{ clause, basis: "weighed", mass: balance.mass, unit: root.units.mass, pieces: 1 },
        ...{ spread: weighing.spread, leans: [], history: false },
      },
      weighedFs: balance.fs ?? undefined,
      weighedBl: balance.bl ?? undefined,
      doubtful,
      scales: {
        errors: weighing.errors,
        vague: {
          fs: lacking || rounded(parts.lacksFs) !== 0,
          bl: lacking || rounded(parts.lacksBl) !== 0,
        },
      },
    },
  };
}

/**
 * What a change does to the basic empty weight, kg and kg m: what it installs comes in and what it removes
 * goes out; what it only re-weighs was there all along.
 * @param root the airframe by its parts
 */
export function changeOf(root: Root, change: Change): Totals {
  const { before, after } = aroundChange(root, change);
  const sum = none();
  merge(sum, emptyTotals(asDrawn(after)));
  subtract(sum, emptyTotals(asDrawn(before)));
  return sum;
}

/** The airframe by its parts on either side of one of its changes; what it re-weighs is so on both. */
export const aroundChange = memo2(
  (root: Root, change: Change): { readonly before: Root; readonly after: Root } => {
    const i = root.changes.indexOf(change);
    // what was recorded later does not rewrite what was done to an airframe that was weighed; of another
    // one all is the sum of its parts, as they are known now
    const isWeighed = weighingsOf(root).some(it => !it.broken && it.on <= change.on);
    const known = isWeighed ? { until: change.on, fitting: change } : {};
    return {
      before: airframeAfter(root, {
        ...{ changes: root.changes.slice(0, i), revised: change },
        ...known,
      }),
      after: airframeAfter(root, { changes: root.changes.slice(0, i + 1), ...known }),
    };
  },
);

/** A change brings or takes something whose mass nobody knows: then the sum is not known either. */
function changesUnknown(root: Root, change: Change): boolean {
  const { before, after } = aroundChange(root, change);
  return unknownIn(after) !== unknownIn(before);
}

const unknownIn = ({ aircraft }: Root) => weightOf(aircraft).unknown;

/** What is wrong with the figures of removals: the airframe itself no longer has what they are of. */
export const removalFaultsOf = memo((root: Root): readonly Fault[] =>
  root.changes.flatMap(change => {
    const records = membersOf(change.item.items).flatMap(({ head }) =>
      head.kind === "remove" && head.record ? [head.record] : [],
    );
    if (records.length === 0) return [];
    const isOf = ({ at }: Fault) =>
      records.some(it => it.line === at.line && it.from <= at.from && at.to <= it.to);
    const days = records.flatMap(({ on }): readonly Fault[] =>
      on && !isPlainDate(on.text)
        ? [{ code: "syntax", at: on, message: `${on.text} is no day of the calendar` }]
        : [],
    );
    return [...faultsIn(aroundChange(root, change).before.aircraft).filter(isOf), ...days];
  }),
);
