import type * as lsp from "vscode-languageserver";
import { contains, isIn, type Thing, thingAt } from "../features/containment";
import { search } from "../features/search";
import type { Project } from "../project";
import { locationOf, rangeOf, symbolKinds } from "./to-lsp";
import { pathOf, uriOf } from "./uris";

/** Everything declared in the workspace that a query may mean. */
export function symbolAnswer(project: Project, query: string): lsp.SymbolInformation[] {
  return search(project, query).map(({ path, about, kind, at }) => ({
    name: path,
    kind: symbolKinds[kind],
    location: locationOf(project, at),
    containerName: about,
  }));
}

/**
 * The protocol's call hierarchy, read as what a thing is in and what it contains: who calls it is what it
 * is in, whom it calls is in it.
 */
export function preparedAnswer(
  project: Project,
  { textDocument, position }: lsp.CallHierarchyPrepareParams,
): lsp.CallHierarchyItem[] | null {
  const thing = thingAt(project, pathOf(textDocument.uri), position);
  return thing ? [itemOf(project, thing)] : null;
}

export function isInAnswer(
  project: Project,
  { item }: lsp.CallHierarchyIncomingCallsParams,
): lsp.CallHierarchyIncomingCall[] {
  const around = isIn(project, pathOf(item.uri), pathIn(item));
  if (around === undefined) return [];
  const from = itemOf(project, around);
  const fromRanges = [from.uri === item.uri ? item.selectionRange : from.selectionRange];
  return [{ from, fromRanges }];
}

export function containsAnswer(
  project: Project,
  { item }: lsp.CallHierarchyOutgoingCallsParams,
): lsp.CallHierarchyOutgoingCall[] {
  return contains(project, pathOf(item.uri), pathIn(item)).map(it => {
    const to = itemOf(project, it);
    return { to, fromRanges: [to.uri === item.uri ? to.selectionRange : item.selectionRange] };
  });
}

const pathIn = ({ data }: lsp.CallHierarchyItem) => (typeof data === "string" ? data : "");

function itemOf(project: Project, thing: Thing): lsp.CallHierarchyItem {
  const { name, path, detail, kind, at, whole } = thing;
  return {
    ...{ name, detail, kind: symbolKinds[kind], data: path },
    uri: uriOf(at.line.file),
    range: {
      start: rangeOf(project, whole[0]).start,
      end: rangeOf(project, whole[1]).end,
    },
    selectionRange: rangeOf(project, at),
  };
}
