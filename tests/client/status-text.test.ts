import { expect, test } from "vitest";
import { type Root, stateDetail, statusText } from "../../client/status-text";
import { say } from "./say";

const dunlin: Root = {
  name: "Dunlin",
  file: "file:///spec/dunlin/dunlin.poise",
  files: ["file:///spec/dunlin/dunlin.poise", "file:///spec/dunlin/gear/gear.poise"],
  emptyWeight: "1,112.4 lb",
  cg: "FS 128.3 in",
  complete: true,
  errors: 0,
  warnings: 1,
};
const kite: Root = {
  name: "Kite",
  file: "file:///spec/kite/kite.poise",
  files: ["file:///spec/kite/kite.poise", "file:///spec/dunlin/wings.poise"],
  emptyWeight: "53.5 lb",
  complete: true,
  errors: 2,
  warnings: 0,
};

test("the aircraft, its empty weight and where that figure comes from", () => {
  expect(statusText("running", [dunlin], undefined, say)).toEqual({
    text: "$(law) Dunlin 1,112.4 lb",
    tooltip: [
      "**Dunlin**  \nbasic empty weight 1,112.4 lb  \nCG at FS 128.3 in  \nno errors, 1 warning",
      "A calculated weight is not a weighing.",
    ].join("\n\n"),
  });
});

test("the aircraft goes first that the file being edited belongs to", () => {
  const text = (file: string) => statusText("running", [dunlin, kite], file, say).text;
  expect(text("file:///spec/dunlin/gear/gear.poise")).toBe("$(law) Dunlin 1,112.4 lb");
  expect(text("file:///spec/dunlin/wings.poise")).toBe("$(law) Kite 53.5 lb");
});

test("beside a file that no aircraft includes, the nearest; without folders, the first", () => {
  const text = (file: string) => statusText("running", [dunlin, kite], file, say).text;
  expect(text("file:///spec/kite/notes/tips.poise")).toBe("$(law) Kite 53.5 lb");
  expect(text("untitled:Untitled-1")).toBe("$(law) Dunlin 1,112.4 lb");
});

test("an airframe goes first in the file that declares it, elsewhere its design", () => {
  const file = "file:///spec/dunlin/sn003.poise";
  const sn003 = { ...dunlin, airframe: "S/N 003", file, files: [file], emptyWeight: "1,130 lb" };
  const design = { ...dunlin, files: [...dunlin.files, file] };
  const shown = (active: string) => statusText("running", [sn003, design], active, say);
  expect(shown(file).text).toBe("$(law) Dunlin, S/N 003 1,130 lb");
  const { text, tooltip } = shown(dunlin.file);
  expect(text).toBe("$(law) Dunlin 1,112.4 lb");
  expect(tooltip).toContain("**Dunlin, S/N 003**  \nbasic empty weight 1,130 lb");
});

test("an incomplete figure says so, and a missing CG too", () => {
  const { text, tooltip } = statusText("running", [{ ...kite, complete: false }], undefined, say);
  expect(text).toBe("$(law) Kite 53.5 lb, incomplete");
  expect(tooltip).toContain("CG not known");
  expect(tooltip).toContain("incomplete: a mass or an arm is not known yet");
  expect(tooltip).toContain("2 errors, no warnings");
});

test("without a running server no weight is shown", () => {
  expect(statusText("starting", [dunlin], undefined, say).text).toBe("$(sync~spin) Poise");
  expect(statusText("stopped", [dunlin], undefined, say).text).toBe(
    "$(circle-slash) Poise stopped",
  );
  expect(statusText("running", [], undefined, say).tooltip).toBe(
    "No aircraft in this workspace yet.",
  );
});

test("beside the language: the server's state, and how long the last change took", () => {
  expect(stateDetail("starting", undefined, say)).toBe("language server starting");
  expect(stateDetail("running", undefined, say)).toBe("language server running");
  expect(stateDetail("running", 0.2, say)).toBe("language server running, last judged in <1 ms");
  expect(stateDetail("running", 12.4, say)).toBe("language server running, last judged in 12 ms");
  expect(stateDetail("stopped", 12.4, say)).toBe("language server stopped");
});
