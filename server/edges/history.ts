import { closest } from "../../grammar/unexpected";
import { judgeSome } from "../judge";
import { show } from "../quantity/show";
import { historyOf } from "../views/history";
import { projectOf } from "./check";
import { isIn, plainPath } from "./disk";
import { drawn } from "./formats/row";
import { tableOf } from "./formats/table";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** Prints an airframe's weight and balance record: date, what, weight, arm, empty weight and CG from then on. */
export function history(args: readonly string[], print: (text: string) => void): 0 {
  const [file, name, ...more] = args;
  if (file === undefined || more.length > 0 || file.startsWith("-"))
    throw new WrongUse("history takes a file or folder and an airframe: poise history . sn003");
  const at = plainPath(file);
  const { roots } = judgeSome(projectOf([at]), it => isIn(it, at));
  const airframes = roots.filter(it => it.airframe !== undefined);
  const names = airframes.flatMap(it => it.airframe ?? []);
  const only = name === undefined && airframes.length === 1 ? airframes[0] : undefined;
  const judged = only ?? airframes.find(it => it.airframe === name);
  if (roots.length === 0) throw new WrongUse(`no aircraft reaches ${shownPath(at)}`);
  if (names.length === 0) throw new WrongUse(`${shownPath(at)} has no airframe`);
  if (judged === undefined) {
    if (name === undefined) throw new WrongUse(`which airframe? there are ${names.join(", ")}`);
    const near = closest(name, names);
    throw new WrongUse(
      `no airframe is called ${name}${near ? `; did you mean ${near}?` : `: there are ${names.join(", ")}`}`,
    );
  }
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
