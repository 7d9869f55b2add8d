import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const kite =
  "aircraft kite { units lb, in }\nassembly wing budget 40 lb {\n  part spar calculated 30 lb at FS 100\n}\n";

test("what another value would do, with the places, and no file touched", () => {
  const folder = folderOf({ "kite.poise": kite });
  const { status, stdout } = poise(["try", "wing.spar", "41 lb"], { in: folder });
  expect(status).toBe(0);
  expect(stdout).toMatch(/^Trial: wing.spar 41 lb instead of 30 lb +kite.poise:3:24\n/);
  expect(stdout).toContain(
    "  new   error[over-budget]: wing weighs 41 lb, 1 lb over its budget of 40 lb",
  );
  expect(stdout).toContain("empty 30 lb → 41 lb; FS 100 in; wing weighs 41 lb");
  expect(readFileSync(join(folder, "kite.poise"), "utf8")).toBe(kite);
  expect(poise(["try", "kite.poise", "wing.spar", "29 lb"], { in: folder }).status).toBe(0);
});

test("what cannot be tried is said, with what was meant", () => {
  const folder = folderOf({ "kite.poise": kite });
  const said = (...args: string[]) => poise(["try", ...args], { in: folder }).stderr;
  expect(said("wing.spr", "3 lb")).toBe(
    "poise: nothing is called wing.spr; did you mean wing.spar?\n",
  );
  expect(said("wing.spar", "spruce")).toBe("poise: nothing is called spruce here\n");
  expect(said("wing.spar")).toContain("try takes perhaps a file, a path and a value");
});

test("a loading has no value of its own, and a seat in it has", () => {
  const folder = folderOf({
    "kite.poise": `${kite}seat pilot at FS 90
envelope normal { takeoff 300 lb; cg FS 80 .. 110 }
loading solo { pilot 150 lb }
`,
  });
  expect(poise(["try", "solo", "70 kg"], { in: folder }).stderr).toBe(
    "poise: solo has no value of its own: try a part, a seat or another place, a let or a choice\n",
  );
});

test.each([["try", "wing.spar", "41 lb"], ["compare"], ["compare", "--airframe", "sn1"]])(
  "of several aircraft in a folder, poise %s takes none silently",
  (...call) => {
    const folder = folderOf({ "a.poise": kite, "b.poise": kite.replaceAll("kite", "teal") });
    expect(poise(call, { in: folder })).toMatchObject({
      status: 2,
      stderr:
        "poise: 2 aircraft are in this folder: name a file of the one that is meant, such as a.poise\n",
    });
  },
);
