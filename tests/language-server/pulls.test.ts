import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor, holds, type Report, type Setup } from "./client";

const kite = 'aircraft kite "Kite" { units lb, in, gal; budget 40 lb }\ninclude "wing.poise"\n';
const wing = "assembly wing budget 40 lb {\n  part spar calculated 42 lb at FS 120\n}\n";
const over = "wing weighs 42 lb, 2 lb over its budget of 40 lb";
const overall = "kite weighs 42 lb, 2 lb over its budget of 40 lb";
/** The figure of the spar. */
const from = { line: 1, character: 23 };
const to = { line: 1, character: 25 };

let folder: string;
let running: Awaited<ReturnType<typeof editor>>[] = [];
const at = (name: string) => join(folder, name);
const start = async (setup: Partial<Setup> = {}) => {
  const open = await editor({ folders: [folder], textDocument: { diagnostic: {} }, ...setup });
  running.push(open);
  return open;
};

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-pulls-")));
  writeFileSync(at("kite.poise"), kite);
  writeFileSync(at("wing.poise"), wing);
});
afterEach(async () => {
  for (const open of running) expect(await open.stop()).toBe(0);
  running = [];
  rmSync(folder, { recursive: true, force: true });
});

const said = (items: readonly Report[] = []) =>
  items.map(it => `${basename(it.uri ?? "")}: ${it.items?.map(of => of.message).join("; ")}`);
const moment = () => new Promise(done => setTimeout(done, 600));

test("a document's findings are asked for, and told only if they are others than before", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing);
  const first = await open.pull(at("wing.poise"));
  expect(first.items?.map(it => it.message)).toEqual([over]);
  expect(await open.pull(at("wing.poise"), first.resultId)).toEqual({
    kind: "unchanged",
    resultId: first.resultId,
  });
  await open.change(at("wing.poise"), [from, to, "43"]);
  const next = await open.pull(at("wing.poise"), first.resultId);
  expect(next.items?.[0]?.message).toBe("wing weighs 43 lb, 3 lb over its budget of 40 lb");
  await open.change(at("wing.poise"), [from, to, "42"]);
  const back = await open.pull(at("wing.poise"), next.resultId);
  expect(back.items).toEqual(first.items);
  const end = { line: 3, character: 0 };
  await open.change(at("wing.poise"), [end, end, "// as in W-01\n"]);
  expect((await open.pull(at("wing.poise"), back.resultId)).kind).toBe("unchanged");
});

test("those of the whole workspace stay asked for: what changes later is a part of the answer", async () => {
  const open = await start();
  const told: Report[] = [];
  const { answer, cancel } = open.pullAll([], items => void told.push(...items));
  await holds(() => expect(said(told)).toEqual([`kite.poise: ${overall}`, `wing.poise: ${over}`]));
  await open.open(at("wing.poise"), wing);
  await open.change(at("wing.poise"), [from, to, "39"]);
  await holds(() => expect(said(told.slice(2))).toEqual(["kite.poise: ", "wing.poise: "]));
  expect(open.sent).toEqual([]);
  cancel();
  expect((await answer).items).toEqual([]);
});

test("an editor that takes no parts is answered when something is another, and asks again", async () => {
  const open = await start();
  const { items } = await open.pullAll([]).answer;
  expect(said(items)).toEqual([`kite.poise: ${overall}`, `wing.poise: ${over}`]);
  const { answer } = open.pullAll(items);
  await open.open(at("wing.poise"), wing.replace("42 lb", "39 lb"));
  expect(said((await answer).items)).toEqual(["kite.poise: ", "wing.poise: "]);
  // one that still waits at the end is answered too
  void open.pullAll((await answer).items);
});

test("findings of a file that is gone go with it", async () => {
  const open = await start();
  const { items } = await open.pullAll([]).answer;
  const { answer } = open.pullAll(items);
  rmSync(at("wing.poise"));
  await open.onDisk([at("wing.poise"), "deleted"]);
  expect(said((await answer).items)).toEqual([
    "kite.poise: there is no file wing.poise",
    "wing.poise: ",
  ]);
});

test("an editor that asks only for what it shows is sent the rest", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing);
  await holds(() => expect(open.sent).toEqual(["kite.poise 1"]));
  await open.open(at("kite.poise"), kite);
  await holds(() => expect(open.sent).toEqual(["kite.poise 1", "kite.poise 0"]));
  await open.close(at("wing.poise"));
  await holds(() => expect(open.sent.at(-1)).toBe("wing.poise 1"));
  // from when it asks for all, none is sent and what was sent is taken back
  await open.pullAll([]).answer;
  await holds(() => expect(open.sent.at(-1)).toBe("wing.poise 0"));
});

