import type { Span } from "../../grammar/tree";
import type { Check, Draft } from "./check";

export const notJudgedYet: Check = {
  code: "not-judged-yet",
  severity: "info",
  explain:
    "The spec says something that this version reads and does not judge yet: weighings and changes. Its figures do not rest on it.",
  example: `
aircraft kite { units lb, in }
part airframe weighed 900 lb at FS 100
airframe sn001 "S/N 001" serial 1 {
}
weighing first of sn001 on 2026-11-12 {
//       ^^^^^ info[not-judged-yet]: weighings and changes are read and not judged yet: 1 in this aircraft
  scale main at FS 100 reads 900 lb
}
`,

  *root(root) {
    yield* about(
      root.statements.dated.map(it => it.head),
      "weighings and changes",
    );
  },
};

function* about(heads: readonly Span[], what: string): Iterable<Draft> {
  const first = heads[0];
  if (first === undefined) return;
  const named = first as Span & { readonly name?: Span };
  yield {
    at: named.name ?? first,
    message: `${what} are read and not judged yet: ${heads.length} in this aircraft`,
    related: heads.slice(1).map(at => ({ at, message: "this too" })),
  };
}
