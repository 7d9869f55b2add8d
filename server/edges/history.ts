import { serialNumbers } from "../compute/serial-numbers";
import { show } from "../quantity/show";
import { historyOf } from "../views/history";
import { airframeNamed, rootsAt } from "./airframe-named";
import { drawn } from "./formats/row";
import { tableOf } from "./formats/table";
import { called } from "./options";
import { WrongUse } from "./wrong-use";

/** Prints an airframe's weight and balance record: date, what, weight, arm, empty weight and CG from then on. */
export function history(args: readonly string[], print: (text: string) => void): 0 {
  const { rest } = called("history", args, []);
  const [file, name, ...more] = rest;
  if (file === undefined || more.length > 0)
    throw new WrongUse("history takes a file or folder and an airframe: poise history . sn003");
  const { at, roots } = rootsAt(file);
  const judged = airframeNamed(roots, name, at);
  const { mass, length } = judged.root.units;
  const station = (fs: number | null | undefined, isComplete = true) =>
    fs === undefined
      ? ""
      : fs === null
        ? "not known"
        : `FS ${show(fs, length)}${marked(isComplete)}`;
  const weight = (kg: number | null, isComplete: boolean) =>
    kg === null
      ? "not known"
      : `${kg < 0 ? "-" : "+"}${show(Math.abs(kg), mass)}${marked(isComplete)}`;
  const entries = historyOf(judged.root);
  const rows = entries.map(it => [
    it.on,
    `${it.what}${it.negligible === undefined ? "" : it.negligible === "together" ? " (negligible)" : " (negligible by itself)"}`,
    it.mass === undefined ? "" : weight(it.mass, !it.lacks?.mass),
    station(it.fs, !it.lacks?.fs),
    it.empty === undefined ? "" : `${show(it.empty.mass, mass)}${marked(it.empty.massKnown)}`,
    it.empty === undefined ? "" : station(it.empty.fs, it.empty.complete),
  ]);
  print(drawn(judged.root.airframe?.title ?? judged.airframe!));
  for (const row of tableOf([
    ["date", "what", "weight", "arm", "basic empty weight", "CG"],
    ...rows,
  ]))
    print(row);
  const fitted = serialNumbers(judged.root.rolledUp ?? judged.root);
  if (fitted.length > 0) {
    print("Fitted now, by serial number:");
    for (const row of tableOf(fitted.map(([path, number]) => [`  ${path}`, number]))) print(row);
  }
  if (entries.some(it => it.negligible)) for (const row of negligible) print(row);
  print("A record to check and sign by whoever may: it does not replace the approved documents.");
  return 0;
}

const marked = (isComplete: boolean) => (isComplete ? "" : " (incomplete)");

/** What the word rests on; what it means for the record is not for us to say. */
const negligible = [
  "negligible: no more than 1 lb below 5,000 lb of empty weight, 2 lb up to 50,000 lb, 5 lb above, and the CG",
  "moves less than 0.05 % of the chord (AC 43.13-1B, 10-2c; FAA-H-8083-25C, chapter 10), together with those",
  "before it since the last weighing or greater change; by itself: not together with them. Local regulations",
  "may have other limits.",
];
