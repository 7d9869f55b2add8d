import type { Item, Span } from "../../grammar/tree";
import { basicBalance, massOfMember, oneSide } from "../compute/weight";
import type { Member } from "../model/assembly";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import { show } from "../quantity/show";
import { memberWith, rootWith } from "./place";

/** One entry of a file's outline. */
export interface Outline {
  readonly name: string;
  /** A mass, or what kind of thing it is. */
  readonly detail: string;
  readonly kind: "assembly" | "part" | "place" | "value" | "rule";
  readonly at: Span;
  readonly whole: Span;
  readonly inside: readonly Outline[];
}

/** A file's declarations as they nest, each with what it weighs. */
export function outline(project: Project, path: string): readonly Outline[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  const root = rootWith(project, path);
  return source.items.flatMap(item => entriesOf(item, root));
}

function entriesOf(item: Item, root: Root | undefined): readonly Outline[] {
  const { head } = item;
  const inside = item.items.flatMap(it => entriesOf(it, root));
  if (head.kind === "nameless") return inside;
  const name = "clauses" in head ? head.path : "name" in head ? head.name : undefined;
  const kind = kinds.get(head.kind);
  if (name === undefined || kind === undefined || !("text" in name)) return [];
  const member = root && memberWith(root, head);
  return [
    {
      name: name.text,
      detail: (member && massIn(member)) ?? head.kind,
      kind,
      at: name,
      whole: wholeOf(item),
      inside,
    },
  ];
}

const kinds = new Map<string, Outline["kind"]>([
  ...(["aircraft", "assembly", "option", "choice", "airframe"] as const).map(
    it => [it, "assembly"] as const,
  ),
  ...(["part", "ballast", "reserve"] as const).map(it => [it, "part"] as const),
  ...(["tank", "seat", "bay"] as const).map(it => [it, "place"] as const),
  ...(["let", "fluid"] as const).map(it => [it, "value"] as const),
  ...(["envelope", "loading", "configuration", "weighing", "change"] as const).map(
    it => [it, "rule"] as const,
  ),
]);

function massIn(member: Member): string | undefined {
  if (member.kind === "assembly") {
    const unit = member.budget?.unit ?? member.core.units.mass;
    return show(basicBalance(oneSide(member)).mass, unit);
  }
  if (member.kind === "part" || member.kind === "ballast")
    return member.mass === undefined ? "no mass yet" : show(massOfMember(member), member.unit);
  return member.kind === "reserve" && member.mass !== undefined
    ? show(member.mass, member.unit)
    : undefined;
}

/** From the head to the closing brace. Only the end may stand on another line, which one span cannot say. */
function wholeOf({ head, close }: Item): Span {
  if (close === undefined || close.line !== head.line) return head;
  return { line: head.line, from: head.from, to: close.to };
}
