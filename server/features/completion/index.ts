import type { Position } from "../../../grammar/source";
import { type Project, sourceOf } from "../../project";
import { unitTable } from "../../quantity/units";
import { rootWith } from "../place";
import { MOST } from "./members";
import { namesAt } from "./names";
import type { Offer } from "./offer";
import { snippetOffers } from "./snippets";
import { PROBE, readingWith, typedAt } from "./typed";
import { unitsAt } from "./units";
import { wordsAt } from "./words";

/** What could stand at a position. */
export interface Completion {
  /** What is typed of it already. */
  readonly typed: string;
  /** How many of its letters stand behind the cursor. */
  readonly rest: number;
  /** In their order. */
  readonly offers: readonly Offer[];
  /** With another letter typed, others may fit: ask again. Else an editor picks among these at once. */
  readonly more: boolean;
}

/**
 * The names, units, words and whole declarations that fit where the cursor stands. Half a line is what it is
 * asked of: what stands in front of the cursor says what may follow, and nothing behind it does.
 * @param today ISO, for snippets that are dated
 */
export function completion(
  project: Project,
  path: string,
  position: Position,
  today: string,
): Completion | undefined {
  const source = sourceOf(project, path);
  const typed = source && typedAt(source, position);
  if (source === undefined || typed === undefined) return undefined;
  const hyphenated = /(?:^|[{};])\s*(\p{L}+-[\p{L}-]*)$/u.exec(typed.before + typed.word)?.[1];
  if (hyphenated) {
    // only snippets are called so: as where the whole of it was not typed yet
    const start = { ...position, character: position.character - hyphenated.length };
    const back = hyphenated.length - typed.word.length;
    const offers = completion(project, path, start, today)?.offers ?? [];
    const whole = offers.filter(it => it.kind === "snippet" && it.label.startsWith(hyphenated));
    return {
      ...{ typed: typed.word, rest: typed.rest, more: false },
      offers: whole.map(it => ({ ...it, back })),
    };
  }
  const root = rootWith(project, path);
  const own = root?.units ?? {
    mass: unitTable.get("kg")!,
    length: unitTable.get("m")!,
    volume: unitTable.get("L")!,
  };
  const units = unitsAt(typed, root, own);
  if (units.needed)
    return { typed: typed.word, rest: typed.rest, offers: units.offers, more: false };
  const names = root ? namesAt(project, root, typed) : [];
  // there is one aircraft
  const words = wordsAt(typed, source.items).filter(it => it.label !== "aircraft" || !root);
  const begins = readingWith(typed, PROBE).begins;
  const whole = begins ? snippetOffers(new Set(words.map(it => it.label)), today) : [];
  const ranked = [units.offers, names, words, whole].flatMap((offers, group) =>
    offers.map(it => ({ ...it, rank: 1000 * group + it.rank })),
  );
  const offers = ranked.sort((a, b) => a.rank - b.rank);
  // what stands deep inside is offered by its first letter
  const members = names.filter(it => it.kind === "assembly" || it.kind === "part").length;
  const more = members > 0 && (typed.word === "" || members >= MOST);
  return { typed: typed.word, rest: typed.rest, offers, more };
}
