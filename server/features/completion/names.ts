import type { Call, Item, Path, Span, Statement, StatementOf, Word } from "../../../grammar/tree";
import { functions } from "../../../grammar/words";
import type { Member } from "../../model/assembly";
import { optionsOf } from "../../model/options";
import type { Root } from "../../model/root";
import { lookUp, visibleNames } from "../../model/scope";
import type { Project } from "../../project";
import { scopeAt, valueOfLet } from "../place";
import { codeOffers, subjectOffers } from "./codes";
import { type Asked, docAt, isStation, memberOffers, stationOffers } from "./members";
import type { Offer, OfferKind } from "./offer";
import { loadingOffers, stageOffers } from "./stages";
import { blockOf, PROBE, readingWith, type Typed } from "./typed";

/** The names that could stand where the cursor is: the place in the tree says what they are names of. */
export function namesAt(project: Project, root: Root, typed: Typed): readonly Offer[] {
  const first = readingWith(typed, PROBE);
  // only with its figure is it seen that a budget is of something else
  const ofPath = edits.has(blockOf(typed)?.head.kind ?? "") && isBudget(first.statement);
  const { nodes, statement, word } = ofPath ? readingWith(typed, `${PROBE} 1`) : first;
  if (statement === undefined || nodes.length === 0) return [];
  const path = nodes.findLast((it): it is Path => "words" in it);
  const index = path?.words.findIndex(it => it.from === word.from) ?? 0;
  const base = path?.words.slice(0, index).map(it => it.text) ?? [];
  const asked = { project, root, base, typed: typed.word };
  if (path && nodes.some(it => "kind" in it && it.kind === "name"))
    return inExpression(asked, typed, statement, nodes);
  if (path) return inPath(asked, typed, statement, path);
  return ofWord(asked, statement, nodes, word);
}

/** Blocks that say something of what stands elsewhere. */
const edits = new Set(["option", "airframe", "change"]);

const isBudget = (statement: Statement | undefined) =>
  statement?.kind === "clause" && statement.clause.kind === "budget";

function inPath(asked: Asked, typed: Typed, statement: Statement, path: Path): readonly Offer[] {
  switch (statement.kind) {
    case "load":
    case "limit":
    case "aboard":
      return stationOffers(asked, () => true);
    case "burn":
    case "taxi":
      return stationOffers(asked, it => it.kind === "tank");
    case "release":
      return stationOffers(asked, it => it.kind !== "seat");
    case "remove":
    case "missing":
      return memberOffers(asked, isInside);
    case "move":
      return memberOffers(asked, it => it.kind === "part" || it.kind === "ballast");
    case "record-of":
      return memberOffers(asked, it => isInside(it) && !isStation(it) && it.kind !== "reserve");
    case "clause":
      return memberOffers(asked, it => it.kind === "assembly" || it.kind === "part");
    case "swing-these":
      return memberOffers(
        asked,
        it => isInside(it) && it.kind === "assembly" && it.swing !== undefined,
      );
    case "waive":
      return subjectOffers(asked, statement.code?.text);
    default: {
      const declares = "clauses" in statement && statement.path === path;
      const elsewhere = edits.has(blockOf(typed)?.head.kind ?? "");
      const holds = (it: Member) => isInside(it) && it.kind === "assembly";
      return declares && elsewhere ? memberOffers(asked, holds) : [];
    }
  }
}

const isInside = ({ path }: { readonly path: string }) => path !== "";

/** Functions of a thing or a loading; those of an envelope; the others take figures. */
const ofThings = new Set(["mass", "predicted", "budget", "fs", "bl", "wl", "mac"]);
const ofEnvelopes = new Set(["ramp", "takeoff", "landing", "zero_fuel", "forward", "aft"]);

