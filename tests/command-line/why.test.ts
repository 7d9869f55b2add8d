import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const teal = {
  "teal.poise": 'aircraft teal { units lb, in }\ninclude "parts/wing.poise"\n',
  "parts/wing.poise": "assembly wing {\n  part spar mirrored quoted 2 kg at FS 120, BL 30\n}\n",
};

test("why prints how a figure comes about, each line with the place it comes from", () => {
  const { status, stdout, stderr } = poise(["why", "parts/wing.poise", "wing.spar.LH"], {
    in: folderOf(teal),
  });
  expect(stderr).toBe("");
  expect(stdout).toBe(`\
wing.spar.LH, the left-hand one    parts/wing.poise:2:8
  4.41 lb at FS 120 in, BL -30 in

Records, of one piece
  quoted  2 kg = 4.41 lb  governs  parts/wing.poise:2:22

Mass
  basic   4.41 lb                  parts/wing.poise:2:22
  growth  none: no growth is said for quoted

Place
  at         FS 120 in, BL 30 in   parts/wing.poise:2:34
  left-hand  BL turned: FS 120 in, BL -30 in

Moment
  about the datum       4.41 lb × 120 in = 529.1 lb in
  about the centerline  4.41 lb × -30 in = -132.3 lb in
`);
  expect(status).toBe(0);
});

test("why also reads standard input", () => {
  const { stdout } = poise(["why", "-", "empty"], {
    in: folderOf({}),
    input: "aircraft kite { units lb, in }\npart hull weighed 12 lb at FS 20\n",
  });
  expect(stdout).toContain("240 lb in ÷ 12 lb = 20 in");
  expect(stdout).toContain("stdin.poise:1:10");
});

test.each([
  [["wing.poise"], "why takes a file and a path: poise why FILE wing.spar"],
  [
    ["parts/wing.poise", "wing.sparr"],
    "nothing is called wing.sparr in teal; did you mean wing.spar?",
  ],
  [["teal.poise", "zebra"], "nothing is called zebra in teal"],
  [["gone.poise", "wing"], "gone.poise does not exist"],
  [["alone.poise", "fin"], "no aircraft reaches alone.poise"],
])("poise why %s: said on standard error, status 2", (args, message) => {
  const { status, stdout, stderr } = poise(["why", ...args], {
    in: folderOf({ ...teal, "alone.poise": "part fin weighed 1 lb at FS 200\n" }),
  });
  expect(stderr).toBe(`poise: ${message}\n`);
  expect(stdout).toBe("");
  expect(status).toBe(2);
});
