import type { Call, Path, Span, Statement, Word } from "../../grammar/tree";

/** What a word of a statement is, where its letters alone do not say it. */
export type Meaning = NameMeaning | "unit" | "code";
type NameMeaning = "declared" | "let" | "reference" | "constant" | "side" | "function";

export interface Meanings {
  /** By where a word begins. */
  readonly words: ReadonlyMap<number, Meaning>;
  /** Stretches that are one thing, whatever stands in them: units, codes of findings. In order. */
  readonly whole: readonly Stretch[];
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly means: "unit" | "code";
}

/** Which words of some statements are names, and which stretches are units. */
export function meaningsIn(heads: readonly Statement[]): Meanings {
  const found = new Map<number, Meaning>();
  const whole: Stretch[] = [];
  const add = ({ from, to }: Span, means: Stretch["means"]) => whole.push({ from, to, means });
  const visit = (node: unknown) => {
    if (typeof node !== "object" || node === null) return;
    if (isPath(node)) {
      node.words.forEach((word, i) => {
        if (found.has(word.from)) return;
        const alone = node.words.length === 1 && constants.has(word.text);
        const side = i > 0 && (word.text === "LH" || word.text === "RH");
        found.set(word.from, alone ? "constant" : side ? "side" : "reference");
      });
      return;
    }
    if (isCall(node)) found.set(node.name.from, "function");
    if ("unitAt" in node && node.unitAt) add(node.unitAt as Span, "unit");
    if ("units" in node) for (const unit of node.units as readonly Span[]) add(unit, "unit");
    if (isWord(node)) {
      if (!found.has(node.from)) found.set(node.from, "reference");
      return;
    }
    for (const [key, value] of Object.entries(node)) if (key !== "line") visit(value);
  };
  for (const head of heads) {
    if (head.kind === "waive" && head.code) add(head.code, "code");
    else if (head.kind === "let") {
      if (head.name) found.set(head.name.from, "let");
    } else if ("clauses" in head)
      for (const word of head.path?.words ?? []) found.set(word.from, "declared");
    else if ("name" in head && head.name) found.set(head.name.from, "declared");
    visit(head);
  }
  return { words: found, whole: whole.sort((a, b) => a.from - b.from) };
}

/** Names that are always there. */
const constants = new Set(["empty", "g0"]);

const isPath = (node: object): node is Path => "words" in node;
const isCall = (node: object): node is Call => "args" in node;

/** A word, and not a text in quotes or a date, nor a clause that holds one. */
function isWord(node: object): node is Word {
  if (!("text" in node) || typeof node.text !== "string" || "kind" in node) return false;
  const { line, from } = node as Word;
  return /^\p{L}/u.test(line.text.slice(from, from + 2));
}
