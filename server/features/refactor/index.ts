import type { Position } from "../../../grammar/source";
import { type Project, sourceOf } from "../../project";
import { formatting } from "../format";
import { memberWith, nodesAt, rootWith } from "../place";
import { shifting } from "./datum";
import { extracting, inlining } from "./files";
import { moving } from "./move";
import { mirroring, splitting, unmirroring } from "./pieces";
import type { Offer } from "./rewrite";
import { joining } from "./rows";
import { superseding } from "./supersede";
import { converting } from "./units";

/**
 * What may be rewritten at a place without changing the aircraft. Nothing is worked out before one is chosen;
 * then `proved` does it and compares every figure.
 * @param today ISO
 */
export function offersAt(
  project: Project,
  path: string,
  position: Position,
  today: string,
): readonly Offer[] {
  const source = sourceOf(project, path);
  const at = nodesAt(project, path, position);
  const root = rootWith(project, path);
  if (source === undefined || at === undefined || root === undefined) return [];
  const { statement, blocks } = at;
  // a clause on a row of its own is of the declaration around it
  const head = statement.kind === "clause" ? blocks.at(-2)?.head : statement;
  const member = head && memberWith(root, head);
  const offers = [
    ...joining(project, at),
    ...extracting(project, at),
    ...inlining(project, at),
    ...shifting(project, root, at),
  ];
  if (member === undefined || member === root.aircraft) return offers;
  return [
    ...offers,
    ...(member.kind === "part" || member.kind === "ballast"
      ? superseding(project, member, today)
      : []),
    ...splitting(project, root, member),
    ...unmirroring(project, root, member),
    ...mirroring(project, root, member),
    ...moving(project, root, member),
  ];
}

/** What may be done to a whole file. */
export function fileOffers(project: Project, path: string): readonly Offer[] {
  const source = sourceOf(project, path);
  return source === undefined ? [] : [...converting(project, source), ...layingOut(project, path)];
}

/** What is certain to be meant: the one layout. */
function layingOut(project: Project, path: string): readonly Offer[] {
  const edits = formatting(project, path).map(it => ({ ...it, path }));
  if (edits.length === 0) return [];
  return [
    {
      title: "Bring the file into the one layout",
      kind: "fixAll",
      rewrite: () => ({ edits }),
      keeps: {},
    },
  ];
}
