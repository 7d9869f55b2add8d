import type * as lsp from "vscode-languageserver";
import type { Base } from "../features/change-hints";
import { lenses, lensText } from "../features/lenses";
import { rootWith } from "../features/place";
import type { Project } from "../project";
import { rangeOf } from "./to-lsp";
import { pathOf } from "./uris";
import { homeOf, type WhyQuestion } from "./why-answer";

/** What an editor hands back to have a lens filled in. */
export interface LensData {
  readonly uri: string;
  readonly key: string;
}

/** Where lenses stand; what they say is asked for one by one. */
export function lensAnswer(project: Project, uri: string): lsp.CodeLens[] {
  return lenses(project, pathOf(uri)).map(({ at, key }) => ({
    range: rangeOf(project, at),
    data: { uri, key } satisfies LensData,
  }));
}

/**
 * The lens with what it says, of the picture as it is now. A click leads to how that comes about, where the
 * editor says it can show that; elsewhere the line is a text and no more.
 */
export function filledLens(
  project: Project,
  lens: lsp.CodeLens,
  linksWhy: boolean,
  base?: Base,
): lsp.CodeLens {
  const { uri, key } = lens.data as LensData;
  const path = pathOf(uri);
  const found = lenses(project, path).find(it => it.key === key);
  const said = found && lensText(project, path, found, base);
  const root = rootWith(project, path);
  const title = said?.text ?? "not in the aircraft";
  if (!linksWhy || said?.why === undefined || root === undefined)
    return { ...lens, command: { title, command: "" } };
  const question: WhyQuestion = { uri: homeOf(root), path: said.why };
  return { ...lens, command: { title, command: "poise.why", arguments: [question] } };
}
