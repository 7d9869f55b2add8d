import type { Root } from "../model/root";
import type { Project } from "../project";
import { show } from "../quantity/show";
import type { RootDifference } from "../views/diff/difference";
import type { Room } from "../views/diff/rooms";
import { type Base, designSince, moreText, shareText } from "./change-hints";
import type { Lens, LensText } from "./lenses";

/**
 * What became of what a lens stands above since a base: "+0.84 lb, 97 % → 101 % since HEAD"; of a loading
 * what became of its distances. Of the aircraft as designed; empty where nothing shows.
 */
export function changeLens(
  project: Project,
  base: Base,
  path: string,
  { item: { head } }: Lens,
  { why }: LensText,
): string {
  const design = designSince(base, project, path);
  if (design === undefined) return "";
  const { root } = design.head;
  const said =
    head.kind === "aircraft"
      ? aircraftText(design, root)
      : head.kind === "assembly"
        ? assemblyText(design, why, root)
        : head.kind === "loading"
          ? loadingText(design, why, root)
          : [];
  const words = said.filter(it => it !== "");
  return words.length === 0 ? "" : `${words.join(", ")} since ${base.name}`;
}

function aircraftText({ empty, assemblies }: RootDifference, root: Root): readonly string[] {
  const [was, is] = [empty.base, empty.head].map(it => it?.basic.mass);
  const whole = assemblies.find(it => it.path === "");
  const by = was === undefined || is === undefined ? 0 : is - was;
  return [shown(by, root), (whole && shareText(whole)) ?? ""];
}

function assemblyText(
  { assemblies }: RootDifference,
  path: string | undefined,
  root: Root,
): readonly string[] {
  const change = assemblies.find(it => it.path === path);
  if (change?.head === undefined) return [];
  if (change.base === undefined) return ["new"];
  const by = change.head.basic.mass - change.base.basic.mass;
  return [shown(by, root), shareText(change) ?? ""];
}

/** Not where rounding hides it. */
const shown = (by: number, root: Root) =>
  show(Math.abs(by), root.units.mass) === show(0, root.units.mass)
    ? ""
    : moreText(by, root.units.mass);

/** Under the envelope where it is nearest to a limit now. */
function loadingText(
  { loadings }: RootDifference,
  name: string | undefined,
  root: Root,
): readonly string[] {
  const own = loadings.filter(it => it.head?.loading === name);
  if (own.length > 0 && own.every(it => it.base === undefined)) return ["new"];
  const { length, mass } = root.units;
  return (["cg", "weight"] as const).map(kind => {
    const nearest = own
      .filter(it => it.head?.[kind] && it.base?.[kind])
      .sort((a, b) => a.head![kind]!.by - b.head![kind]!.by)[0];
    if (nearest === undefined) return "";
    const unit = kind === "cg" ? length : mass;
    const text = (it: Room) => roomText(it[kind]!.by, value => show(value, unit));
    const [was, is] = [text(nearest.base!), text(nearest.head!)];
    return was === is ? "" : `${nearest.head![kind]!.what} ${was} → ${is}`;
  });
}

const roomText = (by: number, show: (value: number) => string) =>
  by < 0 ? `${show(-by)} beyond` : show(by);
