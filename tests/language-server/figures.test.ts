import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor, type Hint, holds, type Setup } from "./client";

const kite = `aircraft kite "Kite" {
  units lb, in, gal
}
include "wing.poise"
`;
const wing = `assembly wing budget 40 lb {
  part ribs qty 10 calculated 3 lb at FS 120
}
`;
/** The figure of the ribs. */
const from = { line: 1, character: 30 };
const to = { line: 1, character: 31 };

let folder: string;
let running: Awaited<ReturnType<typeof editor>>[] = [];
const at = (name: string) => join(folder, name);
const start = async (setup: Partial<Setup> = {}) => {
  const open = await editor({ folders: [folder], ...setup });
  running.push(open);
  return open;
};

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-figures-")));
  writeFileSync(at("kite.poise"), kite);
  writeFileSync(at("wing.poise"), wing);
});
afterEach(async () => {
  for (const open of running) expect(await open.stop()).toBe(0);
  running = [];
  rmSync(folder, { recursive: true, force: true });
});

const said = (hints: readonly Hint[]) =>
  hints.map(
    ({ position: { line, character }, label }) =>
      `${line}:${character} ${label.map(it => it.value).join("")}`,
  );

test("figures stand behind the rows asked for, and lead to what they tell of", async () => {
  const open = await start();
  const hints = await open.hints(at("wing.poise"));
  expect(said(hints)).toEqual(["0:28 = 30 lb, 10 lb left", "1:44 = 30 lb"]);
  const [, left] = hints[0]!.label;
  expect(left!.location).toEqual({
    uri: expect.stringMatching(/wing\.poise$/),
    range: { start: { line: 0, character: 21 }, end: { line: 0, character: 26 } },
  });
  expect(said(await open.hints(at("wing.poise"), 1, 1))).toEqual(["1:44 = 30 lb"]);
});

test("a setting says which figures are shown", async () => {
  const open = await start({ refreshes: true });
  await open.configure({ inlayHints: { sums: false } });
  expect(said(await open.hints(at("wing.poise")))).toEqual(["1:44 = 30 lb"]);
  expect(open.refreshed).toEqual(["inlayHint"]);
  await open.configure({});
  expect(await open.hints(at("wing.poise"))).toHaveLength(2);
});

test("when typing rests, an editor is asked to ask again for what changed elsewhere, and only then", async () => {
  const open = await start({ refreshes: true });
  await open.open(at("kite.poise"), kite);
  await open.open(at("wing.poise"), wing);
  expect(said(await open.hints(at("kite.poise")))).toEqual(["0:22 = 30 lb"]);
  await open.hints(at("wing.poise"));
  for (const figure of ["4", "5", "6"]) {
    await open.change(at("wing.poise"), [from, to, figure]);
    await open.hints(at("wing.poise"));
  }
  await holds(() => expect(open.refreshed).toEqual(["inlayHint"]));
  expect(said(await open.hints(at("kite.poise")))).toEqual(["0:22 = 60 lb"]);

  // nothing that is shown elsewhere hangs on a comment
  const end = { line: 3, character: 0 };
  await open.change(at("wing.poise"), [end, end, "// as in W-01\n"]);
  await new Promise(done => setTimeout(done, 600));
  expect(open.refreshed).toEqual(["inlayHint"]);
});

test("an editor that cannot be asked to ask again is not asked", async () => {
  const open = await start();
  await open.open(at("kite.poise"), kite);
  await open.open(at("wing.poise"), wing);
  await open.hints(at("kite.poise"));
  await open.change(at("wing.poise"), [from, to, "4"]);
  await new Promise(done => setTimeout(done, 600));
  expect(open.refreshed).toEqual([]);
});

test("a lens is filled in when it comes into view, and leads to how it comes about where that can be shown", async () => {
  const [lens] = await (await start()).lenses(at("wing.poise"));
  expect(lens?.range.start).toEqual({ line: 0, character: 9 });
  expect(lens?.command).toEqual({
    title: "predicted 30 lb of 40 lb (75 %) · CG FS 120 in",
    command: "",
  });
  const open = await start({ linksWhy: true });
  const [linked] = await open.lenses(at("wing.poise"));
  expect(linked?.command?.command).toBe("poise.why");
  const [question] = linked!.command!.arguments!;
  expect((await open.why(at("kite.poise"), question!.path))?.text).toContain("wing");
  expect(question!.uri).toMatch(/kite\.poise$/);
});

test("a lens of an airframe in a file of its own leads to that airframe", async () => {
  writeFileSync(
    at("sn1.poise"),
    'include "kite.poise"\nairframe sn1 serial 1 { remove wing.ribs }\n',
  );
  const open = await start({ linksWhy: true });
  const [lens] = await open.lenses(at("sn1.poise"));
  expect(lens?.command?.title).toContain("basic empty weight 0 lb");
  const [question] = lens!.command!.arguments!;
  expect(question).toMatchObject({ uri: expect.stringMatching(/sn1\.poise$/), path: "kite" });
  const why = await open.why(at("sn1.poise"), "kite");
  expect(why?.uri).toBe(question!.uri);
  expect(why?.text).not.toContain("30 lb");
});

test("lenses that an edit elsewhere changed are asked for again when typing rests", async () => {
  const open = await start({ refreshes: true });
  await open.open(at("kite.poise"), kite);
  await open.open(at("wing.poise"), wing);
  const title = async () => (await open.lenses(at("kite.poise")))[0]?.command?.title;
  expect(await title()).toContain("basic empty weight 30 lb");
  await open.change(at("wing.poise"), [from, to, "4"]);
  await holds(() => expect(open.refreshed).toEqual(["codeLens"]));
  expect(await title()).toContain("basic empty weight 40 lb");
});
