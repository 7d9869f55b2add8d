import type { Turned } from "../../views/diff/difference";
import { foundIn, pathIn, type Report, rangeOf } from "./report";
import { attributes, xmlText } from "./xml";

/**
 * JUnit's XML: a suite a file, a case a finding. An error fails, a waived one is skipped, anything else
 * passes and says what it is. An aircraft is a case too, so that a sound one is seen to be judged.
 */
export function junit(report: Report): string {
  const suites = new Map<string, string[]>();
  const put = (file: string, text: string) => {
    const name = pathIn(report, file);
    suites.set(name, [...(suites.get(name) ?? []), text]);
  };
  for (const { file, name, summary } of report.roots)
    put(
      file,
      `<testcase${attributes({ classname: "aircraft", name })}>${output(summary)}</testcase>`,
    );
  for (const it of foundIn(report)) put(it.finding.at.line.file, caseOf(report, it));
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites${totals([...suites.values()].flat(), "poise")}>`,
  ];
  for (const [file, cases] of [...suites].sort(([a], [b]) => (a < b ? -1 : 1)))
    lines.push(
      ` <testsuite${totals(cases, file)}>`,
      ...cases.map(it => `  ${it}`),
      " </testsuite>",
    );
  return [...lines, "</testsuites>"].join("\n");
}

function totals(cases: readonly string[], name: string): string {
  const count = (tag: string) => cases.filter(it => it.includes(tag)).length;
  return attributes({
    name,
    tests: cases.length,
    failures: count("<failure "),
    errors: 0,
    skipped: count("<skipped "),
  });
}

function caseOf(report: Report, { finding, id, state, root, path }: Turned): string {
  const { code, severity, message, at, related, waived } = finding;
  const { start } = rangeOf(report.project, at);
  const file = pathIn(report, at.line.file);
  const turned = report.change ? `${state}: ` : "";
  const body = [
    `${turned}${file}:${start.line + 1}:${start.character + 1}: ${severity}[${code}]: ${message}`,
    ...related.map(it => {
      const there = rangeOf(report.project, it.at).start;
      return `${pathIn(report, it.at.line.file)}:${there.line + 1}:${there.character + 1}: ${it.message}`;
    }),
  ].join("\n");
  const number = / (\d+)$/.exec(id)?.[0] ?? "";
  const name = `${path || root?.name || file}${number}`;
  const inner =
    waived !== undefined
      ? `<skipped${attributes({ message: `waived: ${waived}` })}/>`
      : severity === "error"
        ? `<failure${attributes({ message, type: code })}>${xmlText(body)}</failure>`
        : output(body);
  const at1 = { file, line: start.line + 1 };
  return `<testcase${attributes({ classname: code, name, ...at1 })}>${inner}</testcase>`;
}

const output = (text: string) => `<system-out>${xmlText(text)}</system-out>`;
