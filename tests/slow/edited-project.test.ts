import fc from "fast-check";
import { expect, test } from "vitest";
import { positionsOf, textOf } from "../../grammar/source";
import type { Span } from "../../grammar/tree";
import { type Disk, workspace } from "../../server/edges/workspace";
import { links } from "../../server/features/links";
import { type Outline, outline } from "../../server/features/symbols";
import { judge } from "../../server/judge";
import { emptyProject, type Project, sourceOf, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";

/** An aircraft in three files that uses nearly all there is: what is remembered hangs on much of it. */
const files: Readonly<Record<string, string>> = {
  "/specs/kite.poise": `aircraft kite "Kite" budget 60 lb {
  units lb, in, gal
  growth estimated 15%, calculated 10%
  spread calculated 3%
  mac at FS 100 length 50
}
include "wing.poise"
fluid mogas 6 lb/gal
let area = 12 ft^2 ± 2%
tank main mirrored holds 10 gal of mogas unusable 0.5 gal at FS 110, BL 20, WL 4
seat pilot at FS 80 .. 90 range 0 lb .. 220 lb
bay locker at FS 140 range 0 lb .. 40 lb
limit 230 lb of pilot, locker
choice pack default light {
  option light { part power.cell quoted 3 lb at FS 30, WL 2 }
  option heavy { part power.cell quoted 8 lb at FS 30, WL 2 }
}
assembly power "Power" budget 20 lb {
  at FS 10, WL 1
  part motor weighed 9 lb on 2026-03-01 at FS 12
  reserve leads 1 lb
}
envelope normal {
  takeoff 400 lb
  cg 40 lb: FS 60 .. 120
  cg 400 lb: FS 70 .. 115
}
loading solo under normal {
  pilot 180 lb at FS 85
  main 5 gal
  burn main to 1 gal
}
configuration up { swing gear }
assembly gear mirrored {
  swing 90 deg aft about BL at FS 90, WL -10
  at FS 90, BL 20
  part leg calculated 2 * 1.5 lb at FS 1, WL -20
}
require mass(empty) < 90 lb "promised"
waive over-budget of power until 2027-01-01 "agreed"
`,
  "/specs/wing.poise": `let plate = area * 0.25 lb/ft^2
assembly wing "Wing" budget 12 lb margin 5% {
  at FS 100, WL 40
  cg FS -5 .. 15
  part skin calculated plate at FS 10
  part rib qty 8 {
    was estimated 0.3 lb
    quoted 0.25 lb on 2026-02-01
    at FS 6, BL 3
  }
}
`,
  "/specs/sn1.poise": `include "kite.poise"
airframe sn1 "S/N 001" {
  choose pack heavy
  weighed power.motor 8.8 lb on 2026-05-01
  weighed wing.rib 0.24 lb on 2026-05-02
}
weighing first of sn1 on 2026-06-01 {
  scale nose at FS 20 reads 12 lb
  scale left at FS 120, BL -30 reads 20.5 lb
  scale right at FS 120, BL 30 reads 20.9 lb
  aboard main 1 gal
}
change refit of sn1 on 2026-07-01 {
  remove power.cell
  install part power.cell weighed 5 lb at FS 31
}
`,
};
const paths = Object.keys(files);

type Change =
  | { readonly kind: "figure"; readonly file: number; readonly at: number; readonly digit: number }
  | { readonly kind: "text"; readonly file: number; readonly at: number; readonly text: string }
  | { readonly kind: "row"; readonly file: number; readonly at: number; readonly twice: boolean }
  | { readonly kind: "undo" };

const place = fc.double({ min: 0, max: 0.999, noNaN: true });
const file = fc.nat(paths.length - 1);
const bits = [
  ...["}", "{", "\n", "// x", "mirrored ", "qty 3 ", " ± 5%", "was ", "total ", "BL 7, ", "lb"],
  ...["part spare estimated 1 lb at FS 3\n", "let area = 9 ft^2\n", 'include "wing.poise"\n', ";"],
];
const change: fc.Arbitrary<Change> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      ...{ kind: fc.constant("figure" as const), file, at: place, digit: fc.nat(9) },
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      ...{ kind: fc.constant("text" as const), file, at: place, text: fc.constantFrom(...bits) },
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      ...{ kind: fc.constant("row" as const), file, at: place, twice: fc.boolean() },
    }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("undo" as const) }) },
);

