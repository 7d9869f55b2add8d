import type { Span } from "../../grammar/tree";
import type { Related, Severity } from "../findings";
import type { Assembly, Member } from "../model/assembly";
import type { Root } from "../model/root";

/**
 * One kind of finding: its code, its page, and the rule that finds it. Faults in the text have no rule:
 * what reads the text reports them as it meets them.
 */
export interface Check {
  readonly code: string;
  readonly severity: Severity;
  /** The first paragraph of its page. */
  readonly explain: string;
  /** A spec in the language with the finding drawn under it: the check's first test. */
  readonly example: string;
  /** Of a rule about a change: what the example was before it. */
  readonly before?: string;
  /** Looks at one member alone: remembered as long as that member does not change. */
  readonly member?: (member: Member) => Iterable<Draft>;
  /** Looks at a whole aircraft. */
  readonly root?: (root: Root) => Iterable<Draft>;
  /** Looks at an assembly and what it was in the base of a change: without a base it says nothing. */
  readonly change?: (base: Assembly, head: Assembly) => Iterable<Draft>;
}

export interface Draft {
  readonly at: Span;
  readonly message: string;
  readonly related?: readonly Related[];
  /** The path a waiver names, or a requirement's text. */
  readonly subject?: string;
}

/** The example as a person reads it: of a rule about a change, with what it was before. */
export const exampleOf = ({ before, example }: Check): string =>
  before === undefined
    ? example.trim()
    : `Before the change:\n\n${before.trim()}\n\nAfter it:\n\n${example.trim()}`;
