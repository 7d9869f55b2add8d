import type { Position } from "../../grammar/source";
import type { Call, Declaration, Item, Path, Span, Statement, Word } from "../../grammar/tree";
import { memberAt } from "../compute/member-at";
import { optionsOf } from "../model/options";
import { reachesOf } from "../model/reach";
import type { Root } from "../model/root";
import { lookUp } from "../model/scope";
import type { Project } from "../project";
import { type At, isWord, nodesAt, rootWith, scopeAt } from "./place";

/** A place in a file, or the whole of one. */
export type Target = { readonly at: Span } | { readonly file: string };

/** Where the thing under the cursor is declared, if it is anywhere. */
export function definition(project: Project, path: string, position: Position): Target | undefined {
  const at = nodesAt(project, path, position);
  if (at === undefined) return undefined;
  if (at.statement.kind === "include") {
    const file = reachesOf(project).targets.get(at.statement);
    return file === undefined ? undefined : { file };
  }
  const root = rootWith(project, path);
  const target = root && declarationOf(root, at);
  return target && { at: target };
}

/** The name, where it is declared, that the one under the cursor means. */
export function declarationOf(root: Root, at: At): Span | undefined {
  const { statement, nodes } = at;
  const path = nodes.findLast((node): node is Path => "words" in node);
  const word = nodes.findLast(isWord);
  const call = nodes.findLast((node): node is Call => "args" in node);
  if (path === undefined)
    return word && word !== call?.name ? wordMeans(root, statement, word) : undefined;
  const last = word === undefined || word === path.words.at(-1);
  if ("clauses" in statement && statement.path === path && last) return path;
  if (nodes.some(it => "kind" in it && it.kind === "name") && !(call && asks.has(call.name.text)))
    return lookUp(scopeAt(root, at.blocks), path.text)?.found.name;
  if (call && ofEnvelopes.has(call.name.text)) return envelopeCalled(root, path.text);

  const upTo = path.words.slice(0, word ? path.words.indexOf(word) + 1 : undefined);
  const member = memberAt(root, upTo.map(it => it.text).join("."))?.member;
  if (member) return nameIn(member.head);
  // two_up.takeoff: a stage is declared with its loading
  return named(root.statements.loadings, path.words[0]?.text);
}

/** Functions of a thing or a loading, or of an envelope: any other takes figures. */
const ofEnvelopes = new Set(["ramp", "takeoff", "landing", "zero_fuel", "forward", "aft"]);
const asks = new Set(["mass", "predicted", "budget", "fs", "bl", "wl", "mac", ...ofEnvelopes]);

/** Outside of paths a word's place says what it names: under ENVELOPE, of FLUID, choose CHOICE OPTION. */
function wordMeans(root: Root, statement: Statement, word: Word): Span | undefined {
  const { text } = word;
  if ("name" in statement && statement.name === word) return word;
  switch (statement.kind) {
    case "loading":
      return envelopeCalled(root, text);
    case "choice":
      return optionCalled(
        root.statements.choices.find(it => it.head === statement),
        text,
      );
    case "choose": {
      const { choices } = root.statements;
      if (word === statement.choice) return named(choices, text);
      return optionCalled(
        choices.find(it => nameIn(it.head)?.text === statement.choice?.text),
        text,
      );
    }
    case "weighing":
    case "change":
      return named(root.statements.airframes, text);
    default:
      return root.fluids.get(text)?.head.path;
  }
}

function envelopeCalled(root: Root, name: string): Span | undefined {
  return named(
    root.envelopes.map(it => it.item),
    name,
  );
}

function optionCalled(choice: Item | undefined, name: string): Span | undefined {
  return choice && named(optionsOf(choice), name);
}

function named(items: readonly Item[], name: string | undefined): Span | undefined {
  for (const { head } of items) {
    const own = nameIn(head);
    if (own !== undefined && own.text === name) return own;
  }
  return undefined;
}

function nameIn(head: Statement | Declaration): Word | Path | undefined {
  if ("clauses" in head) return head.path;
  return "name" in head ? head.name : undefined;
}