test("one that takes those of related documents has them with the document it asks for", async () => {
  const open = await start({ textDocument: { diagnostic: { relatedDocumentSupport: true } } });
  await open.open(at("wing.poise"), wing);
  const first = await open.pull(at("wing.poise"));
  const [[uri, related] = []] = Object.entries(first.relatedDocuments ?? {});
  expect(uri).toMatch(/kite\.poise$/);
  expect(related?.items?.map(it => it.message)).toEqual([overall]);
  expect((await open.pull(at("wing.poise"))).relatedDocuments).toBeUndefined();
  await open.change(at("wing.poise"), [from, to, "39"]);
  const next = await open.pull(at("wing.poise"));
  expect(Object.values(next.relatedDocuments ?? {}).map(it => it.items)).toEqual([[]]);
  await moment();
  expect(open.sent).toEqual([]);
});

test("when typing rests, an editor is asked to ask again for another document that changed", async () => {
  const open = await start({ refreshes: true });
  await open.open(at("kite.poise"), kite);
  await open.open(at("wing.poise"), wing);
  await open.pull(at("kite.poise"));
  for (const figure of ["43", "44"]) {
    await open.change(at("wing.poise"), [from, to, figure]);
    await open.pull(at("wing.poise"));
  }
  await holds(() => expect(open.refreshed).toEqual(["diagnostic"]));
  const end = { line: 3, character: 0 };
  await open.pull(at("kite.poise"));
  await open.change(at("wing.poise"), [end, end, "// as in W-01\n"]);
  await moment();
  expect(open.refreshed).toEqual(["diagnostic"]);
});

test("at most a hundred a file, errors first, whoever asks", async () => {
  const parts = Array.from({ length: 130 }, (_, i) => `part p${i} at FS ${i}`);
  writeFileSync(at("wing.poise"), `${parts.join("\n")}\npart p0 weighed 1 lb at FS 1\n`);
  const open = await start();
  const { items = [] } = await open.pull(at("wing.poise"));
  expect(items).toHaveLength(101);
  expect(items[0]).toMatchObject({ code: "declared-twice", severity: 1 });
  expect(items.at(-1)?.message).toMatch(/^\d+ more findings in this file/);
});

test("what does nothing is faded, a code leads to its page, and a reason to its place", async () => {
  const spec = `aircraft kite { units lb, in }
part frame {
  weighed 6.9 lb on 2026-06-14
  calculated 7.3 lb on 2026-09-01
  at FS 124
}
waive over-budget of frame "accepted for the prototype"
`;
  writeFileSync(at("kite.poise"), spec);
  const shows = { tagSupport: { valueSet: [1, 2] }, codeDescriptionSupport: true };
  const open = await start({
    textDocument: { diagnostic: shows },
    workspace: { textDocumentContent: {} },
  });
  const { items = [] } = await open.pull(at("kite.poise"));
  expect(
    items.map(({ code, severity, tags, range }) => [code, severity, tags, range.start]),
  ).toEqual([
    ["record-overtaken", 2, undefined, { line: 2, character: 10 }],
    ["record-overtaken", 4, [1], { line: 3, character: 13 }],
    ["waiver-unused", 2, [1], { line: 6, character: 6 }],
  ]);
  const [overtaken] = items;
  expect(overtaken?.relatedInformation?.map(it => it.location.range.start)).toEqual([
    { line: 3, character: 13 },
  ]);
  expect(overtaken?.codeDescription?.href).toBe("poise-code:/record-overtaken.md");
  const page = await open.content(overtaken!.codeDescription!.href);
  expect(page).toMatch(/^# record-overtaken \(warning\)\n\nA part has a later figure/);
  expect(page).toContain("weighed 6.9 lb on 2026-06-14");
  expect(await open.content("poise-code:/nonsense.md")).toBe("No finding has the code nonsense.\n");

  // one that shows less is told less
  const plain = await start();
  expect((await plain.pull(at("kite.poise"))).items).toEqual([
    expect.not.objectContaining({ codeDescription: expect.anything() }),
    expect.not.objectContaining({ tags: expect.anything() }),
  ]);
});
