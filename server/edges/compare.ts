import { comparedCells, compare as comparisonOf, hiddenIn } from "../views/compare";
import { airframeNamed, oneAircraft } from "./airframe-named";
import { drawn } from "./formats/row";
import { tableOf } from "./formats/table";
import { called, localDate } from "./options";
import { WrongUse } from "./wrong-use";

/** Prints what each option, and combinations of them, make of an aircraft, beside it as it is. */
export function compare(args: readonly string[], print: (text: string) => void): 0 {
  const { file, airframe, most } = optionsOf(args);
  const today = localDate(new Date());
  const { at, roots } = oneAircraft(file, today);
  const judged = airframe === undefined ? roots[0]! : airframeNamed(roots, airframe, at);
  const { root } = judged;
  if (root.statements.choices.length === 0)
    throw new WrongUse(`${root.name} has no choice: write choice … { option … } to compare`);
  const found = comparisonOf(root, today, most);
  const { rows, more } = found;
  const hidden = hiddenIn(found);
  print(
    `${drawn(root.airframe?.title ?? root.airframe?.name ?? root.title ?? root.name)}, with other options chosen`,
  );
  for (const row of tableOf(comparedCells(root, rows))) print(row);
  if (hidden) print(`${hidden}: --most ${rows.length + more} shows them all`);
  print("A calculated weight and balance does not replace a weighing or the approved documents.");
  return 0;
}

function optionsOf(args: readonly string[]) {
  const { rest, said } = called("compare", args, ["--airframe", "--most"]);
  const [file, ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("compare takes one file or folder: poise compare examples/dunlin");
  const most = Number(said.get("--most") ?? 32);
  if (!Number.isInteger(most) || most < 1)
    throw new WrongUse("--most is a whole number of rows, such as 50");
  return { file, airframe: said.get("--airframe"), most };
}
