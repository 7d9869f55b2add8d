import { expect, test } from "vitest";
import type { Token } from "../../server/features/line-tokens";
import { tokens } from "../../server/features/tokens";
import { emptyProject, withText } from "../../server/project";
import { specs } from "../grammar/specs";

const project = (text: string) => withText(emptyProject(["/"]), "/x.poise", text);

/** Each word with what it is: `spar=type.declaration`. */
function told(text: string): string {
  const rows = text.split("\n");
  const shown = ({ row, column, length, type, modifiers }: Token) =>
    `${rows[row]!.slice(column, column + length)}=${[type, ...modifiers].join(".")}`;
  return tokens(project(text), "/x.poise").map(shown).join(" ");
}

test("a thing may be called by a keyword: its place says that it is a name", () => {
  expect(told("part takeoff weighed 4 lb // as is")).toBe(
    "part=keyword.declaration takeoff=type.declaration weighed=keyword.basis 4=number lb=keyword.unit // as is=comment",
  );
  expect(told("loading solo under part { total full; burn total to 5% }")).toBe(
    "loading=keyword.declaration solo=type.declaration under=keyword part=variable total=variable full=enumMember burn=keyword.control total=variable to=keyword 5=number %=keyword.unit",
  );
});

test("declared and used, functions and units, sides and constants", () => {
  expect(told("let a = 2 kg/m^2 * area - min(b, mass(empty))")).toBe(
    "let=keyword.declaration a=variable.declaration ==operator 2=number kg=keyword.unit /=keyword.unit m=keyword.unit ^=keyword.unit 2=keyword.unit *=operator area=variable -=operator min=function b=variable mass=function empty=enumMember",
  );
  expect(told('waive over-budget of wing.LH "why"')).toBe(
    'waive=keyword.control over=enumMember -=enumMember budget=enumMember of=keyword wing=variable LH=enumMember "why"=string',
  );
});

test("a record that no longer counts is deprecated up to its figure, its date and notes are not", () => {
  const text = `aircraft kite { units lb, in }
part spar {
  estimated 5 lb ± 4% on 2026-01-02
  was weighed 3 lb note "rev A"
  calculated 4 lb
}`;
  const old = tokens(project(text), "/x.poise").filter(it => it.modifiers.includes("deprecated"));
  const rows = text.split("\n");
  expect(old.map(it => rows[it.row]!.slice(it.column, it.column + it.length)).join(" ")).toBe(
    "estimated 5 lb ± 4 % was weighed 3 lb",
  );
});

test("tokens stand in order and apart, in rows that a statement goes on in too", () => {
  expect(
    tokens(project("part a weighed 3 lb at FS 1, // x\n  BL 2"), "/x.poise")
      .slice(-3)
      .map(({ row, column, length, type }) => [row, column, length, type]),
  ).toEqual([
    [0, 29, 4, "comment"],
    [1, 2, 2, "property"],
    [1, 5, 1, "number"],
  ]);
  for (const text of specs.values()) {
    let last = { row: 0, end: 0 };
    for (const { row, column, length } of tokens(project(text), "/x.poise")) {
      expect(length).toBeGreaterThan(0);
      if (row === last.row) expect(column).toBeGreaterThanOrEqual(last.end);
      else expect(row).toBeGreaterThan(last.row);
      last = { row, end: column + length };
    }
  }
});

test("of some rows are those of the whole that stand in them", () => {
  const text = "part a\npart b weighed 3 lb\n\npart c\n";
  const rows = { start: { line: 1, character: 3 }, end: { line: 2, character: 0 } };
  expect(tokens(project(text), "/x.poise", rows)).toEqual(
    tokens(project(text), "/x.poise").filter(it => it.row === 1),
  );
});
