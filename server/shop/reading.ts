import { read } from "../../grammar/source";
import type { Declaration, RecordClause } from "../../grammar/tree";
import { massOf } from "../model/figures";
import { noSums } from "../model/part";
import { scopeIn } from "../model/scope";
import { spreadOf } from "../model/spreads";
import type { Unit } from "../quantity/units";

/** What a scale showed. */
export interface Figure {
  /** As a record has it: "weighed 4 lb 1 oz ± 0.5 oz". */
  readonly record: string;
  /** Without its basis and its spread: "4 lb 1 oz". */
  readonly shown: string;
  /** kg, of everything that lay on the scale. */
  readonly mass: number;
  readonly unit: Unit;
  /** Of all its like pieces together. */
  readonly total: boolean;
  /** kg of the same, one standard deviation, where the reading says it. */
  readonly spread: number | undefined;
}

/**
 * A reading in the language's own grammar: `4.06`, `4 lb 1 oz`, `total 1.84 kg`, `4.56 lb - 0.5 lb` (less
 * its tare). What is no reading is said in words.
 * @param usual the unit of a plain number
 */
export function figureOf(text: string, usual: Unit): Figure | { readonly wrong: string } {
  const said = text.trim().replace(/\s+/g, " ");
  if (said === "") return { wrong: "no reading" };
  const before = "part it ";
  const { source, record } = recordIn(`${before}weighed ${said}`);
  const fault = source.faulty[0]?.faults[0] ?? source.braceFaults[0];
  if (fault) return { wrong: `${said}: ${fault.message}` };
  if (record?.figure === undefined) return { wrong: `${said} is no reading, as 4.06 lb is one` };
  const { figure, spread, total } = record;
  const literal = figure.kind === "negative" ? figure.of : figure;
  if (literal.kind === "quantity" && literal.measures.at(-1)!.unit.length === 0) {
    const { text: row } = figure.line;
    const from = row.slice("part it weighed ".length, figure.to);
    return figureOf(`${from} ${usual.name}${row.slice(figure.to)}`, usual);
  }
  if ((spread ?? figure).to !== source.items[0]?.head.line.text.length)
    return { wrong: `${said} says more than a reading: date and scale are said apart` };
  let wrong: string | undefined;
  const report = (_code: string, _at: unknown, message: string) => {
    wrong ??= message;
  };
  const setting = { scope: scopeIn(undefined, []), report, ask: noSums(report) };
  const mass = massOf(figure, "a reading", setting);
  const own = spreadOf(spread, mass, setting);
  if (mass === undefined || wrong !== undefined) return { wrong: `${said}: ${wrong}` };
  if (mass.value === 0) return { wrong: `${said}: nothing lay on the scale` };
  return {
    record: figure.line.text.slice(before.length),
    shown: figure.line.text.slice(figure.from, figure.to),
    mass: mass.value,
    unit: mass.unit ?? usual,
    total,
    spread: own,
  };
}

/** The only clause of a part that is declared so; undefined where the text makes anything else of it. */
function recordIn(row: string) {
  const source = read("", row);
  const [item, ...more] = source.items;
  const head = item?.head.kind === "part" ? (item.head as Declaration) : undefined;
  const [clause, ...others] = head?.clauses ?? [];
  const only = clause?.kind === "record" && more.length + others.length === 0 && !item?.open;
  return { source, record: only ? (clause as RecordClause) : undefined };
}
