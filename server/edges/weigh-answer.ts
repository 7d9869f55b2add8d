import type { WorkspaceEdit } from "vscode-languageserver";
import { rootWith } from "../features/place";
import { type Root, rootsOf } from "../model/root";
import { type Project, sourceOf } from "../project";
import { thought, toldOff, toldWithin } from "../shop/off";
import { unweighed, unweighedWholes } from "../shop/sheet";
import { toldOver, toldWritten } from "../shop/told";
import { weighIn } from "../shop/weigh-in";
import { isWhole, type Weighable, weighablesOf, wholesOf } from "../shop/weighable";
import { localDate } from "./options";
import { editOf } from "./to-lsp";
import { pathOf } from "./uris";

/** What an editor asks: which parts of a document's aircraft, or of an airframe of it, can be weighed. */
export interface ShopQuestion {
  readonly uri: string;
  readonly airframe?: string;
}
export interface ShopAnswer {
  readonly title: string;
  /** Of a reading that is a plain number. */
  readonly unit: string;
  readonly airframes: readonly { readonly name: string; readonly title: string }[];
  /** Those not weighed yet first, the heaviest first, and behind them assemblies to be weighed as a whole. */
  readonly parts: readonly ShopPart[];
}
export interface ShopPart {
  readonly path: string;
  readonly title: string;
  readonly pn: string;
  /** "3.9 lb calculated" */
  readonly thought: string;
  readonly pieces: number;
  readonly weighed: boolean;
  /** An assembly. */
  readonly whole: boolean;
}

/** What a reading of one part would come to; with its edit where it can be written. */
export interface ReadingQuestion extends ShopQuestion {
  readonly path: string;
  readonly figure: string;
  readonly by: string;
}
export interface ReadingAnswer {
  readonly said: string;
  readonly severity: "information" | "warning" | "error";
  readonly edit: WorkspaceEdit | null;
}

/** Null: the document belongs to no aircraft. */
export function shopAnswer(project: Project, question: ShopQuestion): ShopAnswer | null {
  const root = shopOf(project, question);
  if (root === undefined) return null;
  const all = weighablesOf(root);
  const wholes = wholesOf(root);
  const mass = ({ before, pieces }: Weighable) => (before ? before.mass * pieces : 0);
  const waiting = unweighed(all)
    .flatMap(it => it.rows)
    .sort((a, b) => mass(b) - mass(a));
  return {
    title: root.title ?? root.name,
    unit: root.units.mass.name,
    airframes: root.statements.airframes.flatMap(({ head }) =>
      head.kind === "airframe" && head.name
        ? [{ name: head.name.text, title: head.title?.text ?? head.name.text }]
        : [],
    ),
    parts: [
      ...waiting,
      ...unweighedWholes(wholes),
      ...all.filter(it => it.weighed),
      ...wholes.filter(it => it.weighed && it.assembly.weighed?.mass !== undefined),
    ].map((it: Weighable) => ({
      path: it.path,
      title: it.title ?? "",
      pn: it.pn ?? "",
      thought: thought(it.before, it.before?.unit ?? root.units.mass),
      pieces: it.pieces,
      weighed: it.weighed,
      whole: isWhole(it),
    })),
  };
}

/** Null: the document belongs to no aircraft. */
export function readingAnswer(project: Project, question: ReadingQuestion): ReadingAnswer | null {
  const root = shopOf(project, question);
  if (root === undefined) return null;
  const { path, figure, by } = question;
  const reading = {
    ...{ where: "", path, pn: "", figure, unit: undefined, note: "" },
    ...{ on: localDate(new Date()), by },
  };
  const weighed = (sure: boolean) => weighIn(root, [reading], sure);
  const [misfit] = weighed(false).misfits;
  if (misfit && !misfit.slip) return { said: misfit.why, severity: "error", edit: null };
  const { fitting, written, edits } = weighed(true);
  if (written[0]) return { said: toldWritten(written[0]), severity: "information", edit: null };
  const file = edits[0]?.at.line.file;
  const source = file === undefined ? undefined : sourceOf(project, file);
  if (source === undefined || source.faulty.length + source.braceFaults.length > 0) {
    const said = `${file?.split("/").at(-1) ?? "its file"} has errors in its text: mend them first`;
    return { said, severity: "error", edit: null };
  }
  const [only] = fitting;
  const told = () =>
    toldOff(only!.weighable, only!.off) +
    toldOver(only!.over, root.units.mass, reading.on, only!.isOlder) +
    toldWithin(only!.weighable, root, reading.on);
  const said = misfit?.why ?? `${only!.figure.shown}: ${told()}`;
  return { said, severity: misfit ? "warning" : "information", edit: editOf(project, edits) };
}

/** By its parts: the airframe that is named, else the aircraft as designed. */
function shopOf(project: Project, { uri, airframe }: ShopQuestion): Root | undefined {
  const root = rootWith(project, pathOf(uri));
  return root && rootsOf(root.reach).find(it => it.airframe?.name === airframe);
}
