import snippets from "../../../grammar/snippets.json";
import type { Offer } from "./offer";

/**
 * Whole declarations, where one may begin with their word.
 * @param words those a statement may begin with
 * @param today ISO, for what is dated
 */
export function snippetOffers(words: ReadonlySet<string>, today: string): readonly Offer[] {
  return Object.values(snippets).flatMap(
    ({ prefix, description, body }, rank): readonly Offer[] => {
      // what it begins with, behind its comments and what it gives names to
      const word = prefix.split("-")[0]!;
      if (!words.has(word)) return [];
      const lines = body.join("\n").replaceAll("\t", "  ");
      return [
        {
          ...{ label: prefix, kind: "snippet", rank, title: description, doc: { word } },
          ...{ snippet: dated(lines, today), text: plainly(dated(lines, today)) },
        },
      ];
    },
  );
}

/** Not every editor knows these variables. */
function dated(body: string, today: string): string {
  const [year, month, day] = today.split("-");
  return body
    .replaceAll("$CURRENT_YEAR", year!)
    .replaceAll("$CURRENT_MONTH", month!)
    .replaceAll("$CURRENT_DATE", day!);
}

/** Every placeholder with what it stands for; of a choice the first. */
export function plainly(body: string): string {
  const defaults = new Map<string, string>();
  return body
    .replace(/\$\{(\d+):([^}]*)\}/g, (_, n: string, text: string) => {
      defaults.set(n, text);
      return text;
    })
    .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, "$1")
    .replace(/\$(\d+)/g, (_, n: string) => defaults.get(n) ?? "");
}
