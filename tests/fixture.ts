import { expect } from "vitest";
import { positionsOf } from "../grammar/source";
import type { Finding } from "../server/findings";
import { judge } from "../server/judge";
import { emptyProject, type Project, sourceOf, withText } from "../server/project";
import { differenceOf } from "../server/views/diff/difference";

/** A line under the code it speaks of: `//   ^^^^^ error[over-budget]: wing weighs …`. */
const DRAWN = /^\/\/ *\^+ (error|warning|info)\[[\w-]+\]: .*\n/gm;

export const AT = "/specs/example.poise";

/**
 * A fixture is a spec whose caret comments say which findings it has. Take them away, judge what is
 * left, draw them again: nothing may have moved. Findings of `others` are not drawn.
 */
export function check(fixture: string, others: readonly string[] = []): void {
  const text = fixture.replace(DRAWN, "");
  const project = withText(emptyProject(["/specs"]), AT, text);
  const findings = judge(project).findings.filter(
    it => !others.includes(it.code) && it.waived === undefined,
  );
  expect(draw(project, text, findings)).toBe(fixture);
}

/** The same of a change: what is found of the fixture where it was `before`. */
export function checkChange(before: string, fixture: string): void {
  const text = fixture.replace(DRAWN, "");
  const [base, head] = [before, text].map(it => {
    const project = withText(emptyProject(["/specs"]), AT, it);
    return { project, ...judge(project) };
  });
  const found = differenceOf(base!, head!).findings.filter(it => it.state !== "gone");
  const { project } = head!;
  expect(
    draw(
      project,
      text,
      found.map(it => it.finding),
    ),
  ).toBe(fixture);
}

/** The findings of a few files, by name, as `code: message`. */
export function findingsOf(files: Record<string, string>): readonly string[] {
  let project = emptyProject(["/specs"]);
  for (const [name, text] of Object.entries(files))
    project = withText(project, `/specs/${name}`, text);
  return judge(project).findings.map(({ code, message }) => `${code}: ${message}`);
}

function draw(project: Project, text: string, findings: readonly Finding[]): string {
  const source = sourceOf(project, AT)!;
  const rows = text.split("\n").map(row => [row]);
  for (const { at, severity, code, message } of findings) {
    const { start, end } = positionsOf(source, at);
    const from = Math.max(2, start.character);
    const to = end.line === start.line ? end.character : rows[start.line]![0]!.length;
    const carets = "^".repeat(Math.max(1, to - from));
    rows[start.line]!.push(`//${" ".repeat(from - 2)}${carets} ${severity}[${code}]: ${message}`);
  }
  return rows.map(lines => lines.join("\n")).join("\n");
}
