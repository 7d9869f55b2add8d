import { existsSync } from "node:fs";
import { basename } from "node:path";
import { judgeSome } from "../judge";
import type { Value } from "../lists/changes";
import { itemsOf, type ListItem } from "../lists/items";
import { type Layout, layoutOf, shiftedRows, type Wanted } from "../lists/layout";
import { toldLayout } from "../lists/told";
import { type Told, type Update, updated } from "../lists/update";
import { plainTitle, quoted, wordOf } from "../lists/words";
import { declarationsOf, type Origin } from "../lists/write";
import { filesFrom } from "../model/reach";
import type { Root } from "../model/root";
import type { Project } from "../project";
import { weighablesOf } from "../shop/weighable";
import { ask, isTerminal } from "./ask";
import { projectOf } from "./check";
import { plainPath, readFolder, workspaceFolderOf } from "./disk";
import { drawn } from "./formats/row";
import { type ImportOptions, importOptions } from "./import-options";
import { localDate } from "./options";
import { shownPath } from "./places";
import { type ListFile, readList } from "./read-list";
import { type SpecFile, sound } from "./spec-file";
import { specIn, writeSplices } from "./write-edits";
import { newFile } from "./write-file";
import { WrongUse } from "./wrong-use";

/**
 * Turns a list of parts into a spec, or brings a spec up to it, and says how it read each column and
 * what it could not take. Prints the spec where no file is named for it; what it has to say goes to `note` then.
 */
export async function importList(
  args: readonly string[],
  print: (text: string) => void,
  note: (text: string) => void,
): Promise<0> {
  const options = importOptions(args);
  const { out } = options;
  const tell = (text: string) => (out === undefined ? note : print)(drawn(text));
  const file = await readList(options.list, options.sheet);
  const target = targetOf(out);
  const project = out !== undefined && existsSync(target) ? projectOf([target]) : undefined;
  const specs = project && specsFrom(project, target);
  const roots = project ? judgeSome(project, it => it === target).roots.map(it => it.root) : [];
  const units = roots[0]?.units;
  const design = roots.find(it => it.airframe === undefined);
  const layout = await agreed(file, options, units);

  tell(`${shownPath(plainPath(options.list))}: ${file.told}`);
  for (const line of toldLayout(file.table, layout)) tell(line);
  const { items, remarks } = itemsOf(file.table, layout);
  for (const remark of remarks) tell(remark);
  if (items.length === 0) throw new WrongUse(`${shownPath(plainPath(options.list))} lists no part`);

  if (options.on !== undefined && options.on > localDate(new Date()))
    tell(`warning: ${options.on} is still to come, and its records count all the same`);
  const origin: Origin = {
    basis: options.basis,
    on: options.on ?? localDate(file.modified),
    by: basename(options.list),
  };
  if (specs === undefined) {
    const text = specOf(items, origin, layout, out, tell);
    if (out === undefined) print(sound(target, text).trimEnd());
    else if (options.isDry) {
      for (const row of sound(target, text).trimEnd().split("\n")) tell(`+ ${row}`);
      tell(dry);
    } else {
      newFile(target, sound(target, text));
      tell(`${shownPath(target)}: written, ${count(items)}`);
    }
    return 0;
  }
  const elsewhere = new Set(roots.flatMap(it => it.reach.files));
  const update = updated(
    specs,
    [...elsewhere].flatMap(it => (specs.some(({ path }) => path === it.path) ? [] : it.items)),
    items,
    origin,
    units?.length,
    design && valuesOf(design),
  );
  tellUpdate(update, target, tell);
  const changes = specs.map(spec => ({ spec, splices: update.splices.get(spec.path)! }));
  writeSplices(changes, { shows: options.isDry, writes: !options.isDry }, tell);
  if (options.isDry) tell(dry);
  return 0;
}

const dry = "nothing is written: this was a dry run";

const targetOf = (out: string | undefined) => plainPath(out ?? "stdout.poise");
const nameOf = (file: string) => basename(file).replace(/\.[^.]*$/, "");

/** A spec with all it includes, the file itself last. What cannot be read in it would be taken for new. */
function specsFrom(project: Project, path: string): readonly SpecFile[] {
  const { files, faults } = filesFrom(project, path);
  const [missing] = faults.filter(it => it.code !== "include-loop");
  if (missing)
    throw new WrongUse(
      `${shownPath(missing.at.line.file)}: ${missing.message}; what stands there would be taken for new, so nothing is written`,
    );
  return files.map(it => specIn(project, it));
}

/** The layout, after a person at the terminal was asked what the list leaves open. */
async function agreed(
  file: ListFile,
  options: ImportOptions,
  spec: Wanted["spec"],
): Promise<Layout> {
  const { mass, length, decimal } = options;
  const wanted: Wanted = { mass, length, decimal, spec, likelyDecimal: file.likelyDecimal };
  const found = layoutOf(file.table, wanted);
  if (found === undefined) {
    const first =
      file.table.find(row => row.filter(it => it !== null && it !== "").length > 1) ?? [];
    const seen = first.map(it => plainTitle(String(it ?? ""))).filter(it => it !== "");
    throw new WrongUse(
      `no row of ${shownPath(plainPath(options.list))} has headings for a name or part number and something else; its first row is ${seen.slice(0, 8).join(", ") || "empty"}`,
    );
  }
  refuseShifted(file, options.list, found);
  const answers = isTerminal() ? await ask(found, options) : { ...options };
  const layout = layoutOf(file.table, { ...wanted, ...given(answers) }) ?? found;
  return answers.pieces === undefined ? layout : withMassOf(layout, answers.pieces);
}

