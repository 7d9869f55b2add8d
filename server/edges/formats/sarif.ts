import type { Span } from "../../../grammar/tree";
import { version } from "../../../package.json";
import { checks } from "../../checks";
import { exampleOf } from "../../checks/check";
import type { Severity } from "../../findings";
import type { Turned } from "../../views/diff/difference";
import { pathIn, projectOf, type Report, rangeOf } from "./report";
import { drawn, jsonText } from "./row";

/** SARIF 2.1.0 (OASIS Standard, 2020-03-27): rules with help, regions in UTF-16 units, waivers as suppressions. */
export function sarif(report: Report): string {
  const rules = checks
    .map(it => ({ ...it, shown: exampleOf(it) }))
    .map(({ code, severity, explain, shown }) => ({
      id: code,
      shortDescription: { text: firstSentence(explain) },
      fullDescription: { text: explain },
      help: {
        text: `${explain}\n\n${shown}`,
        markdown: `${explain}\n\n\`\`\`\n${shown}\n\`\`\``,
      },
      defaultConfiguration: { level: levels[severity] },
    }));
  const log = {
    $schema:
      "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "Poise", version, semanticVersion: version, rules } },
        automationDetails: { id: report.change?.told ? "poise/diff/" : "poise/check/" },
        columnKind: "utf16CodeUnits",
        originalUriBaseIds: {
          "%SRCROOT%": { description: { text: "The folder the files are relative to." } },
        },
        results: report.turned.map(it => resultOf(report, it)),
      },
    ],
  };
  return jsonText(log, 1);
}

const levels: Readonly<Record<Severity, string>> = {
  error: "error",
  warning: "warning",
  info: "note",
};
const ruleIndex = new Map(checks.map(({ code }, i) => [code, i]));

const firstSentence = (text: string) => /^.*?[.:](?= |$)/s.exec(text)?.[0] ?? text;

function resultOf(report: Report, it: Turned): object {
  const { code, severity, message, at, related, waived } = it.finding;
  const index = ruleIndex.get(code);
  // each related place is linked where the text names it
  const links = related.map((one, i) => `[${linked(one.message)}](${i + 1})`);
  return {
    ruleId: code,
    ...(index === undefined ? {} : { ruleIndex: index }),
    level: levels[severity],
    message: { text: [linked(message), ...links].join("\n") },
    locations: [{ physicalLocation: locationOf(report, it, at), ...logical(it) }],
    ...(related.length === 0
      ? {}
      : {
          relatedLocations: related.map((one, i) => ({
            id: i + 1,
            message: { text: drawn(one.message) },
            physicalLocation: locationOf(report, it, one.at),
          })),
        }),
    ...flowOf(report, it),
    partialFingerprints: { "codeAndPath/v1": it.id },
    suppressions:
      waived === undefined
        ? []
        : [{ kind: "inSource", status: "accepted", justification: drawn(waived) }],
    ...(report.change ? { baselineState: it.state === "gone" ? "absent" : it.state } : {}),
  };
}

/** From what is broken to what breaks it: the budget, then the figure that tipped it or its heaviest part. */
function flowOf(report: Report, it: Turned): object {
  const { code, message, at, related } = it.finding;
  const [other] = related;
  if (other === undefined || !(it.moved || ofBudgets.has(code))) return {};
  const here = { at, message };
  const locations = (it.moved ? [other, here] : [here, other]).map(one => ({
    location: {
      physicalLocation: locationOf(report, it, one.at),
      message: { text: drawn(one.message) },
    },
  }));
  return { codeFlows: [{ threadFlows: [{ locations }] }] };
}
const ofBudgets = new Set(["over-budget", "budget-at-risk", "margin-low"]);

function logical({ path, root }: Turned): object {
  const name = path || root?.name;
  return name ? { logicalLocations: [{ fullyQualifiedName: name }] } : {};
}

function locationOf(report: Report, it: Turned, span: Span): object {
  const { start, end } = rangeOf(projectOf(report, it), span);
  const file = pathIn(report, span.line.file, it.state === "gone");
  return {
    artifactLocation: {
      // half a letter, as a disk may hold it, cannot be encoded
      uri: file
        .replace(/\p{Surrogate}/gu, "\ufffd")
        .split("/")
        .map(encodeURIComponent)
        .join("/"),
      uriBaseId: "%SRCROOT%",
    },
    region: {
      startLine: start.line + 1,
      startColumn: start.character + 1,
      endLine: end.line + 1,
      endColumn: end.character + 1,
    },
  };
}

/** In a message brackets make a link (3.11.6): a name's own are only text. */
const linked = (text: string) => drawn(text).replace(/[\\[\]]/g, "\\$&");
