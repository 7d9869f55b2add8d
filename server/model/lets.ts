import type { Expr, Name } from "../../grammar/tree";
import { memo } from "../memo";
import { type Let, lookUp, type Scope } from "./scope";

/** A let where it stands, with all that its value rests on. */
export interface Rest {
  readonly found: Let;
  readonly scope: Scope;
  /** The lets its value names, each once. */
  readonly on: readonly Rest[];
  /** It, or a let it rests on, asks for a sum of the aircraft. */
  readonly asks: boolean;
  /** Those it goes in a circle with, itself among them. */
  readonly circle: readonly Rest[] | undefined;
  /** Has no value: it goes in a circle, or rests on one that does. */
  readonly lost: boolean;
  /** The lets with a spread that it rests on, each with the scope it stands in. */
  readonly spread: ReadonlyMap<Let, Scope>;
}

/**
 * Hangs on the let and its scope alone, and both are new ones when anything they say is changed: so it is
 * found once for each.
 */
export function restOf(found: Let, scope: Scope): Rest {
  const rest = draftOf(found, scope);
  if (rest.order === 0) visit(rest);
  return rest;
}

/** The name in a let's value that leads back to it; undefined where none does. */
export function wayBack(found: Let, scope: Scope): Name | undefined {
  const { circle } = restOf(found, scope);
  if (circle === undefined) return undefined;
  return namesIn(found.value).names.find(name => {
    const next = letNamed(name, scope);
    return next && restOf(next.found, next.scope).circle === circle;
  });
}

type Draft = { -readonly [K in keyof Rest]: Rest[K] } & {
  on: Draft[];
  /** When it was come to, and the earliest that it leads back to; 0: not yet. */
  order: number;
  back: number;
  done: boolean;
};

const drafts = memo((_: Let) => new WeakMap<Scope, Draft>());

function draftOf(found: Let, scope: Scope): Draft {
  const ofLet = drafts(found);
  const before = ofLet.get(scope);
  if (before) return before;
  const draft: Draft = {
    ...{ found, scope, on: [], asks: false, circle: undefined, lost: false, spread: noSpread },
    ...{ order: 0, back: 0, done: false },
  };
  ofLet.set(scope, draft);
  return draft;
}

const noSpread: ReadonlyMap<Let, Scope> = new Map();

/**
 * R. Tarjan, Depth-first search and linear graph algorithms (1972), from memory: circles come out whole,
 * after all that they rest on. Without recursion, for a chain of lets is as long as its author likes.
 */
function visit(first: Draft): void {
  const path: { readonly it: Draft; next: number }[] = [];
  const open: Draft[] = [];
  let count = 0;
  const enter = (it: Draft) => {
    const { names, asks } = namesIn(it.found.value);
    const on = names.flatMap(name => letNamed(name, it.scope) ?? []);
    it.on = [...new Set(on.map(({ found, scope }) => draftOf(found, scope)))];
    it.asks = asks;
    count += 1;
    it.order = count;
    it.back = count;
    open.push(it);
    path.push({ it, next: 0 });
  };
  enter(first);
  for (let top = path.at(-1); top; top = path.at(-1)) {
    const { it } = top;
    const next = it.on[top.next];
    top.next += 1;
    if (next?.order === 0) enter(next);
    else if (next) it.back = next.done ? it.back : Math.min(it.back, next.order);
    else {
      path.pop();
      const above = path.at(-1)?.it;
      if (above) above.back = Math.min(above.back, it.back);
      if (it.back === it.order) finish(open.splice(open.lastIndexOf(it)));
    }
  }
}

/** @param together a let, or those of one circle; what else they rest on is done */
function finish(together: readonly Draft[]): void {
  const [only] = together;
  const circle = together.length > 1 || only!.on.includes(only!) ? together : undefined;
  for (const it of together) {
    it.done = true;
    it.circle = circle;
    it.lost = circle !== undefined || it.on.some(({ lost }) => lost);
    it.asks ||= it.on.some(({ asks }) => asks);
    if (!it.lost) it.spread = spreadIn(it.on);
  }
}

function spreadIn(on: readonly Rest[]): ReadonlyMap<Let, Scope> {
  const [only] = on;
  if (on.length === 1 && !only!.found.spread) return only!.spread;
  const spread = new Map<Let, Scope>();
  for (const it of on) {
    if (it.found.spread) spread.set(it.found, it.scope);
    for (const [found, scope] of it.spread) spread.set(found, scope);
  }
  return spread.size === 0 ? noSpread : spread;
}

function letNamed({ path }: Name, scope: Scope) {
  return path.words.length === 1 ? lookUp(scope, path.text) : undefined;
}

/** Functions of a thing, a loading or an envelope, and of nothing else: what stands in them is no let. */
export const asksForSums: ReadonlySet<string> = new Set([
  ...["mass", "predicted", "budget", "fs", "bl", "wl", "mac"],
  ...["ramp", "takeoff", "landing", "zero_fuel", "forward", "aft"],
]);

/** The names an expression takes values from, in the order written; whether it asks for a sum. */
function namesIn(expr: Expr | undefined): {
  readonly names: readonly Name[];
  readonly asks: boolean;
} {
  const names: Name[] = [];
  let asks = false;
  const ahead = expr ? [expr] : [];
  for (let it = ahead.pop(); it; it = ahead.pop())
    if (it.kind === "name") names.push(it);
    else if (it.kind === "negative") ahead.push(it.of);
    else if (it.kind === "binary") ahead.push(it.right, it.left);
    else if (it.kind === "call")
      if (asksForSums.has(it.name.text)) asks = true;
      else ahead.push(...it.args.toReversed());
  return { names, asks };
}
