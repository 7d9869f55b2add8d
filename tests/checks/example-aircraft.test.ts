import { describe, expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, type Project, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { specs } from "../grammar/specs";

interface Stage {
  readonly inside: boolean | null;
}

/** An example's folder as a project, its texts changed on the way. */
function projectOf(folder: string, change = (text: string) => text): Project {
  let project = emptyProject(["/"]);
  for (const [path, text] of specs)
    if (path.startsWith(`examples/${folder}/`))
      project = withText(project, `/${path}`, change(text));
  return project;
}

const findingsOf = (project: Project) =>
  judge(project).findings.filter(it => it.waived === undefined);
const errorsOf = (project: Project) =>
  findingsOf(project)
    .filter(it => it.severity === "error")
    .map(it => `${it.code}: ${it.message}`);

const folders = new Set(
  [...specs.keys()].flatMap(path => path.match(/^examples\/([^/]+)\//)?.[1] ?? []),
);

test.each([...folders])("%s has no error", folder => {
  expect(errorsOf(projectOf(folder))).toEqual([]);
});

test.each([
  ["sandmartin", ["budget-at-risk", "margin-low", "unlisted"]],
  ["nuthatch", ["budget-at-risk", "margin-low"]],
  ["leafcutter", ["budget-at-risk", "unlisted"]],
])("%s shows what a design has to say for itself", (folder, codes) => {
  const found = findingsOf(projectOf(folder)).map(it => it.code);
  expect(found.sort()).toEqual(codes);
});

test("the cargo drone keeps its promises with either battery", () => {
  const other = projectOf("leafcutter", it => it.replace("long_range {", "hard_wearing {"));
  expect(errorsOf(other)).toEqual([]);
  expect(findingsOf(other).map(it => it.code)).not.toContain("requirement-at-risk");
});

describe("whoever flies it and whatever it carries, up to the takeoff weight, it is inside", () => {
  // every corner of the ranges, and fluids in between; weights above the limit are found as such
  test.each([
    [
      "sandmartin",
      "normal",
      [
        ["pilot 72 kg at FS -560", "pilot 72 kg at FS -500", "pilot 112 kg at FS -560"],
        ["", "behind_the_seat 7 kg"],
        ["", "wing_water 15 L", "wing_water 30 L", "wing_water full"],
        ["", "fin_water 2 L", "fin_water full"],
      ],
    ],
    ...["normal", "doors_off"].map(
      envelope =>
        [
          "nuthatch",
          envelope,
          [
            ["pilot 130 lb", "pilot 240 lb"],
            ["", "passenger 120 lb", "passenger 225 lb", "passenger 240 lb"],
            ["", "under_seat 10 lb", "under_seat 25 lb"],
            ["", "main 8 gal", "main full"],
          ],
        ] as const,
    ),
    ["leafcutter", "flight", [["", "hold 15 kg at FS -40", "hold 15 kg at FS 40"]]],
  ] as const)("%s, %s", (folder, envelope, choices) => {
    const corners = everyWay(choices).map(
      (loads, i) => `loading corner_${i} under ${envelope} { ${loads.filter(Boolean).join("; ")} }`,
    );
    const project = projectOf(folder, text => `${text}\n${corners.join("\n")}\n`);
    const found = findingsOf(project).filter(it => it.message.includes("corner_"));
    // what nobody may carry is said to be too much, and nothing else is wrong with it
    for (const { code, message } of found)
      if (code !== "limit-exceeded") expect(message).toContain("over the takeoff weight");
    const judged = reportOf(judge(project).roots[0]!) as { loadings: { stages: Stage[] }[] };
    const inside = judged.loadings
      .slice(-corners.length)
      .filter(({ stages }) => stages.every(it => it.inside));
    expect(inside.length).toBeGreaterThan(corners.length / 4);
  });
});

function everyWay(choices: readonly (readonly string[])[]): readonly (readonly string[])[] {
  return choices.reduce<readonly (readonly string[])[]>(
    (ways, next) => ways.flatMap(way => next.map(it => [...way, it])),
    [[]],
  );
}
