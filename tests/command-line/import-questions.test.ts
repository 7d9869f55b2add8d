import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { folderOf } from "./poise";
import { CTRL_C, CTRL_D, ENTER, poiseAtTerminal, type Turn } from "./terminal";

/** Says neither its units nor what its comma is, nor whether a mass is of one rib or of all four. */
const list = "Name;Qty;Mass;X\nSpar;1;9,500;1200\nRib;4;1,250;1300\n";

const run = (folder: string, turns: readonly Turn[], ...more: string[]) =>
  poiseAtTerminal(["import", "a.csv", "-o", "kite.poise", "--on", "2026-03-01", ...more], turns, {
    in: folder,
  });
const specIn = (folder: string) => readFileSync(join(folder, "kite.poise"), "utf8");

const masses = "In what unit are the masses? [kg] ";
const places = "In what unit are the places? [mm] ";
const decimal = "Decimal comma or point? [comma] ";
const pieces = "Is Mass of one piece, or of all? [one] ";

test("at a terminal a list is asked about; an empty answer takes the best reading", async () => {
  const folder = folderOf({ "a.csv": list });
  const { status, screen } = await run(folder, [
    [masses, ENTER],
    [places, ENTER],
    [decimal, ENTER],
    [pieces, ENTER],
  ]);
  expect(screen).toContain("kite.poise: written, 2 parts in 0 assemblies");
  expect(specIn(folder)).toBe(`aircraft kite { units kg, mm }

part spar "Spar" calculated 9.5 kg on 2026-03-01 by "a.csv" at FS 1200 mm
part rib "Rib" qty 4 calculated 1.25 kg on 2026-03-01 by "a.csv" at FS 1300 mm
`);
  expect(status).toBe(0);
});

test("an answer that is none is told what would be one, and the question is put again", async () => {
  const folder = folderOf({ "a.csv": list });
  const { status, screen } = await run(folder, [
    [masses, `stone${ENTER}`],
    [masses, `mm${ENTER}`],
    [masses, `g${ENTER}`],
    [places, `furlong${ENTER}`],
    [places, `cm${ENTER}`],
    [decimal, `both${ENTER}`],
    [decimal, `point${ENTER}`],
    [pieces, `4${ENTER}`],
    [pieces, `all${ENTER}`],
  ]);
  for (const told of [
    "stone is not a unit of mass, such as kg, g, lb or oz\n",
    "mm is not a unit of mass, such as kg, g, lb or oz\n",
    "furlong is not a unit of length, such as mm, cm, m or in\n",
    "both is not comma or point\n",
    "4 is not one or all\n",
  ])
    expect(screen).toContain(told);
  expect(specIn(folder)).toContain(
    '"Rib" qty 4 calculated total 1250 g on 2026-03-01 by "a.csv" at FS 1300 cm\n',
  );
  expect(status).toBe(0);
});

test("answers that are pasted all at once find their questions", async () => {
  const folder = folderOf({ "a.csv": list });
  const { status } = await run(folder, [[masses, ["lb", "in", "comma", "all", ""].join(ENTER)]]);
  expect(specIn(folder)).toContain('"Rib" qty 4 calculated total 1.25 lb on');
  expect(specIn(folder)).toContain("{ units lb, in }");
  expect(status).toBe(0);
});

test("what an option says, or the list itself, is not asked", async () => {
  const folder = folderOf({ "a.csv": list });
  const all = ["--units=g,mm", "--decimal=comma", "--mass-of=one"];
  const { status, screen } = await run(folder, [], ...all);
  expect(screen).not.toContain("?");
  expect(specIn(folder)).toContain("calculated 1.25 g");
  expect(status).toBe(0);
});

test.each([
  ["the end of input", [[masses, CTRL_D]]],
  [
    "the end of input after an answer",
    [
      [masses, `g${ENTER}`],
      [places, CTRL_D],
    ],
  ],
  ["an interruption", [[masses, CTRL_C]]],
] as [string, Turn[]][])("%s ends it: nothing is written", async (_, turns) => {
  const folder = folderOf({ "a.csv": list });
  const { status, screen } = await run(folder, turns);
  expect(screen).toMatch(/\npoise: the question was not answered, and nothing is written\n$/);
  expect(existsSync(join(folder, "kite.poise"))).toBe(false);
  expect(status).toBe(2);
});

describe("while it asks", () => {
  const kite = 'aircraft kite { units kg, mm }\ninclude "wing.poise"\n';
  const wing = 'part spar "Spar" calculated 9 kg on 2026-02-01 at FS 1200\n';

  const disturbed = async (files: Record<string, string>, path: string, text: string) => {
    const folder = folderOf(files);
    const args = ["import", "a.csv", "-o", "kite.poise", "--units=kg,mm", "--mass-of=one"];
    const { status, screen } = await poiseAtTerminal(args, [[decimal, ENTER]], {
      in: folder,
      before: () => writeFileSync(join(folder, path), text),
    });
    return { folder, status, screen };
  };

  test("somebody changes an included file: none of the files is written", async () => {
    const files = { "a.csv": list, "kite.poise": kite, "wing.poise": wing };
    const { folder, status, screen } = await disturbed(files, "wing.poise", `// mine\n${wing}`);
    expect(screen).toContain(
      "wing.poise has changed on the disk since it was read: nothing is written",
    );
    expect(specIn(folder)).toBe(kite);
    expect(readFileSync(join(folder, "wing.poise"), "utf8")).toBe(`// mine\n${wing}`);
    expect(status).toBe(2);
  });

  test("somebody writes the file that is to be new: it stays", async () => {
    const { folder, status, screen } = await disturbed({ "a.csv": list }, "kite.poise", kite);
    expect(screen).toContain("kite.poise is there already: nothing is written");
    expect(specIn(folder)).toBe(kite);
    expect(status).toBe(2);
  });
});
