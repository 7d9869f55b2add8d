import { existsSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import { judgeSome } from "../judge";
import { itemsOf, type ListItem } from "../lists/items";
import { type Layout, layoutOf, type Wanted } from "../lists/layout";
import { toldLayout } from "../lists/told";
import { type Update, updated } from "../lists/update";
import { plainTitle, quoted, wordOf } from "../lists/words";
import { declarationsOf, type Origin } from "../lists/write";
import type { Unit } from "../quantity/units";
import { ask, isTerminal } from "./ask";
import { projectOf } from "./check";
import { plainPath, readFolder, workspaceFolderOf } from "./disk";
import { drawn } from "./formats/row";
import { type ImportOptions, importOptions } from "./import-options";
import { localDate } from "./options";
import { shownPath } from "./places";
import { type ListFile, readList } from "./read-list";
import { replaceFiles } from "./replace-files";
import { sound, specAt } from "./spec-file";
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
  const spec = out !== undefined && existsSync(target) ? specAt(target) : undefined;
  const units = spec && unitsAround(target);
  const layout = await agreed(file, options, units);

  tell(`${shownPath(plainPath(options.list))}: ${file.told}`);
  for (const line of toldLayout(file.table, layout)) tell(line);
  const { items, remarks } = itemsOf(file.table, layout);
  for (const remark of remarks) tell(remark);
  if (items.length === 0) throw new WrongUse(`${shownPath(plainPath(options.list))} lists no part`);

  const origin: Origin = {
    basis: options.basis,
    on: options.on ?? localDate(file.modified),
    by: basename(options.list),
  };
  if (spec === undefined) {
    const text = specOf(items, origin, layout, out, tell);
    if (out === undefined) print(sound(target, text).trimEnd());
    else {
      writeFileSync(target, sound(target, text));
      tell(`${shownPath(target)}: written, ${count(items)}`);
    }
    return 0;
  }
  const update = updated(spec.text, spec.source, items, origin, units?.length);
  if (update.text !== spec.text)
    replaceFiles([{ path: target, before: spec.bytes, text: sound(target, update.text) }]);
  tellUpdate(update, shownPath(target), tell);
  return 0;
}

const targetOf = (out: string | undefined) => plainPath(out ?? "stdout.poise");
const nameOf = (file: string) => basename(file).replace(/\.[^.]*$/, "");

/** The units of the aircraft that reaches a file: its bare numbers are in them. */
function unitsAround(path: string): { mass: Unit; length: Unit } | undefined {
  return judgeSome(projectOf([path]), it => it === path).roots[0]?.root.units;
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
  const answers = isTerminal() ? await ask(found, options) : { ...options };
  const layout = layoutOf(file.table, { ...wanted, ...given(answers) }) ?? found;
  return answers.pieces === undefined ? layout : withMassOf(layout, answers.pieces);
}

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
  const { changed, added, vanished, others, kept } = update;
  for (const it of changed) tell(`changed: ${it}`);
  for (const it of added) tell(`new: ${it}`);
  for (const it of kept) tell(`left as it is: ${it}`);
  for (const it of vanished) tell(`no longer in the list, and not deleted: ${it}`);
  for (const it of others) tell(`not from a list: ${it}`);
  const nothing = changed.length + added.length === 0;
  tell(
    nothing
      ? `${path}: nothing to change`
      : `${path}: ${changed.length} changed, ${added.length} new, ${vanished.length} no longer listed`,
  );
}
