import { closest } from "../../grammar/unexpected";
import { judgeSome } from "../judge";
import { show } from "../quantity/show";
import { type Compared, compare as comparisonOf } from "../views/compare";
import { projectOf } from "./check";
import { isIn, plainPath } from "./disk";
import { drawn } from "./formats/row";
import { tableOf } from "./formats/table";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** Prints what each option, and combinations of them, make of an aircraft, beside it as it is. */
export function compare(args: readonly string[], print: (text: string) => void): 0 {
  const { file, airframe, most } = optionsOf(args);
  const at = plainPath(file ?? ".");
  const project = projectOf([at]);
  const today = new Date().toISOString().slice(0, 10);
  const { roots } = judgeSome(project, it => isIn(it, at), today);
  const names = roots.flatMap(it => it.airframe ?? []);
  const judged = roots.find(it => it.airframe === airframe);
  if (judged === undefined && airframe !== undefined && roots.length > 0) {
    const near = closest(airframe, names);
    throw new WrongUse(
      `no airframe is called ${airframe}${near ? `; did you mean ${near}?` : names.length > 0 ? `: there are ${names.join(", ")}` : ""}`,
    );
  }
  if (judged === undefined) throw new WrongUse(`no aircraft reaches ${shownPath(at)}`);
  const { root } = judged;
  if (root.statements.choices.length === 0)
    throw new WrongUse(`${root.name} has no choice: write choice … { option … } to compare`);
  const { rows, more } = comparisonOf(root, today, most);
  const [base] = rows;
  const { mass, length } = root.units;
  const signed = (kg: number, unit: typeof mass) =>
    Math.abs(kg) < 1e-9 ? "0" : `${kg > 0 ? "+" : "-"}${show(Math.abs(kg), unit)}`;
  const cells = rows.map((row): readonly string[] => [
    row.chosen.length === 0
      ? `as it is: ${[...root.chosen].map(([, option]) => option).join(", ")}`
      : row.chosen.map(([choice, option]) => `${choice} ${option}`).join(", "),
    `${show(row.empty, mass)}${row.complete ? "" : " (incomplete)"}`,
    row === base ? "" : signed(row.empty - base!.empty, mass),
    row.fs === null ? "not known" : `FS ${show(row.fs, length)}`,
    row === base || row.fs === null || base!.fs === null ? "" : signed(row.fs - base!.fs, length),
    row.left === undefined ? "no budget" : signed(row.left, mass),
    row.loadings === 0 ? "none" : `${row.outside} of ${row.loadings}`,
    permitted(row),
    `${row.errors}/${row.warnings}`,
  ]);
  print(
    `${drawn(root.airframe?.title ?? root.airframe?.name ?? root.title ?? root.name)}, with other options chosen`,
  );
  for (const row of tableOf([headings, ...cells])) print(row);
  if (more > 0) print(`${more} more combinations: --most ${rows.length + more} shows them all`);
  print("A calculated weight and balance does not replace a weighing or the approved documents.");
  return 0;
}

const headings = [
  ...["chosen", "empty weight", "difference", "CG", "moves", "left of budget"],
  ...["loadings outside", "all permitted loadings", "errors/warnings"],
];

/** The worst of its envelopes. */
function permitted({ envelopes }: Compared): string {
  const verdicts = envelopes.map(it => it.verdict);
  if (verdicts.includes("can-exceed")) return "can be outside";
  if (verdicts.includes("not-excluded")) return "outside is not excluded";
  return verdicts.length > 0 ? "inside" : "not judged";
}

function optionsOf(args: readonly string[]) {
  let file: string | undefined;
  let airframe: string | undefined;
  let most = 32;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    const equals = arg.indexOf("=");
    const name = equals < 0 ? arg : arg.slice(0, equals);
    const value = () => (equals < 0 ? (args[++i] ?? "") : arg.slice(equals + 1));
    if (name === "--airframe") airframe = value();
    else if (name === "--most") {
      most = Number(value());
      if (!Number.isInteger(most) || most < 1)
        throw new WrongUse("--most is a whole number of rows, such as 50");
    } else if (name.startsWith("-")) {
      const near = closest(name, ["--airframe", "--most"]);
      throw new WrongUse(`compare has no option ${name}${near ? `; did you mean ${near}?` : ""}`);
    } else if (file === undefined) file = arg;
    else throw new WrongUse("compare takes one file or folder: poise compare examples/dunlin");
  }
  return { file, airframe, most };
}
