import { MOMENT } from "../quantity/dimension";
import { show, showNumber } from "../quantity/show";
import { asOf, stillToCome } from "../shop/as-of";
import { type Equipment, equipmentCsv, equipmentOf, kinds } from "../shop/equipment";
import { drawn, jsonText } from "./formats/row";
import { tableOf } from "./formats/table";
import { called, localDate, oneOf } from "./options";
import { inShop } from "./shop";
import { WrongUse } from "./wrong-use";

/** Prints what an airframe has fitted: item, part number, serial number, weight, arm, moment and kind. */
export function equipment(args: readonly string[], print: (text: string) => void): 0 {
  const valued = ["--airframe", "--kind", "--format"];
  const { rest, said, flags } = called("equipment", args, valued, ["--all"]);
  const [file, ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("equipment takes one file or folder: poise equipment kite.poise");
  const kind = oneOf("--kind", said.get("--kind"), kinds);
  const format = oneOf("--format", said.get("--format"), ["table", "json", "csv"]);
  const { root, title } = inShop(file, said.get("--airframe"));
  const all = flags.has("--all") || kind === "structure";
  const rows = equipmentOf(root, all).filter(it => kind === undefined || it.kind === kind);
  const today = localDate(new Date());
  const last = stillToCome(root, today);
  if (format === "json") {
    print(jsonText({ aircraft: title, as_of: last?.on ?? today, equipment: rows.map(asJson) }, 2));
    return 0;
  }
  if (format === "csv") {
    print(equipmentCsv(rows, root));
    return 0;
  }
  print(`${drawn(title)}: equipment ${last ? asOf(root, today, "printed") : `on ${today}`}`);
  if (rows.length === 0) {
    print(
      "No part says that it is equipment: write kind required, optional or consumable, or --all",
    );
    return 0;
  }
  const { mass, length } = root.units;
  const moment = {
    name: `${mass.name} ${length.name}`,
    factor: mass.factor * length.factor,
    dimension: MOMENT,
  };
  const headings = [
    "item",
    "part number",
    "serial number",
    "pieces",
    "weight",
    "arm",
    "moment",
    "kind",
  ];
  const cells = rows.map(it => [
    `${it.weighable.path}${it.weighable.title ? ` "${it.weighable.title}"` : ""}`,
    it.weighable.pn ?? "",
    it.weighable.sn ?? "",
    showNumber(it.weighable.pieces, 0),
    it.mass === undefined ? "not known" : show(it.mass, mass),
    it.fs === undefined ? "not known" : `FS ${show(it.fs, length)}`,
    it.moment === undefined ? "" : show(it.moment, moment),
    it.kind ?? "",
  ]);
  for (const row of tableOf([headings, ...cells])) print(row);
  const known = rows.filter(it => it.mass !== undefined);
  const sum = known.reduce((total, it) => total + it.mass!, 0);
  const lacks = rows.length - known.length;
  const left = lacks === 0 ? "" : `, ${lacks} of them without a weight`;
  print(`${rows.length} ${rows.length === 1 ? "item" : "items"}, ${show(sum, mass)}${left}`);
  print(
    "To be checked against the aircraft and signed by whoever may: no approved equipment list.",
  );
  return 0;
}

/** kg, m, kg m about the datum; null: not known. */
const asJson = ({ weighable, kind, mass, fs, moment }: Equipment) => ({
  ...{ path: weighable.path, title: weighable.title ?? null, pieces: weighable.pieces },
  ...{ pn: weighable.pn ?? null, sn: weighable.sn ?? null, kind: kind ?? null },
  ...{ mass_kg: mass ?? null, fs_m: fs ?? null, moment_kg_m: moment ?? null },
});
