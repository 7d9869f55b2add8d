import { positionsOf, textOf } from "../../../grammar/source";
import type { Point, Span } from "../../../grammar/tree";
import { aroundOf } from "../../compute/response";
import type { Assembly, Member } from "../../model/assembly";
import { clausesOf } from "../../model/clauses";
import { joinPath, type Place } from "../../model/env";
import type { Root } from "../../model/root";
import { type Project, sourceOf } from "../../project";
import { linesIn } from "../../shop/insert";
import type { Edit } from "../amend";
import { occurrences, pathAround } from "../names";
import { nodesIn } from "../place";
import { edited, fileEdits, type Offer, type Refusal, type Rewrite } from "./rewrite";
import { ownRows } from "./rows";
import { shifted } from "./shifted";
import { figure, plainNumber } from "./walk";

/** A menu of more is not read. */
const MOST = 20;

/**
 * A part or an assembly goes to another assembly: its places are measured from the other one's origin then,
 * so that nothing moves, and its path is written anew wherever it stands. The nearest assemblies come first.
 */
export function moving(project: Project, root: Root, member: Member): readonly Offer[] {
  const chain = aroundOf(root, member);
  const from = chain.at(-1);
  if (from === undefined || (member.kind !== "part" && member.kind !== "assembly")) return [];
  const targets = [...assembliesIn(root.aircraft)].filter(
    it => it !== from && it.path !== member.path && !it.path.startsWith(`${member.path}.`),
  );
  const shared = ({ path }: Assembly) => {
    const [a, b] = [path.split("."), member.path.split(".")];
    const i = a.findIndex((word, at) => word !== b[at]);
    return i < 0 ? a.length : i;
  };
  return targets
    .toSorted(
      (a, b) => shared(b) - shared(a) || a.path.split(".").length - b.path.split(".").length,
    )
    .slice(0, MOST)
    .map(target => ({
      title: `Move ${member.name} to ${target.path}`,
      kind: "move",
      rewrite: () => moved(project, root, member, from, target),
      keeps: {
        assemblies: [from, ...chain, target, ...aroundOf(root, target)].map(it => it.path),
        codes: ["over-budget", "budget-at-risk", "margin-low", "over-allocated", "cg-off-target"],
        renamed: text => text.replaceAll(member.path, () => joinPath(target.path, member.name)),
      },
    }));
}

function* assembliesIn({ members }: Assembly): Iterable<Assembly> {
  for (const it of members)
    if (it.kind === "assembly") {
      yield it;
      yield* assembliesIn(it);
    }
}

function moved(
  project: Project,
  root: Root,
  member: Member,
  from: Assembly,
  target: Assembly,
): Rewrite | Refusal {
  const { item } = member;
  const source = sourceOf(project, item.head.line.file);
  const rows = source && ownRows(source, item);
  if (source === undefined || rows === undefined)
    return { refused: "something else stands on its rows" };
  if (target.members.some(it => it.name === member.name))
    return { refused: `${joinPath(target.path, member.name)} is there already` };
  const places = placeEdits(root, member, from.core.origin, target.core.origin);
  if ("refused" in places) return places;
  const start = { line: rows.from, character: 0 };
  const after = { line: rows.last + 1, character: 0 };
  const indent = textOf(source)
    .split("\n")
    [positionsOf(source, item.head).start.line]!.match(/^\s*/)![0];
  const text = edited(textOf(source), fileEdits(project, places.edits), { start, end: rows.end });
  const lines = text.split("\n").map(it => (it.startsWith(indent) ? it.slice(indent.length) : it));
  // a block on one row takes it in as it is
  const { head, close } = target.item;
  const inRow = close !== undefined && close.line === head.line;
  return {
    edits: [
      { path: source.path, start, end: after, text: "" },
      ...fileEdits(project, [
        linesIn(target.item, inRow ? [lines.join("\n")] : lines),
        ...pathEdits(project, root, member, target),
      ]),
    ],
  };
}

/** Its path wherever it is spoken of, but where it is declared. */
function pathEdits(project: Project, root: Root, member: Member, target: Assembly): Edit[] {
  const { head } = member.item;
  const word = "clauses" in head ? head.path?.words.at(-1) : undefined;
  if (word === undefined) return [];
  return occurrences(project, { word, meaning: member.path, root }).flatMap(({ at, declares }) => {
    if (declares) return [];
    const path = pathAround(at);
    if (path === undefined || path.words.length === 1) return [];
    const whole = { line: at.line, from: path.from, to: at.to };
    return [{ at: whole, text: joinPath(target.path, member.name) }];
  });
}

const axes = ["fs", "bl", "wl"] as const;

/** Every place in its own frame, measured from the other origin. */
function placeEdits(
  root: Root,
  member: Member,
  from: Place,
  to: Place,
): { readonly edits: readonly Edit[] } | Refusal {
  const edits: Edit[] = [];
  for (const axis of axes) {
    const [a, b] = [from[axis], to[axis]];
    // an origin that says nothing of an axis leaves it where it is
    const by = (b ?? 0) - (a ?? 0);
    if (by === 0) continue;
    if (a === undefined && b === undefined) continue;
    for (const point of pointsIn(member)) {
      const coord = point.coords.find(it => it.axis === axis.toUpperCase());
      if (coord?.value) {
        for (const it of [coord.value, coord.upTo]) if (it) edits.push(shifted(it, by, root));
      } else if (axis === "bl") {
        // without one it lies on the centreline
        const end = { line: point.line, from: point.to, to: point.to };
        edits.push({ at: end, text: `, BL ${figure(-by / root.units.length.factor)}` });
      }
    }
    for (const bound of boundsIn(member, axis)) edits.push(shifted(bound, by, root));
  }
  return { edits };
}

/** Those of what it says itself, not of what is in it: that moves along. */
function pointsIn(member: Member): readonly Point[] {
  return clausesOf(member.item).flatMap(clause =>
    [...nodesIn(clause)].filter((it): it is Point => "coords" in it),
  );
}

function boundsIn({ item }: Member, axis: (typeof axes)[number]): readonly Span[] {
  return clausesOf(item).flatMap(clause => {
    if (clause.kind !== "cg" || (clause.axis ?? "FS") !== axis.toUpperCase()) return [];
    return [clause.low, clause.high].flatMap(it =>
      it && !it.ofMac && plainNumber(it.value) !== undefined ? [it.value] : [],
    );
  });
}
