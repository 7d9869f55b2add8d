import type * as lsp from "vscode-languageserver";
import type { Position } from "../../grammar/source";
import { rootWith } from "../features/place";
import { whyAt } from "../features/why-at";
import type { Project } from "../project";
import { trialOf, triedNow } from "../views/trial";
import { editOf } from "./to-lsp";
import { pathOf } from "./uris";

/** What an editor asks: what may be tried at a position, or what a value of a path would do. */
export interface TryQuestion {
  readonly uri: string;
  readonly position?: Position;
  readonly path?: string;
  readonly value?: string;
}

export interface TryAnswer {
  readonly path: string;
  /** What stands there now. */
  readonly now: string;
  /** What the value would do, or why it cannot be tried; empty: none was given. */
  readonly said: string;
  readonly severity: "information" | "warning" | "error";
  /** What would write it. */
  readonly edit: lsp.WorkspaceEdit | null;
}

/** Null: nothing stands there that another value could be tried for. */
export function tryAnswer(
  project: Project,
  { uri, position, path, value }: TryQuestion,
): TryAnswer | null {
  const file = pathOf(uri);
  const at = position && whyAt(project, file, position);
  const root = at?.root ?? rootWith(project, file);
  const asked = at?.path ?? path;
  const now = root && asked !== undefined ? triedNow(root, asked) : undefined;
  if (root === undefined || asked === undefined || now === undefined) return null;
  const found = { path: asked, now };
  if (value === undefined) return { ...found, said: "", severity: "information", edit: null };
  const trial = trialOf(project, root, asked, value);
  if ("why" in trial) return { ...found, said: trial.why, severity: "error", edit: null };
  return {
    ...{ ...found, said: trial.said, severity: trial.worse ? "warning" : "information" },
    edit: editOf(project, [trial.edit]),
  };
}