function inExpression(
  asked: Asked,
  typed: Typed,
  statement: Statement,
  nodes: readonly Span[],
): readonly Offer[] {
  const { project, root, base } = asked;
  const call = nodes.findLast((it): it is Call => "args" in it)?.name.text ?? "";
  if (ofEnvelopes.has(call)) return base.length === 0 ? envelopeOffers(asked) : [];
  if (ofThings.has(call)) {
    const things = memberOffers(asked, it =>
      call === "budget" ? "budget" in it && it.budget !== undefined : !isStation(it),
    );
    if (call === "budget") return things;
    const every = statement.kind === "require";
    return [...things, ...(base.length === 0 ? loadingOffers(asked, every) : stageOffers(asked))];
  }
  if (base.length > 0) return [];
  const scope = scopeAt(root, typed.blocks);
  const own = statement.kind === "let" ? statement.name?.text : undefined;
  const lets = [...new Set(visibleNames(scope))].flatMap((label): readonly Offer[] => {
    const found = lookUp(scope, label)?.found;
    if (found?.name === undefined || label === own) return [];
    const detail = valueOfLet(root, found, typed.blocks);
    const doc = docAt(project, found.name);
    return [{ label, kind: "value", rank: 0, ...(detail && { detail }), ...(doc && { doc }) }];
  });
  // functions come behind the words of the language, for a shape has a kind before it has a size;
  // functions come behind the words of the language, for a shape has a kind before it has a size;
  // what asks for sums stands in lets and requirements only
  const sums = statement.kind === "let" || statement.kind === "require";
  const called = functions
    .filter(it => sums || !(ofThings.has(it) || ofEnvelopes.has(it)))
    .map(
      (label, i): Offer => ({
        ...{
          label,
          kind: "function",
          rank: 1700 + i,
          text: `${label}(`,
          snippet: `${label}($1)$0`,
        },
        doc: { call: label },
      }),
    );
  const g0: Offer = { label: "g0", kind: "value", rank: 1690, detail: "9.80665 m/s^2" };
  return [...lets, ...(sums ? [g0] : []), ...called];
}

/** Outside of paths a word's place says what it names: under ENVELOPE, of FLUID, choose CHOICE OPTION. */
function ofWord(
  asked: Asked,
  statement: Statement,
  nodes: readonly Span[],
  word: Span,
): readonly Offer[] {
  const { root } = asked;
  const { choices, airframes } = root.statements;
  const here = (it: Word | undefined) => it !== undefined && it.from === word.from;
  switch (statement.kind) {
    case "loading":
      return statement.under.some(here) ? envelopeOffers(asked) : [];
    case "choice":
      return here(statement.standard) ? optionOffers(asked, statement.name?.text) : [];
    case "choose":
      if (here(statement.choice)) return headOffers(asked, choices, "choice");
      return optionOffers(asked, statement.choice?.text);
    case "weighing":
    case "change":
      return here(statement.of) ? headOffers(asked, airframes, "airframe") : [];
    case "waive":
      return statement.code && statement.code.to === word.to
        ? codeOffers(asked, word.from - statement.code.from)
        : [];
    case "aboard":
      return here(statement.of) ? fluidOffers(asked) : [];
    default:
      return nodes.some(it => "kind" in it && it.kind === "holds") ? fluidOffers(asked) : [];
  }
}

const envelopeOffers = (asked: Asked) =>
  headOffers(
    asked,
    asked.root.envelopes.map(it => it.item),
    "envelope",
  );

function fluidOffers({ project, root }: Asked): readonly Offer[] {
  return [...root.fluids].map(([label, { head }]): Offer => {
    const { figure } = head;
    const detail = figure?.line.text.slice(figure.from, figure.to);
    const doc = head.path && docAt(project, head.path);
    return { label, kind: "fluid", rank: 0, ...(detail && { detail }), ...(doc && { doc }) };
  });
}

function headOffers(
  { project }: Asked,
  items: readonly Item[],
  kind: OfferKind & ("choice" | "airframe" | "envelope"),
): readonly Offer[] {
  return items.flatMap(({ head }, rank): readonly Offer[] => {
    const { name, title } = head as StatementOf<"choice">;
    const doc = name && docAt(project, name);
    return name
      ? [{ label: name.text, kind, rank, title: title?.text ?? kind, ...(doc && { doc }) }]
      : [];
  });
}

function optionOffers({ project, root }: Asked, choice: string | undefined): readonly Offer[] {
  const item = root.statements.choices.find(
    it => (it.head as StatementOf<"choice">).name?.text === choice,
  );
  return (item ? optionsOf(item) : []).flatMap(({ head }, rank): readonly Offer[] => {
    if (!("clauses" in head) || head.path === undefined) return [];
    const doc = docAt(project, head.path);
    const counts = root.chosen.get(choice ?? "") === head.path.text;
    return [
      {
        ...{ label: head.path.text, kind: "option", rank, title: head.title?.text ?? "option" },
        ...(counts && { detail: "counts now" }),
        ...(doc && { doc }),
      },
    ];
  });
}
