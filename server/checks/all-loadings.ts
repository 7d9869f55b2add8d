import { carriersOf } from "../compute/carriers";
import type { Counterexample, State } from "../compute/counterexample";
import type { Item } from "../compute/items";
import type { Breach } from "../compute/limits";
import { limitsUnder } from "../compute/permitted";
import type { Envelope } from "../model/envelope";
import type { Root } from "../model/root";
import { show, showNumber } from "../quantity/show";
import { over } from "./show";

/** What a verdict over all loadings rests on, in one line. */
export function premisesOf(root: Root, envelope: Envelope): string {
  const { list, idle } = carriersOf(root);
  const places = list.map(({ station, levels, sides, unit, kg }) => {
    const [least, most] = [levels[0]!, levels.at(-1)!].map(it => it / sides / kg);
    const range = `${showNumber(least!)} to ${showNumber(most!)} ${unit.name}`;
    return `${station.path} ${range}${station.mirrored ? " each" : ""}`;
  });
  const limits = limitsUnder(root, envelope).map(
    it => `${show(it.most, it.unit)} of ${it.statement.of.map(path => path.text).join(", ")}`,
  );
  const weights = (["ramp", "takeoff", "zero_fuel"] as const).flatMap(name => {
    const limit = envelope[name];
    return limit ? `${name.replace("_", "-")} weight ${show(limit.mass, limit.unit)}` : [];
  });
  const empty = idle.map(it => it.path);
  return [
    `premises: ${places.join(", ")}`,
    ...(limits.length > 0 ? [`limits ${limits.join("; ")}`] : []),
    ...(weights.length > 0 ? [weights.join(", ")] : []),
    ...(empty.length > 0 ? [`left empty, having no range: ${empty.join(", ")}`] : []),
  ].join("; ");
}

/** "normal can have its CG at FS 127.3 in (1,320 lb), 1.2 in forward of the forward limit of …". */
export function worstSentence({ worst, shape }: Counterexample, envelope: Envelope): string {
  const { root, configuration } = shape;
  const who = `a permitted loading${configuration ? ` in configuration ${configuration}` : ""}`;
  const { breach } = worst;
  const verb = isWeight(breach) ? "weighs" : "has its CG at";
  return `${who} ${verb} ${stateText(worst, envelope, root)}`;
}

/** What is aboard at the worst, where the counterexample is a plainer one. */
export function worstAboard({ items, worstItems }: Counterexample): string | undefined {
  const [plain, worst] = [items, worstItems].map(it => it.map(itemText).join("; "));
  return worst === plain || worst === "" ? undefined : `there: ${worst}`;
}

/** What is aboard in the counterexample, in one line. */
export const aboardText = ({ items }: Counterexample): string =>
  items.length === 0 ? "such as nothing aboard" : `such as ${items.map(itemText).join("; ")}`;

/** The same with where that is. */
export const exampleText = (example: Counterexample, envelope: Envelope): string =>
  `${aboardText(example)}: ${stateText(example.state, envelope, example.shape.root)}`;

/** The counterexample as a loading to be put into the text. Its name is one that is free. */
export function loadingText(example: Counterexample, envelope: Envelope): string {
  const { root } = example.shape;
  const lines = example.items.map(it => `  ${itemText(it)}\n`);
  return `loading ${nameFor(example, envelope, root)} under ${envelope.name} {\n${lines.join("")}}\n`;
}

const ends: Readonly<Record<Breach["code"], string>> = {
  "cg-forward": "forward",
  "cg-aft": "aft",
  "cg-lateral": "lateral",
  "above-weight-limit": "heavy",
  "below-weight-limit": "light",
};

function nameFor({ state }: Counterexample, { name }: Envelope, root: Root): string {
  const taken = new Set([
    ...root.aircraft.members.map(it => it.name),
    ...root.statements.loadings.flatMap(({ head }) => ("name" in head ? head.name?.text : [])),
  ]);
  const first = `${name}_${ends[state.breach.code]}`;
  let free = first;
  for (let n = 2; taken.has(free); n++) free = `${first}_${n}`;
  return free;
}

function itemText({ station, amount, at }: Item): string {
  const how = amount === "full" ? "full" : `${amount.figure} ${amount.unit.name}`;
  const where = at.map(it => `${it.axis} ${it.figure}`).join(", ");
  return `${station.path} ${how}${where ? ` at ${where}` : ""}`;
}

const isWeight = ({ code }: Breach) =>
  code === "above-weight-limit" || code === "below-weight-limit";

function stateText({ balance, breach }: State, envelope: Envelope, root: Root): string {
  if (isWeight(breach)) {
    const limits = [envelope.takeoff, envelope.ramp, envelope.zero_fuel];
    const said = limits.find(it => it?.clause === breach.clause);
    const { is, by, limit } = over(breach.value, breach.limit, said?.unit ?? root.units.mass);
    const way = breach.code === "above-weight-limit" ? "over" : "under";
    return `${is}, ${by} ${way} ${breach.what} of ${limit}`;
  }
  const { is, by, limit } = over(breach.value, breach.limit, root.units.length);
  const axis = breach.code === "cg-lateral" ? "BL" : "FS";
  const way = { forward: "forward of", aft: "aft of", lateral: "outside" }[
    breach.code.slice(3) as "aft"
  ];
  return `${axis} ${is} (${show(balance.mass, root.units.mass)}), ${by} ${way} ${breach.what} of ${limit}`;
}
