import { readingsIn, worthOf } from "../shop/readings";
import { table, toldSum, toldWritten } from "../shop/told";
import { type Misfit, type Reading, weighIn } from "../shop/weigh-in";
import { plainPath } from "./disk";
import { drawn } from "./formats/row";
import { type Called, called, dateSaid, decimalSaid, localDate } from "./options";
import { shownPath } from "./places";
import { readFilled } from "./read-list";
import { inShop } from "./shop";
import { writeEdits } from "./write-edits";
import { WrongUse } from "./wrong-use";

/**
 * Writes readings of a scale into the spec as records, and says how far off each is. The exit status: 0 all
 * are written (or would be), 1 some do not fit.
 */
export async function weigh(
  args: readonly string[],
  print: (text: string) => void,
): Promise<0 | 1> {
  const call = called(
    "weigh",
    args,
    ["--by", "--on", "--airframe", "--from", "--decimal"],
    ["--partial", "--dry-run", "--sure"],
  );
  const { said, flags } = call;
  const list = said.get("--from");
  const [file, words] = fileIn(call.rest);
  if (list === undefined ? words.length < 2 : words.length > 0) throw new WrongUse(usage);
  const shop = inShop(file, said.get("--airframe"));
  const { readings, blank, unknown } =
    list === undefined ? typed(words, call) : await filled(list, call);
  const found = weighIn(shop.root, readings, flags.has("--sure"), localDate(new Date()));
  const { fitting, misfits, written } = found;
  const tell = (text: string) => print(drawn(text));

  const [only] = misfits;
  if (list === undefined && only) throw new WrongUse(whyNot(only));
  for (const line of table(fitting, shop.root)) tell(line);
  for (const it of written) tell(toldWritten(it));
  for (const it of misfits) tell(`does not fit: ${it.reading.where}: ${whyNot(it)}`);
  if (fitting.length > 1) tell(toldSum(fitting, shop.root.units.mass));
  if (blank > 0) tell(`${many(blank, "row")} without a reading`);
  for (const it of unknown) tell(`taken for no reading: ${it}`);
  if (misfits.length > 0 && !flags.has("--partial")) {
    const others = fitting.length > 0 ? " (--partial writes the others)" : "";
    tell(
      `nothing is written: ${misfits.length} of ${many(readings.length, "reading")} ${misfits.length === 1 ? "does" : "do"} not fit${others}`,
    );
    return 1;
  }
  if (fitting.length === 0) tell("there is nothing to write");
  else {
    const isDry = flags.has("--dry-run");
    const shows = isDry || fitting.length === 1;
    writeEdits(shop.project, found.edits, { shows, writes: !isDry }, tell);
    if (isDry) tell("nothing is written: this was a dry run");
  }
  return misfits.length > 0 ? 1 : 0;
}

const usage =
  "weigh takes a part and what the scale shows, or a filled sheet: poise weigh wing.spar 21.9 lb, poise weigh --from readings.csv";

/** A file may stand first, or a folder, which no path of a part looks like: the aircraft there is meant. */
function fileIn(rest: readonly string[]): readonly [string | undefined, readonly string[]] {
  const [first] = rest;
  const isFile = first !== undefined && (/[/\\]|\.poise$/.test(first) || first === ".");
  return isFile ? [first, rest.slice(1)] : [undefined, rest];
}

interface Given {
  readonly readings: readonly Reading[];
  readonly blank: number;
  readonly unknown: readonly string[];
}

function typed([path, ...figure]: readonly string[], { said }: Called): Given {
  const on = dateSaid(said) ?? localDate(new Date());
  const by = said.get("--by") ?? "";
  const reading = { where: "", path: path!, pn: "", unit: undefined, on, by, note: "" };
  return { readings: [{ ...reading, figure: figure.join(" ") }], blank: 0, unknown: [] };
}

async function filled(list: string, { said }: Called): Promise<Given> {
  const path = plainPath(list);
  const { table, lineOf, likelyDecimal } = await readFilled(path, worthOf);
  const sheet = readingsIn(table, lineOf, {
    on: dateSaid(said) ?? localDate(new Date()),
    by: said.get("--by") ?? "",
    decimal: decimalSaid(said),
    likelyDecimal,
  });
  if (sheet.broken.length > 0)
    throw new WrongUse(
      `${shownPath(path)}: ${sheet.broken.map(drawn).join("\n       ")}\n       nothing is written`,
    );
  if (sheet.readings.length === 0 && sheet.blank === 0)
    throw new WrongUse(`${shownPath(path)} has no row below its headings`);
  return sheet;
}

const whyNot = ({ why, slip }: Misfit) => (slip ? `${why}; --sure takes it as it stands` : why);

const many = (n: number, one: string) => `${n} ${n === 1 ? one : `${one}s`}`;
