import type { Span } from "../../grammar/tree";
import type { Check, Draft } from "./check";

export const notJudgedYet: Check = {
  code: "not-judged-yet",
  severity: "info",
  explain:
    "The spec says something that this version reads and does not judge yet: changes of an airframe. Its figures do not rest on it.",
  example: `
aircraft kite { units lb, in }
part airframe weighed 900 lb at FS 100
airframe sn001 "S/N 001" serial 1 {
}
change lamp of sn001 on 2026-11-12 {
//     ^^^^ info[not-judged-yet]: changes of an airframe are read and not judged yet: 1 in this aircraft
  install part lamp weighed 1 lb at FS 90
}
`,

  *root(root) {
    yield* about(
      root.statements.dated.filter(it => it.head.kind === "change").map(it => it.head),
      "changes of an airframe",
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
