import type { StatementOf } from "../../grammar/tree";

export type Let = StatementOf<"let">;

/** The lets that are visible in a block: its own and those around it. */
export interface Scope {
  readonly outer: Scope | undefined;
  readonly lets: readonly Let[];
  readonly byName: ReadonlyMap<string, Let>;
}

/** Airframes that choose otherwise see other lets: a few are remembered. */
const inner = new WeakMap<object, readonly Scope[]>();

/**
 * A block's scope; the outer one itself where the block has no let, and the same object as long as nothing
 * changed.
 * @param of what the scope is remembered by, where another may begin with the same let
 */
export function scopeIn(
  outer: Scope | undefined,
  lets: readonly Let[],
  of: object | undefined = lets[0],
): Scope {
  if (lets.length === 0 || of === undefined) return outer ?? empty;
  const before = inner.get(of) ?? [];
  const same = before.find(
    it =>
      it.outer === outer &&
      it.lets.length === lets.length &&
      it.lets.every((one, i) => one === lets[i]),
  );
  if (same) return same;
  const byName = new Map<string, Let>();
  for (const it of lets) if (it.name && !byName.has(it.name.text)) byName.set(it.name.text, it);
  const scope: Scope = { outer, lets, byName };
  inner.set(of, [scope, ...before].slice(0, 4));
  return scope;
}

const empty: Scope = { outer: undefined, lets: [], byName: new Map() };

/** The let a name means, and the scope it stands in. */
export function lookUp(scope: Scope, name: string): { found: Let; scope: Scope } | undefined {
  for (let at: Scope | undefined = scope; at; at = at.outer) {
    const found = at.byName.get(name);
    if (found) return { found, scope: at };
  }
  return undefined;
}

/** Every name that can be seen, for a suggestion. */
export function* visibleNames(scope: Scope): Iterable<string> {
  for (let at: Scope | undefined = scope; at; at = at.outer) yield* at.byName.keys();
}
