import type { Item, Span, Statement } from "../../grammar/tree";
import { flightsOf } from "../compute/flights";
import { basicBalance, oneSide } from "../compute/weight";
import type { Member } from "../model/assembly";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import { show } from "../quantity/show";
import { memberWith, rootWith, valueOfLet } from "./place";

/** One entry of a file's outline. */
export interface Outline {
  readonly name: string;
  /** A mass or a value, or what kind of thing it is. */
  readonly detail: string;
  readonly kind: "assembly" | "part" | "place" | "value" | "rule";
  readonly at: Span;
  /** From the start of the first to the end of the last: a block spans lines. */
  readonly whole: readonly [Span, Span];
  readonly inside: readonly Outline[];
}

/** A file's declarations as they nest, each with what it weighs. */
export function outline(project: Project, path: string): readonly Outline[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  const root = rootWith(project, path);
  return source.items.flatMap(item => entriesOf(item, [], root));
}

function entriesOf(item: Item, outer: readonly Item[], root: Root | undefined): readonly Outline[] {
  const { head } = item;
  const blocks = [...outer, item];
  const inside = item.items.flatMap(it => entriesOf(it, blocks, root));
  if (head.kind === "nameless") return inside;
  const name = "clauses" in head ? head.path : "name" in head ? head.name : undefined;
  const kind = kinds.get(head.kind);
  if (name === undefined || kind === undefined || !("text" in name)) return [];
  const detail = (root && figureOf(root, head, blocks)) ?? head.kind;
  return [{ name: name.text, detail, kind, at: name, whole: [head, endOf(item)], inside }];
}

/** A block that nothing closes ends with the last thing in it. */
export function endOf({ head, items, close }: Item): Span {
  const last = items.at(-1);
  return close ?? (last ? endOf(last) : head);
}

/** What kind of entry a statement is; the others are none. */
export const kinds: ReadonlyMap<string, Outline["kind"]> = new Map<string, Outline["kind"]>([
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

function figureOf(root: Root, head: Statement, blocks: readonly Item[]): string | undefined {
  if (head.kind === "let") return valueOfLet(root, head, blocks);
  if (head.kind === "loading") {
    const flight = flightsOf(root).find(it => it.loading.item.head === head);
    const takeoff = flight?.stages.find(it => it.kind === "takeoff");
    return takeoff && `takeoff ${show(takeoff.basic.mass, root.units.mass)}`;
  }
  const member = memberWith(root, head);
  return member && massIn(member);
}

/** Basic masses, of one side: what stands inside adds up to what stands above. */
export function massIn(member: Member): string | undefined {
  switch (member.kind) {
    case "assembly": {
      const weight = oneSide(member);
      const shown = show(basicBalance(weight).mass, member.budget?.unit ?? member.core.units.mass);
      const floor = weight.unknown > 0 ? ", incomplete" : "";
      return `${member.mirrored ? "2 × " : ""}${shown}${floor}`;
    }
    case "part":
    case "ballast": {
      const { mass, unit, mirrored } = member;
      return mass === undefined ? "no mass yet" : `${mirrored ? "2 × " : ""}${show(mass, unit)}`;
    }
    case "reserve":
      return member.mass === undefined ? undefined : show(member.mass, member.unit);
    default:
      return undefined;
  }
}
