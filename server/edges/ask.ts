import { createInterface } from "node:readline/promises";
import type { Layout } from "../lists/layout";
import { isLength, isMass, unitCalled } from "../lists/units";
import type { Unit } from "../quantity/units";
import type { ImportOptions } from "./import-options";
import { WrongUse } from "./wrong-use";

type Answers = Pick<ImportOptions, "mass" | "length" | "decimal" | "pieces">;

/** Somebody sits there who can be asked. */
export const isTerminal = () => process.stdin.isTTY === true && process.stderr.isTTY === true;

/** Asks what a list leaves open, each with the best guess as the answer of an empty line. */
export async function ask(layout: Layout, options: ImportOptions): Promise<Answers> {
  const { columns } = layout;
  // the spec itself may go to standard output
  const terminal = createInterface({ input: process.stdin, output: process.stderr });
  const put = async <T>(question: string, best: T, read: (answer: string) => T | undefined) => {
    for (;;) {
      const answer = (await terminal.question(`${question} `)).trim();
      if (answer === "") return best;
      const found = read(answer);
      if (found !== undefined) return found;
    }
  };
  const unit = (question: string, best: Unit, fits: (unit: Unit) => boolean) =>
    put(`${question} [${best.name}]`, best, answer => {
      const found = unitCalled(answer);
      return found && fits(found) ? found : undefined;
    });
  let { mass, length, decimal, pieces } = options;
  try {
    if (layout.mass.from === "guess" && (columns.has("mass") || columns.has("total")))
      mass = await unit("In what unit are the masses?", layout.mass.unit, isMass);
    if (layout.length.from === "guess" && ["FS", "BL", "WL"].some(it => columns.has(it as "FS")))
      length = await unit("In what unit are the places?", layout.length.unit, isLength);
    if (layout.decimalGuessed) {
      const best = layout.decimal;
      const shown = best === "," ? "comma" : "point";
      decimal = await put(`Decimal comma or point? [${shown}]`, best, it =>
        /^(c|,)/i.test(it) ? "," : /^(p|\.)/i.test(it) ? "." : undefined,
      );
    }
    const plain = columns.get("mass");
    if (plain && columns.has("qty") && !columns.has("total") && pieces === undefined)
      pieces = await put(`Is ${plain.heading} of one piece, or of all? [one]`, "one", it =>
        /^o/i.test(it) ? "one" : /^a/i.test(it) ? "all" : undefined,
      );
  } catch (error) {
    if (error instanceof Error && error.name === "AbortError")
      throw new WrongUse("the question was not answered, and nothing is written");
    throw error;
  } finally {
    terminal.close();
  }
  return { mass, length, decimal, pieces };
}
