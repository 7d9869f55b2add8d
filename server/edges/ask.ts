import { createInterface } from "node:readline";
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
  const { put, close } = questioner();
  const unit = (question: string, best: Unit, fits: (unit: Unit) => boolean, such: string) => {
    const read = (answer: string) => {
      const found = unitCalled(answer);
      return found && fits(found) ? found : undefined;
    };
    return put(`${question} [${best.name}]`, best, read, such);
  };
  let { mass, length, decimal, pieces } = options;
  try {
    if (layout.mass.from === "guess" && (columns.has("mass") || columns.has("total")))
      mass = await unit("In what unit are the masses?", layout.mass.unit, isMass, masses);
    if (layout.length.from === "guess" && ["FS", "BL", "WL"].some(it => columns.has(it as "FS")))
      length = await unit("In what unit are the places?", layout.length.unit, isLength, lengths);
    if (layout.decimalGuessed) {
      const best = layout.decimal;
      const shown = best === "," ? "comma" : "point";
      decimal = await put(
        `Decimal comma or point? [${shown}]`,
        best,
        it => (/^(c|,)/i.test(it) ? "," : /^(p|\.)/i.test(it) ? "." : undefined),
        "comma or point",
      );
    }
    const plain = columns.get("mass");
    if (plain && columns.has("qty") && !columns.has("total") && pieces === undefined)
      pieces = await put(
        `Is ${plain.heading} of one piece, or of all? [one]`,
        "one",
        it => (/^o/i.test(it) ? "one" : /^a/i.test(it) ? "all" : undefined),
        "one or all",
      );
  } finally {
    close();
  }
  return { mass, length, decimal, pieces };
}

const masses = "a unit of mass, such as kg, g, lb or oz";
const lengths = "a unit of length, such as mm, cm, m or in";

function questioner() {
  // the spec itself may go to standard output
  const terminal = createInterface({ input: process.stdin, output: process.stderr });
  // lines that were pasted or typed ahead wait for their questions
  const lines = terminal[Symbol.asyncIterator]();
  return {
    async put<T>(
      question: string,
      best: T,
      read: (answer: string) => T | undefined,
      such: string,
    ): Promise<T> {
      terminal.setPrompt(`${question} `);
      for (;;) {
        terminal.prompt();
        const { value, done } = await lines.next();
        if (done) {
          process.stderr.write("\n");
          throw new WrongUse("the question was not answered, and nothing is written");
        }
        const answer = value.trim();
        if (answer === "") return best;
        const found = read(answer);
        if (found !== undefined) return found;
        process.stderr.write(`${answer} is not ${such}\n`);
      }
    },
    close: () => terminal.close(),
  };
}
