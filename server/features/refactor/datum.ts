import type { Coord, Item, Span } from "../../../grammar/tree";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Root } from "../../model/root";
import { type Project, sourceOf } from "../../project";
import { show } from "../../quantity/show";
import { unitTable } from "../../quantity/units";
import type { Edit } from "../amend";
import { type At, itemsIn, nodesIn } from "../place";
import { fileEdits, type Offer } from "./rewrite";
import { shifted } from "./shifted";
import { isQuantity, plainNumber } from "./walk";

/**
 * The station under the cursor becomes the datum: every FS that is measured from the datum is written anew,
 * in all files. FS in a frame stay, for they are measured from the frame's own origin.
 */
export function shifting(project: Project, root: Root, { nodes, blocks }: At): readonly Offer[] {
  const coord = nodes.findLast(isFs);
  const by = coord && lengthOf(coord.value, root);
  if (by === undefined || by === 0 || isFramed(blocks)) return [];
  return [
    {
      title: `Make FS ${show(by, root.units.length)} the datum, in all files`,
      kind: "rewrite",
      rewrite: () => {
        const files = [...root.reach.files, ...root.reach.fitting];
        const edits = files.flatMap(({ path }) => {
          const source = sourceOf(project, path);
          return source ? [...itemsIn(source.items)].flatMap(it => editsIn(it, by, root)) : [];
        });
        return { edits: fileEdits(project, edits) };
      },
      keeps: { datumBy: by },
    },
  ];
}

const isFs = (node: Span): node is Coord => "axis" in node && node.axis === "FS" && "upTo" in node;

/** Something around has an origin of its own; its own header is measured where it stands. */
function isFramed(blocks: readonly Item[]): boolean {
  return blocks.slice(0, -1).some(isFrame);
}
const isFrame = (item: Item) =>
  item.head.kind === "assembly" && clauseOf(clausesOf(item), "at") !== undefined;

function editsIn(
  { item, blocks }: { readonly item: Item; readonly blocks: readonly Item[] },
  by: number,
  root: Root,
): readonly Edit[] {
  // a frame's own origin and what else its header says is measured where it stands
  const around = blocks.slice(0, item.head.kind === "clause" ? -2 : -1);
  if (around.some(isFrame)) return [];
  return [...nodesIn(item.head)].flatMap(node => {
    if (isFs(node))
      return [node.value, node.upTo].flatMap(it => (it ? (shifted(it, by, root) ?? []) : []));
    // `cg FS a .. b`, and rows of an envelope in lengths
    if ("ofMac" in node && !node.ofMac && isAlongFs(item))
      return shifted((node as unknown as { value: Span }).value, by, root) ?? [];
    // lateral FS 97: …
    if ("key" in node && node.key !== undefined) {
      const { axis, value } = node.key as { axis: string | undefined; value: Span };
      return axis === "FS" ? shifted(value, by, root) : [];
    }
    return [];
  });
}

/** The bounds of a clause are along FS. */
function isAlongFs({ head }: Item): boolean {
  const clauses = "clauses" in head ? head.clauses : head.kind === "clause" ? [head.clause] : [];
  return clauses.some(it => it.kind === "cg" && (it.axis ?? "FS") === "FS");
}

function lengthOf(expr: Span | undefined, root: Root): number | undefined {
  const plain = plainNumber(expr);
  if (plain !== undefined) return plain * root.units.length.factor;
  if (expr === undefined || !isQuantity(expr) || expr.measures.length > 1) return undefined;
  const [{ value, unit }] = expr.measures;
  const known = unit.length === 1 ? unitTable.get(unit[0]!.name) : undefined;
  return known && value * known.factor;
}
