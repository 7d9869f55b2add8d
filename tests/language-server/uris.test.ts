import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";
import { isIn, pathOf, uriOf } from "../../server/edges/uris";

test("a file is called by its path, whatever letters are in it", () => {
  for (const path of ["/a/kite.poise", "/Flügel #1 [alt]/50 % {x}?/wing two.poise"]) {
    expect(pathOf(pathToFileURL(path).href)).toBe(path);
    expect(pathOf(uriOf(path))).toBe(path);
  }
});

test("drives and shares of Windows", () => {
  expect(pathOf("file:///c%3A/spec/kite.poise")).toBe("c:/spec/kite.poise");
  expect(uriOf("c:/my spec/kite.poise")).toBe("file:///c:/my%20spec/kite.poise");
  expect(pathOf("file://hangar/spec/kite.poise")).toBe("//hangar/spec/kite.poise");
  expect(uriOf("//hangar/spec/kite.poise")).toBe("file://hangar/spec/kite.poise");
});

test("a file of another file system keeps its address, with its path to be read", () => {
  const path = "vscode-vfs://github/some one/kite/main wing.poise";
  expect(pathOf("vscode-vfs://github/some%20one/kite/main%20wing.poise")).toBe(path);
  expect(uriOf(path)).toBe("vscode-vfs://github/some%20one/kite/main%20wing.poise");
  expect(isIn(path, "vscode-vfs://github/some one/kite")).toBe(true);
  expect(isIn(path, "vscode-vfs://github/some one/kit")).toBe(false);
});

test("what has no path, or one that cannot be read, keeps its address as it is", () => {
  for (const uri of ["untitled:Untitled-1", "file:///%ff.poise", "http://x/a.poise?ref=1"]) {
    expect(pathOf(uri)).toBe(uri);
    expect(uriOf(uri)).toBe(uri);
  }
});
