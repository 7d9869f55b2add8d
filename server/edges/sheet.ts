import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { memberAt } from "../compute/member-at";
import { pageOf } from "../shop/page";
import { headingsIn, readingsIn } from "../shop/readings";
import { csvOf, unweighed } from "../shop/sheet";
import { weighablesOf, withoutSide } from "../shop/weighable";
import { plainPath } from "./disk";
import { called, decimalSaid, localDate } from "./options";
import { shownPath } from "./places";
import { readFilled } from "./read-list";
import { inShop } from "./shop";
import { WrongUse } from "./wrong-use";

/** Writes what nobody has weighed yet as a CSV to be filled in, and as a page to be printed. */
export async function sheet(args: readonly string[], print: (text: string) => void): Promise<0> {
  const { rest, said } = called("sheet", args, ["--airframe", "--output", "--html", "--decimal"]);
  const [file, ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("sheet takes one file: poise sheet kite.poise -o sheet.csv");
  const { root, title } = inShop(file, said.get("--airframe"));
  const { mass: unit } = root.units;
  const groups = unweighed(weighablesOf(root));
  const parts = groups.reduce((sum, it) => sum + it.rows.length, 0);
  const left = `${parts === 0 ? "no" : parts} ${parts === 1 ? "part" : "parts"} not weighed yet`;
  const csv = csvOf(groups, unit, decimalSaid(said) ?? ".");
  const [out, html] = [said.get("--output"), said.get("--html")];

  if (out !== undefined) {
    await keepReadings(plainPath(out));
    // without the mark a spreadsheet takes the letters for those of an older code page
    const mark = /[^\x20-\x7e\r\n]/.test(csv) ? "\ufeff" : "";
    writeFileSync(plainPath(out), mark + csv);
    print(`${shownPath(plainPath(out))}: written, ${left}`);
  }
  if (html !== undefined) {
    const path = plainPath(html);
    if (existsSync(path) && !readFileSync(path, "utf8").includes("<h1>Weigh sheet: "))
      throw new WrongUse(`${shownPath(path)} is no weigh sheet: it is left alone`);
    const titleOf = (of: string) => memberAt(root, withoutSide(of))?.member.head.title?.text;
    writeFileSync(path, pageOf(groups, { title, on: localDate(new Date()), unit, titleOf }));
    print(`${shownPath(path)}: written, ${left}`);
  }
  if (out === undefined && html === undefined) print(csv.trimEnd());
  return 0;
}

/** What somebody wrote by hand is not lost to a fresh sheet. */
async function keepReadings(path: string): Promise<void> {
  if (!existsSync(path)) return;
  const { table, lineOf, likelyDecimal } = await readFilled(path, headingsIn);
  if (headingsIn(table) === 0)
    throw new WrongUse(`${shownPath(path)} is no weigh sheet: it is left alone`);
  const { readings, broken } = readingsIn(table, lineOf, {
    ...{ on: "", by: "", decimal: undefined, likelyDecimal },
  });
  const filled = readings.length + broken.length;
  if (filled > 0)
    throw new WrongUse(
      `${shownPath(path)} has ${filled} ${filled === 1 ? "reading" : "readings"} in it: it is left alone; weigh --from takes them in`,
    );
}
