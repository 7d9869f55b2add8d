import type { Span } from "../../grammar/tree";

/** A fault in the text or in what it says, before the registry of checks gives it its severity. */
export interface Fault {
  readonly code: string;
  readonly at: Span;
  readonly message: string;
  readonly related?: readonly { readonly at: Span; readonly message: string }[];
}

export type Report = (code: string, at: Span, message: string, related?: Fault["related"]) => void;

const noFaults: readonly Fault[] = [];

/** Collects faults; `found` is shared and empty as long as there are none. */
export function collector(): { readonly report: Report; readonly found: () => readonly Fault[] } {
  let list: Fault[] | undefined;
  return {
    report: (code, at, message, related) => {
      list ??= [];
      list.push(related ? { code, at, message, related } : { code, at, message });
    },
    found: () => list ?? noFaults,
  };
}
