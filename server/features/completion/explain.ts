import { checkOf } from "../../checks";
import type { Project } from "../../project";
import { hover } from "../hover";
import { keywordHelp } from "../keyword-help";
import { functionHelp } from "../signatures";
import type { Doc } from "./offer";

/** What there is to read about an offer, as Markdown: what a hover says where it stands already. */
export function explain(project: Project, doc: Doc): string | undefined {
  if ("word" in doc) return keywordHelp.get(doc.word);
  if ("call" in doc) return functionText(doc.call);
  if ("code" in doc) return checkOf(doc.code)?.explain;
  return hover(project, doc.path, doc.position)?.markdown;
}

function functionText(name: string): string | undefined {
  const { label, help } = functionHelp(name) ?? {};
  return label && `\`${label}\`: ${help}`;
}
