import type { Expr, Item, Measure, Point, Serials, Span, UnitPower } from "../../grammar/tree";

/**
 * A tree as text, one statement a line, what is in a block indented below it: the kind and every field
 * that says something. `5[lb]` is a quantity, `(a + b)` a sum, `?` a missing operand. A brace that is
 * not in the text is not in the tree either.
 */
export function print(items: readonly Item[], indent = ""): string {
  return items
    .map(({ head, items: inside, open, close }) => {
      const block = inside.length > 0 ? `\n${print(inside, `${indent}  `)}` : "";
      const end = close ? `${block ? `\n${indent}` : ""}}` : "";
      return `${indent}${show(head)}${open ? " {" : ""}${block}${end}`;
    })
    .join("\n");
}

/** Fields that are plain from where they stand. */
const unnamed = new Set([
  ...["path", "name", "code", "figure", "value", "basis", "clause", "clauses", "point", "terms"],
  ...["amount", "record", "rates", "units", "unit", "shape", "reads", "paths"],
]);
/** Where a node stands, and what repeats another field. */
const hidden = new Set(["kind", "line", "from", "to", "operatorAt", "unitAt", "words"]);

function show(node: unknown): string {
  if (Array.isArray(node)) return node.map(show).join(" ");
  if (typeof node !== "object" || node === null) return String(node);
  if ("coords" in node) return point(node as Point);
  if ("measures" in node || "left" in node || "args" in node) return expression(node as Expr);
  if ("first" in node) return serials(node as unknown as Serials);
  const kind = "kind" in node ? node.kind : undefined;
  if (kind === "name" || kind === "negative" || (kind === "missing" && !("paths" in node)))
    return expression(node as Expr);
  if ("text" in node && kind === undefined) return quoted(node.text as string);
  if ("power" in node) return power(node as UnitPower);
  const fields = Object.entries(node).filter(
    ([key, value]) => !hidden.has(key) && value !== undefined && value !== false && !isEmpty(value),
  );
  const shown = fields.map(([key, value]) => {
    if (value === true) return key;
    if (unnamed.has(key)) return show(value);
    return `${key}=${Array.isArray(value) ? `[${show(value)}]` : show(value)}`;
  });
  return `(${[...(kind === undefined ? [] : [kind]), ...shown].join(" ")})`;
}

function expression(node: Expr): string {
  switch (node.kind) {
    case "quantity":
      return node.measures.map(measure).join("&");
    case "name":
      return node.path.text;
    case "call":
      return `${node.name.text}(${node.args.map(expression).join(", ")})`;
    case "negative":
      return `-${expression(node.of)}`;
    case "binary":
      return `(${expression(node.left)} ${node.operator} ${expression(node.right)})`;
    case "missing":
      return "?";
  }
}

const measure = ({ value, unit }: Measure) =>
  `${value}${unit.length ? `[${unit.map(power).join(" ")}]` : ""}`;
const power = ({ name, power: p }: UnitPower) => (p === 1 ? name : `${name}^${p}`);
const serials = ({ first, last }: Serials) => `${first ?? ""}..${last ?? ""}`;
const isEmpty = (value: unknown) => Array.isArray(value) && value.length === 0;
const quoted = (text: string) => (/^[\p{L}\p{N}_.-]+$/u.test(text) ? text : `"${text}"`);

function point({ coords }: Point): string {
  const shown = coords.map(({ axis, value, upTo }) => {
    if (value === undefined) return axis;
    return `${axis} ${expression(value)}${upTo ? `..${expression(upTo)}` : ""}`;
  });
  return `<${shown.join(", ")}>`;
}

/** Every node of a tree that is a stretch of a line, with the one it stands in. */
export function* spansIn(node: unknown, around?: Span): Generator<[Span, Span | undefined]> {
  if (typeof node !== "object" || node === null) return;
  const span = "from" in node && "to" in node && "line" in node ? (node as Span) : undefined;
  if (span) yield [span, around];
  for (const [key, value] of Object.entries(node))
    if (key !== "line") yield* spansIn(value, span ?? around);
}
