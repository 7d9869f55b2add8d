import type { Location } from "vscode-languageserver";
import type { Position } from "../../grammar/source";
import { rootWith } from "../features/place";
import { whyAt } from "../features/why-at";
import type { Root } from "../model/root";
import type { Project } from "../project";
import { trialLines, trialOf } from "../views/trial";
import { type WhyLine, why } from "../views/why";
import { line } from "../views/why/lines";
import { withPlaces } from "../views/why-places";
import { locationOf } from "./to-lsp";
import { isIn, pathOf, uriOf } from "./uris";

/** What the editor shows: the text, and for each line the source that its place leads to. */
export interface WhyAnswer {
  /** The aircraft's file, or its airframe's, and the path in it: what to ask for to have this again. */
  readonly uri: string;
  readonly path: string;
  readonly text: string;
  readonly links: readonly {
    readonly line: number;
    readonly from: number;
    readonly to: number;
    readonly target: Location;
  }[];
}

/** What an editor asks: what stands at a position of a document, or a path in the aircraft of a document. */
export interface WhyQuestion {
  readonly uri: string;
  readonly position?: Position;
  readonly path?: string;
}

/** Null: nothing there has a figure, or nothing is called so any more. */
export function whyAnswer(
  project: Project,
  { uri, position, path }: WhyQuestion,
): WhyAnswer | null {
  const file = pathOf(uri);
  const at = position && whyAt(project, file, position);
  const root = at?.root ?? rootWith(project, file);
  const asked = at?.path ?? path;
  const lines = root && asked !== undefined ? linesOf(project, root, asked) : undefined;
  if (root === undefined || asked === undefined || lines === undefined) return null;
  const told = withPlaces(project, lines, it => nameIn(project, it));
  return {
    uri: homeOf(root),
    path: asked,
    text: told.map(it => `${it.text}\n`).join(""),
    links: told.flatMap(({ text, from, line: { at: source } }, line) =>
      source ? [{ line, from, to: text.length, target: locationOf(project, source) }] : [],
    ),
  };
}

/** How a figure comes about; of `wing.spar = 20 lb` what that would do. */
function linesOf(project: Project, root: Root, asked: string): readonly WhyLine[] | undefined {
  const [, path, value] = /^(\S+) = (.+)$/.exec(asked) ?? [];
  if (path === undefined || value === undefined) return why(root, asked);
  const trial = trialOf(project, root, path, value);
  return "why" in trial ? [line(`${asked}: ${trial.why}`)] : trialLines(project, trial);
}

/** A link to it for under a hover, as VS Code runs a command; nothing where the name has no figure. */
export function whyLink(project: Project, uri: string, position: Position): string {
  const at = whyAt(project, pathOf(uri), position);
  if (!at?.named || why(at.root, at.path) === undefined) return "";
  const question: WhyQuestion = { uri: homeOf(at.root), path: at.path };
  const args = encodeURIComponent(JSON.stringify([question]));
  return `\n\n[How it comes about](command:poise.why?${args})`;
}

/** The file that is asked about to have this aircraft, or airframe, again. */
export const homeOf = ({ reach, airframe }: Root): string =>
  uriOf(airframe?.item.head.line.file ?? reach.file);

/** As seen from its workspace folder. */
function nameIn({ folders }: Project, path: string): string {
  const folder = folders.filter(it => isIn(path, it)).sort((a, b) => b.length - a.length)[0];
  return folder === undefined ? path.split("/").at(-1)! : path.slice(folder.length + 1);
}
