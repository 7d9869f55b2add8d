import type { Span } from "../grammar/tree";

export type Severity = "error" | "warning" | "info";

/** Something worth telling the author: plain data, in the words of the trade. */
export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  /** One short line: who, how much over what, in the author's unit. No advice in it. */
  readonly message: string;
  readonly at: Span;
  readonly related: readonly Related[];
  /** It holds for these airframes and not for the aircraft as designed. */
  readonly airframes?: readonly string[];
  /** The path a waiver names, or a requirement's text. */
  readonly subject?: string;
  /** The reason given, if a `waive` accepts it. */
  readonly waived?: string;
}

export interface Related {
  readonly message: string;
  readonly at: Span;
}
