/** A text as a word of the language: a letter first, then letters, digits and `_`. */
export function wordOf(text: string): string {
  const word = text
    .normalize("NFC")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\p{M}]+/gu, "_")
    .replace(/^[_\p{M}]+|_+$/gu, "")
    .slice(0, LONGEST)
    .replace(/_+$/, "");
  return /^\p{L}/u.test(word) ? word : word === "" ? "" : `n${word}`;
}

/** The word, or with `_2`, `_3` … the first that nobody else bears; it is taken then. */
export function freeWord(word: string, taken: Set<string>): string {
  let free = word;
  for (let i = 2; taken.has(free); i++) free = `${word}_${i}`;
  taken.add(free);
  return free;
}

/**
 * A text in quotes. The language has no escapes, so a quote in it becomes a typographic one and a
 * break a space; what could turn the direction of the text around is left out.
 */
export function quoted(text: string): string {
  return `"${plainTitle(text)}"`;
}

export function plainTitle(text: string): string {
  return text
    .replace(/[\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff]/g, "")
    .replaceAll('"', "\u201d")
    .replace(/[\p{Cc}\p{Cs}\s]+/gu, " ")
    .trim()
    .slice(0, 300)
    .trim();
}

/** A path with the side left out that stands in it, if any. */
export const withoutSide = (path: string) => path.replace(/\.(LH|RH)(?=\.|$)/, "");

const LONGEST = 60;
