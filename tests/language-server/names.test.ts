import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { type Diagnostic, editor } from "./client";

interface Location {
  readonly uri: string;
  readonly range: Diagnostic["range"];
}

test("references, marks and a rename over files, and a refusal that an editor shows", async () => {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-names-")));
  const [kite, wing] = [join(folder, "kite.poise"), join(folder, "wing.poise")];
  writeFileSync(
    kite,
    'aircraft kite { units lb, in }\ninclude "wing.poise"\nrequire mass(tip) < 4 lb\n',
  );
  writeFileSync(wing, "part tip weighed 3 lb at FS 4\npart rib weighed 1 lb at FS 4\n");
  const open = await editor({ folders: [folder] });
  const position = { line: 2, character: 14 };
  const told = (all: readonly Location[]) =>
    all.map(
      ({ uri, range: { start } }) => `${uri.split("/").at(-1)}:${start.line}:${start.character}`,
    );

  const found = (includeDeclaration: boolean) =>
    open.ask<Location[]>("references", kite, { position, context: { includeDeclaration } });
  expect(told(await found(true))).toEqual(["wing.poise:0:5", "kite.poise:2:13"]);
  expect(told(await found(false))).toEqual(["kite.poise:2:13"]);
  expect(
    await open.ask("documentHighlight", wing, { position: { line: 0, character: 6 } }),
  ).toEqual([
    { range: { start: { line: 0, character: 5 }, end: { line: 0, character: 8 } }, kind: 3 },
  ]);
  expect(await open.ask("prepareRename", kite, { position })).toMatchObject({ placeholder: "tip" });
  expect(await open.ask("prepareRename", kite, { position: { line: 2, character: 3 } })).toBeNull();
  const { changes } = await open.ask<{ changes: Record<string, unknown[]> }>("rename", kite, {
    ...{ position, newName: "cap" },
  });
  expect(Object.keys(changes).map(it => it.split("/").at(-1))).toEqual([
    "wing.poise",
    "kite.poise",
  ]);
  await expect(open.ask("rename", kite, { position, newName: "rib" })).rejects.toThrow(
    "rib is there already.",
  );
  expect(await open.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});