/** Where a change stands in a text, and what it puts in the place of what. */
function apply(text: string, change: Exclude<Change, { kind: "undo" }>): [number, number, string] {
  if (change.kind === "figure") {
    const figures = [...text.matchAll(/\d/g)];
    const at = figures[Math.floor(change.at * figures.length)]?.index ?? 0;
    return [at, Math.min(text.length, at + 1), `${change.digit}`];
  }
  if (change.kind === "text") {
    const at = Math.floor(change.at * (text.length + 1));
    return [at, at, change.text];
  }
  const rows = text.split("\n");
  const row = Math.floor(change.at * rows.length);
  const from = rows.slice(0, row).reduce((sum, it) => sum + it.length + 1, 0);
  const to = Math.min(text.length, from + rows[row]!.length + 1);
  return change.twice ? [from, from, `${rows[row]}\n`] : [from, to, ""];
}

function positionAt(text: string, offset: number) {
  const rows = text.slice(0, offset).split("\n");
  return { line: rows.length - 1, character: rows.at(-1)!.length };
}

/** What a server says of a workspace, with the places it says it of; what hangs on the text alone has a test of its own. */
function said(project: Project): string {
  const at = (span: Span) => [
    span.line.file,
    positionsOf(sourceOf(project, span.line.file)!, span),
  ];
  const { findings, roots } = judge(project);
  const entry = (it: Outline): unknown => [
    ...[it.name, it.detail, at(it.at), at(it.whole[0]), at(it.whole[1]), it.inside.map(entry)],
  ];
  return JSON.stringify([
    findings.map(it => [
      ...[it.code, it.message, it.airframes, it.waived, at(it.at)],
      it.related.map(other => [other.message, at(other.at)]),
    ]),
    roots.map(it => [it.summary, reportOf(it)]),
    paths.map(path => [
      outline(project, path).map(entry),
      links(project, path).map(it => [at(it.at), it.file]),
    ]),
  ]);
}

const emptyDisk: Disk = {
  file: path => ({ path, unreadable: "does not exist" }),
  folder: () => [],
  look: () => {},
  settled: () => true,
};

function openedWorkspace() {
  const space = workspace(emptyDisk, () => false);
  space.setFolders(["/specs"]);
  for (const path of paths) space.open(path, files[path]!);
  return space;
}
const anew = (texts: Readonly<Record<string, string>>) =>
  paths.reduce((sum, it) => withText(sum, it, texts[it]!), emptyProject(["/specs"]));

test("the aircraft above is sound, so that an edit is what breaks it", () => {
  const { findings, roots } = judge(anew(files));
  expect(findings.filter(it => it.severity === "error").map(it => it.message)).toEqual([]);
  expect(roots).toHaveLength(2);
});

test("after a thousand sequences of edits the server says what a fresh one says", () => {
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), changes => {
      const space = openedWorkspace();
      said(space.project());
      const texts: Record<string, string> = { ...files };
      const back: (() => void)[] = [];
      const put = (path: string, from: number, to: number, fresh: string) => {
        const before = texts[path]!;
        const range = { start: positionAt(before, from), end: positionAt(before, to) };
        space.change(path, [{ range, text: fresh }]);
        texts[path] = before.slice(0, from) + fresh + before.slice(to);
        return before.slice(from, to);
      };
      for (const it of changes) {
        if (it.kind === "undo") back.pop()?.();
        else {
          const path = paths[it.file]!;
          const [from, to, fresh] = apply(texts[path]!, it);
          const gone = put(path, from, to, fresh);
          back.push(() => put(path, from, from + fresh.length, gone));
        }
        // what was asked in between is remembered, and must not show
        judge(space.project());
      }
      for (const path of paths) expect(textOf(sourceOf(space.project(), path)!)).toBe(texts[path]);
      expect(said(space.project())).toBe(said(anew(texts)));
    }),
    { numRuns: 1000, seed: 20261128 },
  );
});
