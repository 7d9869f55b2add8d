import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor, type Setup } from "./client";

const kite = `aircraft kite "Kite" { units lb, in, gal; budget 60 lb }
include "wing.poise"
airframe sn1 "S/N 1" { weighed wing.spar 41 lb on 2026-10-02 by "scale A" }
`;
const wing = 'assembly wing "Wing" budget 40 lb {\n  part spar calculated 42.5 lb at FS 120\n}\n';
const moth = "aircraft moth { units kg, mm, L }\npart hull quoted 80 kg at FS 900\n";

let folder: string;
let open: Awaited<ReturnType<typeof editor>>;
const at = (name: string) => join(folder, name);
const start = async (setup: Partial<Setup> = {}) => {
  open = await editor({ folders: [folder], ...setup });
};

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-budget-")));
  for (const [name, text] of Object.entries({ kite, wing, moth }))
    writeFileSync(at(`${name}.poise`), text);
});
afterEach(async () => {
  await open.stop();
  rmSync(folder, { recursive: true, force: true });
});

test("the weight budget of the aircraft a document belongs to, or of the one that is named", async () => {
  await start();
  const first = await open.budget();
  expect(first.roots.map(it => [it.title, it.airframe, it.emptyWeight])).toEqual([
    ["Kite", null, "42.5 lb"],
    ["Kite", "S/N 1", "41 lb"],
    ["moth", null, "80 kg"],
  ]);
  expect(first.tree).toMatchObject({ title: "Kite", basic: "42.5 lb" });
  const own = await open.budget({ uri: `file://${at("moth.poise")}` });
  expect(own.tree).toMatchObject({ title: "moth", basic: "80 kg" });
  const named = await open.budget({ root: first.roots[1]!.key, uri: `file://${at("moth.poise")}` });
  expect(named.shown).toBe(first.roots[1]!.key);
  expect(named.tree).toMatchObject({ title: "Kite", basic: "41 lb" });
  // one that is gone
  expect((await open.budget({ root: "file:///none.poise#" })).tree).toMatchObject({
    title: "Kite",
  });
});

test("each row has its place: of its name, and of all of it", async () => {
  await start();
  const [row] = (await open.budget()).tree!.inside;
  expect(row).toMatchObject({
    title: "Wing",
    budget: { verdict: "over", by: "2.5 lb" },
    range: { start: { line: 0, character: 9 }, end: { line: 0, character: 13 } },
    whole: { start: { line: 0, character: 0 }, end: { line: 2, character: 1 } },
  });
  expect(row!.uri.split("/").at(-1)).toBe("wing.poise");
  expect(row!.inside).toMatchObject([{ title: "spar", range: { start: { line: 1 } } }]);
});

test("without an aircraft there is nothing to show, and three answers begin one", async () => {
  for (const name of ["kite", "moth"]) rmSync(at(`${name}.poise`));
  await start();
  expect(await open.budget()).toEqual({ roots: [], shown: null, tree: null });
  const { units, mostSeats, file } = await open.begun({});
  expect({ units, mostSeats, file }).toEqual({
    units: ["lb, in, gal", "kg, mm, L", "kg, m, L"],
    mostSeats: 6,
    file: null,
  });
  const begun = await open.begun({ title: "Heron 2", units: "kg, m, L", seats: 2 });
  expect(begun.file!.name).toBe("heron_2.poise");
  expect((await open.begun({ title: "Heron", units: "kg, m, L", seats: 2.5 })).file).toBeNull();
  expect((await open.begun({ title: "Heron", units: "stone", seats: 2 })).file).toBeNull();
});

test("an editor that shows it is told how long a judgement took, and that it may have changed", async () => {
  await start({ tellsTime: true });
  const before = open.took.length;
  await open.open(at("wing.poise"), wing);
  const [from, to] = [
    { line: 1, character: 23 },
    { line: 1, character: 27 },
  ];
  await open.change(at("wing.poise"), [from, to, "39"]);
  expect([open.took.length - before, open.changes()]).toEqual([1, 0]);
  expect(open.took.every(it => it >= 0)).toBe(true);
  await open.budget();
  await open.change(at("wing.poise"), [from, { ...to, character: 25 }, "38"]);
  expect(open.changes()).toBe(1);
  await open.stop();
  await start();
  expect(open.took).toEqual([]);
});
