import { expect, test } from "vitest";
import { textOf } from "../../grammar/source";
import { rewritten } from "../../server/features/refactor/rewrite";
import { rename } from "../../server/features/rename";
import { type Files, opened } from "./cursor";

/** The files that change, as they read afterwards; a refusal in its words. */
function renamed(files: Files | string, name: string): Record<string, string> | string {
  const { project, path, position } = opened(files);
  const result = rename(project, path, position, name);
  if ("refused" in result) return result.refused;
  const after: Record<string, string> = {};
  for (const [at, file] of rewritten(project, result).files) {
    if ("unreadable" in file || file === project.files.get(at)) continue;
    after[at.slice("/specs/".length)] = textOf(file);
  }
  return after;
}

const kite = (rows: string) => `aircraft kite { units lb, in, gal }\n${rows}`;

test("one word of a path, over files, sides and options", () => {
  const files = {
    "kite.poise": kite('include "wing.poise"\nrequire mass(wing.tip.LH) < 4 lb\n'),
    "wing.poise": "assembly wing {\n  part ti$0p mirrored weighed 3 lb at FS 4, BL 9\n}\n",
    "sn1.poise": 'include "kite.poise"\nairframe sn1 { weighed wing.tip.LH 3.1 lb }\n',
  };
  expect(renamed(files, "end_cap")).toEqual({
    "kite.poise": kite('include "wing.poise"\nrequire mass(wing.end_cap.LH) < 4 lb\n'),
    "wing.poise": "assembly wing {\n  part end_cap mirrored weighed 3 lb at FS 4, BL 9\n}\n",
    "sn1.poise": 'include "kite.poise"\nairframe sn1 { weighed wing.end_cap.LH 3.1 lb }\n',
  });
});

test("a let, a loading and a fluid, on rows with more than one of them", () => {
  expect(renamed(kite("let a$0rea = 3 ft^2\nlet b = area * area\n"), "side")).toEqual({
    "kite.poise": kite("let side = 3 ft^2\nlet b = side * side\n"),
  });
  const flown = kite(
    "part hull weighed 9 lb at FS 1\nloading so$0lo { }\nrequire fs(solo.takeoff) == fs(solo.landing)\n",
  );
  expect(renamed(flown, "alone")).toEqual({
    "kite.poise": kite(
      "part hull weighed 9 lb at FS 1\nloading alone { }\nrequire fs(alone.takeoff) == fs(alone.landing)\n",
    ),
  });
});

test("what would clash, or is no name, is refused in words", () => {
  const two = kite(
    "assembly wing {\n  part ti$0p weighed 3 lb at FS 4\n  part rib weighed 1 lb at FS 4\n}\n",
  );
  expect(renamed(two, "rib")).toBe("wing.rib is there already");
  expect(renamed(two, "2nd")).toBe("2nd is no name: a letter, then letters, digits or _");
  expect(renamed(two, "")).toBe("nothing is no name: a letter, then letters, digits or _");
  expect(renamed(two, "tip")).toEqual({});
  expect(renamed(kite("part tip weighed $03 lb at FS 4\n"), "rib")).toBe("no name stands here");
  expect(renamed(kite("let a$0rea = 3 ft^2\n"), "part")).toContain("there would be a new finding");
  expect(renamed(kite("let a$0rea = 3 ft^2\nlet side = 2 ft^2\n"), "side")).toContain(
    "there would be a new finding",
  );
});

test("a name that an inner one would hide is refused: it would mean something else", () => {
  const text = kite(
    "let wid$0th = 4 in\nassembly wing {\n  let chord = 4 in\n  part rib weighed 1 lb at FS width + chord\n}\n",
  );
  expect(renamed(text, "chord")).toBe("chord means something else in its place");
});
