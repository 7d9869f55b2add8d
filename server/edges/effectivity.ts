import { effectivityOf, type Holds } from "../views/effectivity";
import { rootsAt } from "./airframe-named";
import { drawn } from "./formats/row";
import { tableOf } from "./formats/table";
import { called } from "./options";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** Prints what of the design is effective for which airframe. */
export function effectivity(args: readonly string[], print: (text: string) => void): 0 {
  const { rest } = called("effectivity", args, []);
  const [file = ".", ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("effectivity takes one file or folder: poise effectivity examples/dunlin");
  const { at, roots } = rootsAt(file);
  const designs = new Set(roots.map(it => it.root.reach));
  if (designs.size > 1)
    throw new WrongUse(
      `${designs.size} aircraft are in ${shownPath(at)}: name a file of the one that is meant`,
    );
  const { root } = roots[0]!;
  const rows = effectivityOf(roots.map(it => it.root));
  print(`${drawn(root.title ?? root.name)}: what is effective for which serial numbers`);
  if (rows.length === 0) {
    print("Everything is for every airframe: nothing says effective.");
    return 0;
  }
  const columns = roots.map(({ root: { airframe } }) =>
    airframe === undefined
      ? "as designed"
      : `${airframe.name} (${airframe.serial === undefined ? "no serial" : airframe.serial})`,
  );
  const cells = rows.map(it => [it.path, it.what, it.serials, ...it.holds.map(word)]);
  for (const row of tableOf([["path", "what", "effective", ...columns], ...cells])) print(row);
  if (roots.some(it => it.root.airframe && it.root.airframe.serial === undefined))
    print("An airframe without a serial number is read as the newest one, as the design is.");
  return 0;
}

const word = (it: Holds) => (it === "no" ? "-" : it === "counts" ? "on record" : it);
