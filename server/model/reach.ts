import type { Source } from "../../grammar/source";
import type { Item, StatementOf } from "../../grammar/tree";
import { memo } from "../memo";
import { type Project, sourceOf } from "../project";
import { collector, type Fault, type Report } from "./fault";

/** An aircraft as designed: the files that make it, in the order of reading (a file's includes first). */
export interface Reach {
  /** The file everything is reached from. */
  readonly file: string;
  readonly files: readonly Source[];
  /** Files that include the design and fit airframes of it. */
  readonly fitting: readonly Source[];
  readonly aircraft: Item;
  /** Of more than one aircraft block among the files. */
  readonly faults: readonly Fault[];
}

export interface Reaches {
  readonly roots: readonly Reach[];
  /** Files that neither a root nor a file with airframes of one reaches. */
  readonly alone: readonly Source[];
  /** Of includes that lead nowhere, in circles or out of the workspace. */
  readonly faults: readonly Fault[];
  /** By an include's statement: the file it names. */
  readonly targets: ReadonlyMap<StatementOf<"include">, string>;
}

/** What every file of the workspace belongs to. */
export const reachesOf = memo((project: Project): Reaches => {
  const { report, found } = collector();
  const targets = new Map<StatementOf<"include">, string>();
  const paths = [...project.files.keys()].sort();
  for (const path of paths)
    for (const include of partsOf(project, path)?.includes ?? []) {
      const target = targetOf(project, path, include, report);
      if (target !== undefined) targets.set(include, target);
    }
  const next = (path: string) =>
    (partsOf(project, path)?.includes ?? []).flatMap(include => targets.get(include) ?? []);
  reportLoops(project, paths, targets, report);

  const reached = new Map(paths.map(path => [path, readingOrder(path, next)]));
  const designs = paths.filter(path => {
    const parts = partsOf(project, path);
    const reachesAircraft = reached.get(path)!.some(it => partsOf(project, it)?.aircraft.length);
    return parts?.designs === true && reachesAircraft;
  });
  const inside = new Set(designs.flatMap(path => reached.get(path)!.filter(it => it !== path)));
  const tops = designs.filter(path => !inside.has(path));
  // files that include each other reach one another: the first of them stands for all
  const rootFiles = tops.length > 0 ? tops : designs.slice(0, 1);

  const roots = rootFiles.map(path => {
    const own = reached.get(path)!;
    const fitting = paths.filter(it => !own.includes(it) && reached.get(it)!.includes(path));
    return rootAt(project, path, own, fitting);
  });
  const known = new Set(rootFiles.flatMap(path => reached.get(path)!));
  for (const path of paths)
    if (reached.get(path)!.some(it => rootFiles.includes(it)))
      for (const it of reached.get(path)!) known.add(it);
  const alone = paths
    .filter(path => !known.has(path))
    .flatMap(path => sourceOf(project, path) ?? []);
  return { roots, alone, faults: found(), targets };
});

/** A file with all it includes, in the order of reading, and what is wrong with these includes. */
export function filesFrom(
  project: Project,
  path: string,
): { readonly files: readonly string[]; readonly faults: readonly Fault[] } {
  const { targets, faults } = reachesOf(project);
  const files = readingOrder(path, at =>
    (partsOf(project, at)?.includes ?? []).flatMap(include => targets.get(include) ?? []),
  );
  return { files, faults: faults.filter(it => files.includes(it.at.line.file)) };
}

interface FileParts {
  readonly includes: readonly StatementOf<"include">[];
  readonly aircraft: readonly Item[];
  /** Says anything that belongs to the design, and not only to an airframe of it. */
  readonly designs: boolean;
}

const partsOfItems = memo((items: readonly Item[]): FileParts => {
  const includes: StatementOf<"include">[] = [];
  const aircraft: Item[] = [];
  let designs = false;
  for (const item of items) {
    const { head } = item;
    if (head.kind === "include") includes.push(head);
    else if (head.kind === "aircraft") aircraft.push(item);
    if (!notDesign.has(head.kind)) designs = true;
  }
  return { includes, aircraft, designs };
});
const notDesign = new Set<Item["head"]["kind"]>([
  "include",
  "airframe",
  "weighing",
  "change",
  "waive",
]);

