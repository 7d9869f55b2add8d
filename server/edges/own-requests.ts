import type * as lsp from "vscode-languageserver";
import type { Project } from "../project";
import { type BudgetAnswer, type BudgetQuestion, budgetAnswer } from "./budget-answer";
import { newAnswer } from "./new-answer";
import { type TryQuestion, tryAnswer } from "./try-answer";
import { type ReadingQuestion, readingAnswer, type ShopQuestion, shopAnswer } from "./weigh-answer";
import { type WhyAnswer, type WhyQuestion, whyAnswer } from "./why-answer";

/** A fault of ours costs one answer. */
type Guarded = <P, R>(answer: (params: P) => R, otherwise: R) => (params: P) => R;

interface Picture {
  readonly project: () => Project;
  /** Something that follows every change is shown from now on. */
  readonly shown: () => void;
}

/** What the protocol has no word for, and our own extension asks. */
export function answerOwn(
  connection: lsp.Connection,
  guarded: Guarded,
  { project, shown }: Picture,
): void {
  connection.onRequest(
    "poise/why",
    guarded((question: WhyQuestion): WhyAnswer | null => {
      shown();
      return whyAnswer(project(), question);
    }, null),
  );
  connection.onRequest(
    "poise/budget",
    guarded(
      (question: BudgetQuestion): BudgetAnswer => {
        shown();
        return budgetAnswer(project(), question);
      },
      { roots: [], shown: null, tree: null },
    ),
  );
  connection.onRequest(
    "poise/try",
    guarded((question: TryQuestion) => tryAnswer(project(), question), null),
  );
  connection.onRequest("poise/new", guarded(newAnswer, null));
  connection.onRequest(
    "poise/shop",
    guarded((question: ShopQuestion) => shopAnswer(project(), question), null),
  );
  connection.onRequest(
    "poise/reading",
    guarded((question: ReadingQuestion) => readingAnswer(project(), question), null),
  );
}
