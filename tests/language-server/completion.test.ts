import { expect, test } from "vitest";
import { editor, type Setup } from "./client";

interface Item {
  readonly label: string;
  readonly detail?: string;
  readonly labelDetails?: object;
  readonly documentation?: { readonly kind: string; readonly value: string };
  readonly insertTextFormat?: number;
  readonly textEdit: {
    readonly newText: string;
    readonly range?: object;
    readonly insert?: object;
  };
}

const kite = "/specs/kite.poise";
const text = `aircraft kite { units lb, in }
part spar weighed 4.06 lb at FS 112
require mass(sp) < 5 lb
p
`;

async function asked(setup: Partial<Setup>) {
  const open = await editor({ folders: ["/specs"], ...setup });
  await open.open(kite, text);
  const items = async (line: number, character: number) => {
    const params = { position: { line, character } };
    const found = await open.ask<{ items: readonly Item[] }>("completion", kite, params);
    return found.items;
  };
  const find = async (line: number, character: number, label: string) =>
    (await items(line, character)).find(it => it.label === label);
  return { open, find };
}

test("a part with its mass and arm, and its records once it is looked at", async () => {
  const { open, find } = await asked({
    list: {
      ...{ labelDetailsSupport: true, insertReplaceSupport: true, snippetSupport: true },
      documentationFormat: ["markdown"],
    },
  });
  const spar = await find(2, 14, "spar");
  expect(spar).toMatchObject({
    labelDetails: { detail: " 4.06 lb at FS 112", description: "part" },
    textEdit: {
      newText: "spar",
      insert: { start: { line: 2, character: 13 }, end: { line: 2, character: 14 } },
      // the letter behind the cursor goes too, if the editor is told to replace
      replace: { start: { line: 2, character: 13 }, end: { line: 2, character: 15 } },
    },
  });
  expect(spar?.documentation).toBeUndefined();
  const { documentation } = await open.resolve("completionItem", spar!);
  expect(documentation?.kind).toBe("markdown");
  expect(documentation?.value).toContain("weighed 4.06 lb");
  const whole = (await find(3, 1, "part-records"))!;
  expect(whole.insertTextFormat).toBe(2);
  expect(whole.textEdit.newText).toMatch(/^part \$\{1:aileron\}/);
  expect(await open.stop()).toBe(0);
});

test("an editor that knows nothing of all this gets plain words", async () => {
  const { open, find } = await asked({});
  const spar = await find(2, 14, "spar");
  expect(spar?.detail).toBe("4.06 lb at FS 112, part");
  expect(spar?.labelDetails).toBeUndefined();
  expect(spar?.textEdit.range).toEqual({
    start: { line: 2, character: 13 },
    end: { line: 2, character: 14 },
  });
  const whole = (await find(3, 1, "part-records"))!;
  expect(whole.insertTextFormat).toBeUndefined();
  expect(whole.textEdit.newText).toContain('part aileron "title" {\n  pn "W-31"');
  expect(await open.stop()).toBe(0);
});
