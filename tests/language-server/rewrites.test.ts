import { expect, test } from "vitest";
import { actionsAnswer, chosenEdit, type EditorEdits } from "../../server/edges/action-answers";
import { emptyProject, withText } from "../../server/project";

const uri = "file:///specs/kite.poise";
const project = withText(
  emptyProject(["/specs"]),
  "/specs/kite.poise",
  `aircraft kite { units lb, in, gal }
assembly wing budget 50 lb {
  part bolt qty 2 weighed 5 lb ± 0.1 lb at FS 10
}
`,
);
const able: EditorEdits = { asksLater: true, files: true, asksFirst: true };
const plain: EditorEdits = { asksLater: false, files: false, asksFirst: false };

function offered(line: number, character: number, editor: EditorEdits, only?: string[]) {
  const at = { line, character };
  const context = only ? { diagnostics: [], only } : { diagnostics: [] };
  const range = { start: at, end: at };
  return actionsAnswer(project, { textDocument: { uri }, range, context }, editor);
}

test("an editor that asks later is told what may be done, and gets the edit of what was chosen", () => {
  const [action] = offered(1, 10, able, ["refactor.extract"]);
  expect(action).toMatchObject({
    title: "Move assembly wing to a file of its own, wing.poise",
    kind: "refactor.extract",
  });
  expect(action).not.toHaveProperty("edit");
  expect(chosenEdit(project, action!.data, able)).toEqual({
    documentChanges: [
      { kind: "create", uri: "file:///specs/wing.poise" },
      {
        textDocument: { uri: "file:///specs/wing.poise", version: null },
        edits: [
          {
            range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
            newText:
              "assembly wing budget 50 lb {\n  part bolt qty 2 weighed 5 lb ± 0.1 lb at FS 10\n}\n",
          },
        ],
      },
      {
        textDocument: { uri, version: null },
        edits: [
          {
            range: { start: { line: 1, character: 0 }, end: { line: 3, character: 1 } },
            newText: 'include "wing.poise"',
          },
        ],
      },
    ],
  });
});

test("where figures are written anew, the editor shows them first and asks", () => {
  const [action] = offered(0, 0, able, ["source"]);
  expect(action).toMatchObject({ title: "Write this file in kg, mm and L", kind: "source.units" });
  expect(chosenEdit(project, action!.data, able)).toMatchObject({
    changeAnnotations: {
      differences: {
        needsConfirmation: true,
        description: "kite: basic empty weight 10 lb, then 10.01 lb",
      },
    },
  });
});

test("an editor that cannot ask later gets the edit at once, and only what it can do", () => {
  const titles = offered(1, 10, plain, ["refactor"]).map(it => it.title);
  expect(titles).toEqual([]);
  const [split] = offered(2, 8, plain, ["refactor.extract"]);
  expect(split?.edit).toMatchObject({ changes: { [uri]: expect.any(Array) } });
});

test("what is of a whole file is offered where whole files are asked for, and not at every place", () => {
  expect(offered(2, 8, able).map(it => it.kind)).not.toContain("source.units");
  expect(offered(2, 8, able, ["quickfix"])).toEqual([]);
});

test("an action that no longer fits the text changes nothing, and says so", () => {
  const gone = { uri, position: { line: 0, character: 0 }, title: "Split one of the 3 off" };
  expect(chosenEdit(project, gone, able)).toBe("the text has changed meanwhile");
});

test("all that is certain is put right at once, as an editor may do on saving", () => {
  const loose = withText(
    project,
    "/specs/kite.poise",
    "aircraft kite { units lb, in }\npart  a{weighed 1lb;at FS 1}\n",
  );
  const at = { line: 0, character: 0 };
  const context = { diagnostics: [], only: ["source.fixAll"] };
  const asked = { textDocument: { uri }, range: { start: at, end: at }, context };
  const [action] = actionsAnswer(loose, asked, able);
  expect(action).toMatchObject({
    ...{ title: "Bring the file into the one layout", kind: "source.fixAll.poise" },
  });
  expect(chosenEdit(loose, action!.data, able)).toHaveProperty("documentChanges");
  const neat = "aircraft kite {\n  units lb, in\n}\npart a weighed 1 lb at FS 1\n";
  expect(actionsAnswer(withText(project, "/specs/kite.poise", neat), asked, able)).toEqual([]);
});
