import { existsSync } from "node:fs";
import { dirname, relative } from "node:path";
import { memberAt } from "../compute/member-at";
import { type Root, rootsOf } from "../model/root";
import { pageOf } from "../shop/page";
import { headingsIn, readingsIn } from "../shop/readings";
import { csvOf, unweighed, unweighedWholes } from "../shop/sheet";
import { weighablesOf, wholesOf, withoutSide } from "../shop/weighable";
import { blockOf } from "../shop/weighing-block";
import { weighingFormOf } from "../shop/weighing-form";
import { heading, weighingPage } from "../shop/weighing-page";
import { plainPath } from "./disk";
import { drawn } from "./formats/row";
import { called, decimalSaid, localDate } from "./options";
import { shownPath } from "./places";
import { readFilled } from "./read-list";
import { inShop } from "./shop";
import { newFile, writeFile, writePage } from "./write-file";
import { WrongUse } from "./wrong-use";

/** Writes what nobody has weighed yet as a CSV to be filled in, and as a page to be printed. */
export async function sheet(args: readonly string[], print: (text: string) => void): Promise<0> {
  const valued = ["--airframe", "--output", "--html", "--decimal"];
  const { rest, said, flags } = called("sheet", args, valued, ["--weighing"]);
  const [file, ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("sheet takes one file: poise sheet kite.poise -o sheet.csv");
  const { root, title } = inShop(file, said.get("--airframe"));
  if (flags.has("--weighing")) {
    weighingSheet(root, title, said, print);
    return 0;
  }
  const { mass: unit } = root.units;
  const groups = unweighed(weighablesOf(root));
  const parts = groups.reduce((sum, it) => sum + it.rows.length, 0);
  const left = `${parts === 0 ? "no" : parts} ${parts === 1 ? "part" : "parts"} not weighed yet`;
  const wholes = unweighedWholes(wholesOf(root));
  const csv = csvOf(groups, wholes, unit, decimalSaid(said) ?? ".");
  const [out, html] = [said.get("--output"), said.get("--html")];

  if (out !== undefined) {
    await keepReadings(plainPath(out));
    // without the mark a spreadsheet takes the letters for those of an older code page
    const mark = /[^\x20-\x7e\r\n]/.test(csv) ? "\ufeff" : "";
    writeFile(plainPath(out), mark + csv);
    print(`${shownPath(plainPath(out))}: written, ${left}`);
  }
  if (html !== undefined) {
    const path = plainPath(html);
    const titleOf = (of: string) => memberAt(root, withoutSide(of))?.member.head.title?.text;
    const page = pageOf(groups, wholes, { title, on: localDate(new Date()), unit, titleOf });
    writePage(path, page, "Weigh sheet: ");
    print(`${shownPath(path)}: written, ${left}`);
  }
  if (out === undefined && html === undefined) print(csv.trimEnd());
  return 0;
}

/** The form of a whole airframe's weighing: as a page, or as a block of the language to type over. */
function weighingSheet(
  root: Root,
  title: string,
  said: ReadonlyMap<string, string>,
  print: (text: string) => void,
): void {
  const airframes = rootsOf(root.reach).filter(it => it.airframe !== undefined);
  const names = airframes.flatMap(it => it.airframe?.name ?? []);
  if (root.airframe === undefined && names.length > 1)
    throw new WrongUse(`which airframe? there are ${names.join(", ")}: --airframe ${names[0]}`);
  const of = root.airframe ? root : (airframes[0] ?? root);
  const who = root.airframe ? undefined : (of.airframe?.title ?? of.airframe?.name);
  const form = weighingFormOf(of);
  const on = localDate(new Date());
  const out = said.get("--output");
  const html = said.get("--html") ?? (out?.match(/\.html?$/i) ? out : undefined);
  if (html !== undefined) {
    const path = plainPath(html);
    writePage(path, weighingPage(form, who ? `${title}, ${who}` : title, on), heading);
    print(`${shownPath(path)}: written, ${form.points.length} weighing points ${form.from}`);
  }
  if (out !== undefined && out !== html) {
    const path = plainPath(out);
    if (existsSync(path))
      throw new WrongUse(`${shownPath(path)} is there already: name a new file`);
    const included = of.airframe?.item ?? of.reach.aircraft;
    const way = relative(dirname(path), included.head.line.file).replaceAll("\\", "/");
    newFile(path, `include "${way}"\n\n${blockOf(form, on)}`);
    print(`${shownPath(path)}: written, to type over`);
  }
  if (out === undefined && html === undefined)
    for (const row of blockOf(form, on).trimEnd().split("\n")) print(drawn(row));
}

/** What somebody wrote by hand is not lost to a fresh sheet. */
async function keepReadings(path: string): Promise<void> {
  if (!existsSync(path)) return;
  const { table, lineOf, likelyDecimal } = await readFilled(path, headingsIn);
  if (headingsIn(table) === 0)
    throw new WrongUse(`${shownPath(path)} is no weigh sheet: it is left alone`);
  const { readings, unknown, broken } = readingsIn(table, lineOf, {
    ...{ on: "", by: "", decimal: undefined, likelyDecimal },
  });
  const filled = readings.length + unknown.length + broken.length;
  if (filled > 0)
    throw new WrongUse(
      `${shownPath(path)} has ${filled} ${filled === 1 ? "reading" : "readings"} in it: it is left alone; weigh --from takes them in`,
    );
}