function refuseShifted({ table, lineOf }: ListFile, list: string, layout: Layout): void {
  const shifted = lineOf ? shiftedRows(table, layout) : [];
  if (lineOf === undefined || shifted.length === 0) return;
  const lines = shifted
    .slice(0, MOST)
    .map(
      ({ row, cells, of }) => `line ${lineOf(row)}: ${cells} cells where the headings are ${of}`,
    );
  if (shifted.length > MOST) lines.push(`and ${shifted.length - MOST} more`);
  throw new WrongUse(
    `${shownPath(plainPath(list))}: ${[...lines, "nothing is written"].join("\n       ")}`,
  );
}

const valuesOf = (design: Root): ReadonlyMap<string, Value> =>
  new Map(
    weighablesOf(design).map(({ path, before, part }) => [
      path,
      { mass: before?.mass, qty: part.qty, ...part.place },
    ]),
  );

const given = ({ mass, length, decimal }: Pick<ImportOptions, "mass" | "length" | "decimal">) => ({
  mass,
  length,
  decimal,
});

function withMassOf(layout: Layout, pieces: "one" | "all"): Layout {
  const columns = new Map(layout.columns);
  const column = columns.get("mass") ?? columns.get("total");
  columns.delete("mass");
  columns.delete("total");
  if (column) columns.set(pieces === "one" ? "mass" : "total", column);
  return { ...layout, columns };
}

/** A new spec: an aircraft of its own, unless one stands in the workspace that may include it. */
function specOf(
  items: readonly ListItem[],
  origin: Origin,
  layout: Layout,
  out: string | undefined,
  tell: (text: string) => void,
): string {
  const target = targetOf(out);
  const others = readFolder(workspaceFolderOf(target)).filter(it => it.path !== target);
  const isThere = others.some(
    it => !("unreadable" in it) && it.items.some(({ head }) => head.kind === "aircraft"),
  );
  const rows = (of: readonly ListItem[], taken?: Set<string>) =>
    `${declarationsOf(of, origin, "", taken).join("\n")}\n`;
  if (isThere) {
    const file = out === undefined ? "its file" : `"${basename(target)}"`;
    tell(`an aircraft is here already: it counts what is in here once it says include ${file}`);
    return rows(items);
  }
  const [only] = items;
  const whole = items.length === 1 && only && only.items.length > 0 ? only : undefined;
  if (whole) tell(`row ${whole.row}: "${whole.title}" holds everything else: it is the aircraft`);
  const title = whole?.title ?? nameOf(out ?? origin.by);
  const name = wordOf(title) || "aircraft";
  const pn = whole?.pn ? ` pn ${quoted(whole.pn)}` : "";
  const mass = ["lb", "oz"].includes(layout.mass.unit.name) ? "lb" : "kg";
  const called = name === title ? name : `${name} ${quoted(title)}`;
  const head = `aircraft ${called}${pn} { units ${mass}, ${layout.length.unit.name} }\n\n`;
  return head + rows(whole?.items ?? items, new Set([name]));
}

function count(items: readonly ListItem[]): string {
  let [parts, assemblies, unknown] = [0, 0, 0];
  const visit = (item: ListItem) => {
    if (item.items.length > 0) assemblies++;
    else {
      parts++;
      if (item.mass === undefined) unknown++;
    }
    item.items.forEach(visit);
  };
  items.forEach(visit);
  const many = (n: number, one: string, more: string) => `${n} ${n === 1 ? one : more}`;
  const open = unknown > 0 ? `, ${unknown} without a mass` : "";
  return `${many(parts, "part", "parts")} in ${many(assemblies, "assembly", "assemblies")}${open}`;
}

function tellUpdate(update: Update, path: string, tell: (text: string) => void): void {
  const { changed, added, vanished, others, kept, sides, splices } = update;
  // of a spec in one file the last line says which
  const where = ({ file }: Told) =>
    splices.size > 1 || file !== path ? ` in ${shownPath(file)}` : "";
  for (const it of changed) tell(`changed${where(it)}: ${it.says}`);
  for (const it of added) tell(`new${where(it)}: ${it.says}`);
  for (const it of kept) tell(`left as it is${where(it)}: ${it.says}`);
  for (const it of vanished) tell(`no longer in the list, and not deleted${where(it)}: ${it.says}`);
  const tellSome = (begins: string, all: readonly Told[]) => {
    for (const [first, ...more] of byFile(all)) {
      const named = [first, ...more.slice(0, MOST - 1)].map(it => it.says).join(", ");
      const left = more.length < MOST ? "" : ` and ${more.length + 1 - MOST} more`;
      tell(`${begins}${where(first)}: ${named}${left}`);
    }
  };
  tellSome("the list counts both sides together", sides.both);
  tellSome("the list counts one side of two", sides.one);
  tellSome("not from a list", others);
  const nothing = changed.length + added.length === 0;
  tell(
    `${shownPath(path)}: ${
      nothing
        ? "nothing to change"
        : `${changed.length} changed, ${added.length} new, ${vanished.length} no longer listed`
    }`,
  );
}

/** Of broken lines, and of parts that only show how the list was read or that it never named, as many are shown as say what they are; there may be hundreds. */
const MOST = 5;

function byFile(all: readonly Told[]): readonly (readonly [Told, ...Told[]])[] {
  const files = new Map<string, [Told, ...Told[]]>();
  for (const it of all) {
    const own = files.get(it.file);
    if (own) own.push(it);
    else files.set(it.file, [it]);
  }
  return [...files.values()];
}