function partsOf(project: Project, path: string): FileParts | undefined {
  const source = sourceOf(project, path);
  return source && partsOfItems(source.items);
}

function rootAt(
  project: Project,
  file: string,
  order: readonly string[],
  fitting: readonly string[],
): Reach {
  const { report, found } = collector();
  const aircraft = order.flatMap(path => partsOf(project, path)?.aircraft ?? []);
  const [first, ...others] = aircraft;
  for (const other of others)
    report(
      "declared-twice",
      nameSpan(other),
      "an aircraft stands here already: one root describes one",
      [{ at: nameSpan(first!), message: "the other aircraft" }],
    );
  const files = order.flatMap(path => sourceOf(project, path) ?? []);
  const fitted = fitting.flatMap(path => sourceOf(project, path) ?? []);
  return { file, files, fitting: fitted, aircraft: first!, faults: found() };
}

function nameSpan({ head }: Item) {
  return head.kind === "aircraft" && head.path ? head.path : head;
}

/** A file's includes first, each file once. */
function readingOrder(path: string, next: (path: string) => readonly string[]): readonly string[] {
  const seen = new Set<string>();
  const order: string[] = [];
  const visit = (at: string) => {
    if (seen.has(at)) return;
    seen.add(at);
    for (const target of next(at)) visit(target);
    order.push(at);
  };
  visit(path);
  return order;
}

function targetOf(
  project: Project,
  path: string,
  include: StatementOf<"include">,
  report: Report,
): string | undefined {
  const named = include.path;
  if (named === undefined || named.text.trim() === "") return undefined;
  if (/^([a-z]:)?[\\/]/i.test(named.text) || named.text.includes("\\")) {
    report(
      "include-missing",
      named,
      `write the path from this file's folder, with /: ${named.text}`,
    );
    return undefined;
  }
  const target = resolvePath(path, named.text);
  const folder = project.folders
    .filter(it => isIn(path, it))
    .sort((a, b) => b.length - a.length)[0];
  if (folder !== undefined && !isIn(target, folder)) {
    report("include-outside", named, `${named.text} leads out of the workspace folder`);
    return undefined;
  }
  const file = project.files.get(target);
  if (file === undefined) {
    report("include-missing", named, `there is no file ${named.text}`);
    return undefined;
  }
  if ("unreadable" in file) {
    report("include-missing", named, `${named.text} ${file.unreadable}`);
    return undefined;
  }
  return target;
}

/** `../materials.poise` as seen from a file. */
export function resolvePath(from: string, relative: string): string {
  const parts = from.split("/").slice(0, -1);
  for (const part of relative.split("/"))
    if (part === "..") parts.pop();
    else if (part !== "." && part !== "") parts.push(part);
  return parts.join("/");
}

function isIn(path: string, folder: string): boolean {
  return path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}

/** Each circle once, at the include that closes it. */
function reportLoops(
  project: Project,
  paths: readonly string[],
  targets: ReadonlyMap<StatementOf<"include">, string>,
  report: Report,
): void {
  const done = new Set<string>();
  const open: string[] = [];
  const visit = (path: string) => {
    open.push(path);
    for (const include of partsOf(project, path)?.includes ?? []) {
      const target = targets.get(include);
      if (target === undefined || done.has(target)) continue;
      const start = open.indexOf(target);
      if (start < 0) visit(target);
      else if (include.path) {
        const names = [...open.slice(start), target].map(it => it.split("/").at(-1));
        report(
          "include-loop",
          include.path,
          `these files include each other: ${names.join(" → ")}`,
        );
      }
    }
    open.pop();
    done.add(path);
  };
  for (const path of paths) if (!done.has(path)) visit(path);
}
