import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { textOf } from "../../grammar/source";
import { fileOffers, offersAt } from "../../server/features/refactor";
import { proved } from "../../server/features/refactor/proof";
import { type Offer, rewritten } from "../../server/features/refactor/rewrite";
import { judge } from "../../server/judge";
import { emptyProject, type Project, sourceOf, withText } from "../../server/project";

const examples = fileURLToPath(new URL("../../examples", import.meta.url));
const folders = readdirSync(examples);

function opened(name: string): { project: Project; paths: readonly string[] } {
  const folder = join(examples, name);
  const paths = readdirSync(folder)
    .filter(it => it.endsWith(".poise"))
    .map(it => join(folder, it));
  const project = paths.reduce(
    (sum, path) => withText(sum, path, readFileSync(path, "utf8")),
    emptyProject([folder]),
  );
  return { project, paths };
}

/** What is offered on the first word of some rows, so that every file has its turn; of moves the nearest. */
function offersIn(project: Project, path: string): readonly Offer[] {
  const rows = textOf(sourceOf(project, path)!).split("\n");
  return rows.flatMap((row, line) => {
    const character = row.length - row.trimStart().length + 1;
    if (line % 19 !== 0) return [];
    const offers = offersAt(project, path, { line, character }, "2026-11-28");
    const [move] = offers.filter(it => it.kind === "move");
    return [...offers.filter(it => it.kind !== "move"), ...(move ? [move] : [])];
  });
}

test.each(folders)(
  "in %s whatever is offered keeps the aircraft as it is, or says why not",
  name => {
    const { project, paths } = opened(name);
    const outcomes = paths
      .flatMap(path => offersIn(project, path))
      .map(offer => proved(project, offer));
    const kept = outcomes.flatMap(it => ("rewrite" in it ? it : []));
    expect(kept.length).toBeGreaterThan(outcomes.length / 3);
    for (const it of outcomes) if ("refused" in it) expect(it.refused).not.toMatch(/undefined|NaN/);
    for (const { rewrite } of kept)
      expect(rewritten(project, rewrite).files).not.toEqual(project.files);
  },
);

test.each(folders)("%s in other units and back weighs what it weighed, to a thousandth", name => {
  const { project, paths } = opened(name);
  const own = paths.find(path => /^\s*units /m.test(textOf(sourceOf(project, path)!)))!;
  const first = fileOffers(project, own)[0]!;
  const there = proved(project, first);
  expect(there).toHaveProperty("rewrite");
  if ("refused" in there) return;
  const other = rewritten(project, there.rewrite);
  const back = fileOffers(other, own).find(it => it.title !== first.title)!;
  const outcome = proved(other, back);
  expect(outcome).toHaveProperty("rewrite");
  if ("refused" in outcome) return;
  const empty = (it: Project) =>
    Number.parseFloat(judge(it).roots[0]!.emptyWeight.replace(",", ""));
  const ratio = empty(rewritten(other, outcome.rewrite)) / empty(project);
  expect(Math.abs(ratio - 1)).toBeLessThan(0.001);
});
