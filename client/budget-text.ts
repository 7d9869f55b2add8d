import type { Say } from "./say";

/** What the budget tree says, as plain data: `client/budget.ts` puts it on the screen. */

/** One thing with what it weighs, as the server tells it. Figures come formatted, with their unit. */
export interface Entry {
  readonly kind: "aircraft" | "assembly" | "part" | "reserve";
  readonly path: string;
  readonly title: string;
  readonly sides: 1 | 2;
  readonly basic: string;
  readonly predicted: string;
  readonly spread?: string;
  readonly budget?: {
    readonly budget: string;
    readonly verdict: "over" | "at-risk" | "within";
    readonly by: string;
    readonly basicShare: number;
    readonly predictedShare: number;
  };
  readonly guessed: number;
  readonly complete: boolean;
  readonly more?: { readonly count: number; readonly predicted: string };
}

export interface RowText {
  readonly label: string;
  readonly description: string;
  /** The same in words alone. */
  readonly spoken: string;
  /** What is said by its color too, and never by it alone. */
  readonly tone: "over" | "at-risk" | "guess" | "plain";
}

export function rowText(entry: Entry, order: string, say: Say): RowText {
  const verdict = verdictOf(entry, say);
  const shown = [
    ...(entry.budget ? [verdict] : []),
    ...(order === "spread" && entry.spread ? [`± ${entry.spread}`] : []),
    figures(entry, say),
    ...notes(entry, say),
  ];
  const spread = entry.spread === undefined ? [] : [say("plus or minus {0}", entry.spread)];
  const heard = [
    `${entry.title}: ${say("basic {0}", entry.basic)}`,
    ...(entry.predicted === entry.basic ? [] : [say("predicted {0}", entry.predicted)]),
    ...(entry.budget ? [say("budget {0}", entry.budget.budget), verdict] : []),
    ...spread,
    ...notes(entry, say),
  ];
  const label = entry.budget ? `${bar(entry.budget)} ${entry.title}` : entry.title;
  return { label, description: shown.join(" · "), spoken: heard.join(", "), tone: toneOf(entry) };
}

/** So long that a sixth of the budget is one step: the words beside it are exact. */
const STEPS = 6;

/**
 * High blocks are what is there, low ones what growth and reserves add, the line what is left; it is full
 * where nothing is left. All three come from one font, so bars below each other line up wherever letters
 * have widths of their own.
 */
export function bar({ basicShare, predictedShare }: NonNullable<Entry["budget"]>): string {
  const steps = (share: number) => Math.min(STEPS, Math.floor(share * STEPS + 1e-6));
  const there = steps(basicShare);
  const predicted = Math.max(there, steps(predictedShare));
  return "▄".repeat(there) + "▂".repeat(predicted - there) + "▁".repeat(STEPS - predicted);
}

function verdictOf({ budget }: Entry, say: Say): string {
  if (budget === undefined) return "";
  switch (budget.verdict) {
    case "over":
      return say("{0} over", budget.by);
    case "at-risk":
      return say("{0} over with growth", budget.by);
    case "within":
      return say("{0} left", budget.by);
  }
}

function figures({ basic, predicted, budget }: Entry, say: Say): string {
  const weight = basic === predicted ? basic : `${basic} → ${predicted}`;
  return budget === undefined ? weight : say("{0} of {1}", weight, budget.budget);
}

/** More than half of it is estimated: a guess. */
const MOSTLY = 0.5;

function notes({ sides, guessed, complete, kind }: Entry, say: Say): readonly string[] {
  const estimated = kind === "part" ? say("estimated") : say("mostly estimated");
  return [
    ...(sides === 2 ? [say("each side")] : []),
    ...(complete ? [] : [say("incomplete: a mass is not known")]),
    ...(guessed > MOSTLY ? [estimated] : []),
    ...(kind === "reserve" ? [say("held in reserve")] : []),
  ];
}

function toneOf({ budget, guessed, kind }: Entry): RowText["tone"] {
  if (budget && budget.verdict !== "within") return budget.verdict;
  return guessed > MOSTLY || kind === "reserve" ? "guess" : "plain";
}

export function moreText({ count, predicted }: NonNullable<Entry["more"]>, say: Say): string {
  return count === 1
    ? say("one more part, {0}", predicted)
    : say("{0} more parts, {1}", count, predicted);
}
