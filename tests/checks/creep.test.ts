import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { differenceOf, type Side } from "../../server/views/diff/difference";

const HEAD = "aircraft kite { units lb, in, gal";

function sideOf(text: string): Side {
  const project = withText(emptyProject(["/specs"]), "/specs/kite.poise", `${HEAD}${text}`);
  return { project, ...judge(project) };
}

/** What the rules about changes say, and where: "creep@the line: …". */
function found(base: string, head: string): readonly string[] {
  return differenceOf(sideOf(base), sideOf(head))
    .findings.filter(({ finding: { code } }) => code === "creep" || code.startsWith("waiver"))
    .map(({ finding: { code, message, at, waived } }) => {
      const text = at.line.text.trim();
      return `${code}${waived === undefined ? "" : " (waived)"} at “${text}”: ${message}`;
    });
}

const wing = (inside: string, clauses = "creep 0.5 lb") =>
  ` }\nassembly wing ${clauses} {\n${inside}\n}\n`;
const spar = (record: string) => `part spar ${record} at FS 100`;

test("a change adds no more than the creep: to the pound is allowed", () => {
  expect(found(wing(spar("calculated 10 lb")), wing(spar("calculated 10.5 lb")))).toEqual([]);
  expect(found(wing(spar("calculated 10 lb")), wing(spar("calculated 10.6 lb")))).toEqual([
    "creep at “part spar calculated 10.6 lb at FS 100”: wing gained 0.6 lb, 0.1 lb more than the 0.5 lb that a change may add",
  ]);
});

test("0.1 lb and 0.2 lb are the 0.3 lb that a change may add", () => {
  const two = `${spar("calculated 10.1 lb")}\npart rib calculated 0.2 lb at FS 90`;
  expect(found(wing(spar("calculated 10 lb"), "creep 0.3 lb"), wing(two, "creep 0.3 lb"))).toEqual(
    [],
  );
});

test.each([
  ["new", spar("calculated 10 lb"), `${spar("calculated 10 lb")}\npart rib quoted 1 lb at FS 90`],
  ["matured", spar("estimated 10 lb"), spar("calculated 11 lb")],
  ["weighed", spar("estimated 10 lb"), spar("weighed 11 lb")],
  ["known at last", "part spar at FS 100", spar("calculated 1 lb")],
])("what is %s counts like any other gain", (_, base, head) => {
  const [first, ...more] = found(wing(base), wing(head));
  expect(first).toContain("wing gained 1 lb, 0.5 lb more than");
  expect(more).toEqual([]);
});

test("mass that moved within the aircraft is the assembly's gain, and not the aircraft's", () => {
  const both = (a: string, b: string) =>
    ` creep 0.5 lb }\nassembly wing creep 0.5 lb {\n${a}\n}\nassembly hull {\n${b}\n}\n`;
  const pump = "part pump quoted 2 lb at FS 90";
  expect(found(both("", pump), both(pump, ""))).toEqual([
    "creep at “part pump quoted 2 lb at FS 90”: wing gained 2 lb, 1.5 lb more than the 0.5 lb that a change may add",
  ]);
});

test("it is of one side, as budgets are, and of the same assembly under another name", () => {
  const base = wing(spar("calculated 10 lb"), "mirrored creep 0.5 lb");
  const head = wing(spar("calculated 10.4 lb"), "mirrored creep 0.5 lb");
  expect(found(base, head)).toEqual([]);
  const renamed = wing(spar("calculated 10.6 lb")).replace("wing", "outer_wing");
  expect(found(wing(spar("calculated 10 lb")), renamed)).toEqual([
    "creep at “part spar calculated 10.6 lb at FS 100”: outer_wing gained 0.6 lb, 0.1 lb more than the 0.5 lb that a change may add",
  ]);
});

test("an assembly that is new, and a creep that is new, are measured as they stand now", () => {
  expect(found(" }\n", wing(spar("calculated 10 lb")))).toEqual([]);
  expect(found(wing(spar("calculated 10 lb"), ""), wing(spar("calculated 11 lb")))).toHaveLength(1);
});

