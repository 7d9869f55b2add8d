import type { Edit, Side } from "./env";

/** Those that lead to or into a member, as seen from there: `[]` is the member itself. */
export function editsInside(edits: readonly Edit[], name: string): readonly Edit[] {
  const inside = edits.filter(
    ({ words, does }) =>
      words[0] === name && (words.length > 1 || (does !== "put" && does !== "remove")),
  );
  return inside.length === 0 ? none : inside.map(it => ({ ...it, words: it.words.slice(1) }));
}
const none: readonly Edit[] = [];

export const isSide = (word: string | undefined): word is Side => word === "LH" || word === "RH";

/** Of something mirrored: one side of it is changed. */
export const namesSide = ({ words }: Edit) => isSide(words[0]);

/** What is done to one side of something mirrored: what names it, and what names none. */
export function editsOfSide(edits: readonly Edit[], side: Side): readonly Edit[] {
  return edits.flatMap(edit => {
    const [first, ...words] = edit.words;
    if (!isSide(first)) return edit;
    return first === side ? { ...edit, words, sided: true } : [];
  });
}

/** What is done to both sides alike. */
export const withoutSides = (edits: readonly Edit[]) =>
  edits.filter(it => !it.sided && !namesSide(it));
