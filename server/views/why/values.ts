import type { Call, Expr } from "../../../grammar/tree";
import { askOf } from "../../compute/ask";
import { memberAt } from "../../compute/member-at";
import { evaluate } from "../../model/evaluate";
import { asksForSums } from "../../model/lets";
import type { Root } from "../../model/root";
import { type Let, lookUp, type Scope } from "../../model/scope";
import { valueText, written } from "./figures";
import { line, type Step, section, type WhyLine } from "./lines";

/** A `let`: its value, and every other let and figure of the aircraft it rests on. */
export function letLines(root: Root, path: string, found: Let, scope: Scope): readonly WhyLine[] {
  const rests = found.value ? restsOn(root, found.value, scope) : [];
  const spread: Step[] = found.spread
    ? [["spread", `± ${written(found.spread)}`, found.spread]]
    : [];
  return [
    line(`${path} = ${resultOf(root, found.value, scope)}`, found.name),
    ...section("Value", [
      ["written", found.value ? written(found.value) : "nothing yet", found.value],
      ...spread,
    ]),
    ...section("Rests on", rests),
  ];
}

/** Every let an expression names, and those behind them, each once; what it asks of the aircraft too. */
export function restsOn(root: Root, expr: Expr, scope: Scope): readonly Step[] {
  const seen = new Set<Let>();
  const steps: Step[] = [];
  // a stack of its own: a chain of lets is as long as its author likes
  const ahead: [Expr, Scope][] = [[expr, scope]];
  for (let next = ahead.pop(); next; next = ahead.pop()) {
    const [it, within] = next;
    switch (it.kind) {
      case "name": {
        const let_ = lookUp(within, it.path.text);
        if (let_ === undefined || seen.has(let_.found)) break;
        seen.add(let_.found);
        const { value, name } = let_.found;
        const result = resultOf(root, value, let_.scope);
        const text = value ? written(value) : "";
        steps.push([name!.text, text === result ? text : `${text} = ${result}`, name]);
        if (value) ahead.push([value, let_.scope]);
        break;
      }
      case "call":
        if (asksForSums.has(it.name.text))
          steps.push([written(it), resultOf(root, it, within), declared(root, it) ?? it]);
        else for (const arg of it.args.toReversed()) ahead.push([arg, within]);
        break;
      case "negative":
        ahead.push([it.of, within]);
        break;
      case "binary":
        ahead.push([it.right, within], [it.left, within]);
    }
  }
  return steps;
}

function declared(root: Root, { args: [arg] }: Call) {
  return arg?.kind === "name" ? memberAt(root, arg.path.text)?.member.head.path : undefined;
}

function resultOf(root: Root, expr: Expr | undefined, scope: Scope): string {
  let complete = true;
  const ask = askOf(root, "basic", () => {
    complete = false;
  });
  const value = expr && evaluate(expr, { scope, report: () => {}, ask });
  return value ? `${valueText(root, value)}${complete ? "" : " (incomplete)"}` : "not known";
}
