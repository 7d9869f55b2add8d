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
  const station = (fs: number | null | undefined) =>
    fs === undefined ? "" : fs === null ? "not known" : `FS ${show(fs, length)}`;
  const rows = historyOf(judged.root).map(it => [
    it.on,
    it.what,
    it.mass === undefined ? "" : `${it.mass < 0 ? "-" : "+"}${show(Math.abs(it.mass), mass)}`,
    station(it.fs),
    it.empty === undefined
      ? ""
      : `${show(it.empty.mass, mass)}${it.empty.complete ? "" : " (incomplete)"}`,
    it.empty === undefined ? "" : station(it.empty.fs),
  ]);
  print(drawn(judged.root.airframe?.title ?? judged.airframe!));
  for (const row of tableOf([
    ["date", "what", "weight", "arm", "basic empty weight", "CG"],
    ...rows,
  ]))
    print(row);
  print("A record to check and sign by whoever may: it does not replace the approved documents.");
  return 0;
}