test("what grows is no change of what is there", () => {
  const grown = (rate: string) => wing(spar("calculated 10 lb"), `creep 0.5 lb growth ${rate}`);
  expect(found(grown("5%"), grown("50%"))).toEqual([]);
});

test("without a base nothing is said of it, and nothing of its waiver", () => {
  const text = `${wing(spar("calculated 10 lb"))}waive creep of wing "aluminium"\n`;
  expect(sideOf(text).findings).toEqual([]);
});

test("a waiver is of the change that writes it, and of no later one", () => {
  const waived = 'waive creep of wing "aluminium"\n';
  const base = wing(spar("calculated 10 lb"));
  const [first, second] = [wing(spar("calculated 11 lb")), wing(spar("calculated 12 lb"))];
  expect(found(base, first + waived)).toEqual([
    "creep (waived) at “assembly wing creep 0.5 lb {”: wing gained 1 lb, 0.5 lb more than the 0.5 lb that a change may add",
  ]);
  expect(found(first + waived, first + waived)).toEqual([]);
  expect(found(first + waived, second + waived)).toEqual([
    "creep at “part spar calculated 12 lb at FS 100”: wing gained 1 lb, 0.5 lb more than the 0.5 lb that a change may add",
    'waiver-unused at “waive creep of wing "aluminium"”: this waiver was of an earlier change: this one adds to wing again',
  ]);
  expect(found(base, base + waived)).toEqual([
    'waiver-unused at “waive creep of wing "aluminium"”: there is no creep of wing to waive',
  ]);
});

test("a waiver that ended accepts nothing", () => {
  const ended = 'waive creep of wing until 2020-01-01 "aluminium"\n';
  expect(found(wing(spar("calculated 10 lb")), wing(spar("calculated 11 lb")) + ended)).toEqual([
    "creep at “part spar calculated 11 lb at FS 100”: wing gained 1 lb, 0.5 lb more than the 0.5 lb that a change may add",
    'waiver-expired at “waive creep of wing until 2020-01-01 "aluminium"”: this waiver ended on 2020-01-01',
  ]);
});

test("an airframe's own gain names it; the design's is said once", () => {
  const frame = "airframe sn003 serial 3 {\n  weighed wing.spar ";
  const base = wing(spar("calculated 10 lb"));
  expect(found(`${base}${frame}10.2 lb\n}`, `${base}${frame}11.2 lb\n}`)).toEqual([
    expect.stringMatching(/^creep at .*: sn003: wing gained 1 lb, 0.5 lb more than/s),
  ]);
  const both = wing(spar("calculated 12 lb"));
  expect(
    found(`${base}airframe sn003 serial 3 {\n}`, `${both}airframe sn003 serial 3 {\n}`),
  ).toEqual([expect.stringMatching(/^creep at .*: wing gained 2 lb/s)]);
});

test("on a part it says where it stands", () => {
  const { findings } = sideOf(` }\n${spar("calculated 10 lb creep 1 lb")}\n`);
  expect(findings.map(it => it.message)).toEqual([
    "a creep is an assembly's or the aircraft's: it stands there",
  ]);
});

test("a creep that was raised or taken away stands with the yardstick, and says what it hides", () => {
  const yardstick = (base: string, head: string) =>
    differenceOf(sideOf(base), sideOf(head)).roots[0]!.yardstick.map(
      it => `${it.effect} ${(it.head ?? it.base)!.what}: ${it.head?.shown ?? "gone"}; ${it.hides}`,
    );
  const base = wing(spar("calculated 10 lb"));
  expect(yardstick(base, wing(spar("calculated 11 lb"), "creep 2 lb"))).toEqual([
    "looser creep: 2 lb; wing gained 1 lb, more than the 0.5 lb it had",
  ]);
  expect(yardstick(base, wing(spar("calculated 11 lb"), ""))).toEqual([
    "looser creep: gone; wing gained 1 lb, more than the 0.5 lb it had",
  ]);
  expect(yardstick(base, wing(spar("calculated 10 lb"), "creep 0.2 lb"))).toEqual([
    "tighter creep: 0.2 lb; undefined",
  ]);
});
