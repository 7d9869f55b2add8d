import type { ReportOptions } from "./check-options";
import { formats } from "./formats";
import { foundIn, type Paint, type Report } from "./formats/report";
import { writeFile } from "./write-file";

/** Writes a report in every format asked for, each to its file or to standard output. */
export function tell(
  report: Report,
  { formats: asked, colour }: ReportOptions,
  print: (text: string) => void,
): void {
  for (const { name, file } of asked) {
    const text = formats[name](report, colour && file === undefined ? inColour : plain);
    if (file === undefined) {
      // no row at all is said by no row
      if (text !== "") print(text);
    } else writeFile(file, `${text}\n`);
  }
}

/** Whether a report holds what the caller does not accept: 1, else 0. */
export function statusOf({ turned, ...report }: Report, failOn: ReportOptions["failOn"]): 0 | 1 {
  const bad = foundIn({ turned, ...report }).some(({ finding, state, before }) => {
    if (finding.waived !== undefined || finding.severity === "info") return false;
    if (failOn === "new") return state === "new" || before?.waived !== undefined;
    return finding.severity === "error" || failOn === "warning";
  });
  return bad ? 1 : 0;
}

const codes = { error: 31, warning: 33, info: 36, dim: 2 } as const;
const inColour: Paint = (kind, text) => `\u001b[${codes[kind]}m${text}\u001b[0m`;
const plain: Paint = (_, text) => text;
