import { closest } from "../../grammar/unexpected";
import { exampleText, premisesOf, worstSentence } from "../checks/all-loadings";
import { allLoadingsOf } from "../compute/all-loadings";
import { flightsOf } from "../compute/flights";
import { configurationsOf } from "../compute/shapes";
import { asWeighed, weighingsOf } from "../compute/weighing";
import type { Assembly } from "../model/assembly";
import { joinPath } from "../model/env";
import type { Envelope } from "../model/envelope";
import { type Root, rootsOf } from "../model/root";
import type { Scope } from "../model/scope";
import { show } from "../quantity/show";
import { compare, comparedCells, hiddenIn } from "./compare";
import { emptyLines } from "./why/aboard";
import { assemblyLines } from "./why/assembly";
import { configurationLines } from "./why/configuration";
import { asShown, densityUnit } from "./why/figures";
import { type Found, foundAt, titled } from "./why/found";
import { envelopeLines } from "./why/limits";
import { folded, line, type Step, section, textTable, type WhyLine } from "./why/lines";
import { loadingLines, stageLines, stageNames } from "./why/loading";
import { partLines } from "./why/part";
import { placeSteps } from "./why/place";
import { stationLines } from "./why/station";
import { letLines } from "./why/values";
import { weighingLines } from "./why/weighing";

export { longest, type WhyLine } from "./why/lines";

/**
 * How a figure comes about, line by line, each with its place in the spec: of a thing in the aircraft, a
 * loading or its stage (`two_up.takeoff`), a configuration, a let, an envelope or its weight
 * (`normal.takeoff`), a fluid, a choice, a weighing, an airframe or something in it (`sn003`, `sn003.first`);
 * `empty` or the aircraft's own name is the aircraft. In the units of its `units` line. What is unknown is
 * said where it is missing. Undefined: nothing is called so.
 */
export function why(root: Root, path: string): readonly WhyLine[] | undefined {
  if (path === "empty") return emptyLines(root);
  const found = foundAt(root, path);
  if (found) {
    const lines = memberLines(root, found);
    return found.member === root.aircraft ? [...lines, line(""), ...emptyLines(root)] : lines;
  }
  const [first = "", second] = path.split(".");
  const flight = flightsOf(root).find(it => it.loading.name === first);
  if (flight && second === undefined) return loadingLines(root, flight);
  const stage = stageNames.find(it => it === second);
  if (flight && stage) return stageLines(root, flight, stage);
  const configuration = configurationsOf(root).find(it => it.name === path);
  if (configuration) return configurationLines(root, configuration);
  const weighing = weighingsOf(root.rolledUp ?? root).find(it => it.name === path);
  if (weighing) return weighingLines(root, weighing);
  return (
    letAt(root, path) ??
    envelopeAt(root, first, second) ??
    fluidAt(root, path) ??
    choiceAt(root, path) ??
    airframeAt(root, path)
  );
}

/** What each option of a choice would make of the aircraft, and combinations with other choices. */
function choiceAt(root: Root, path: string): readonly WhyLine[] | undefined {
  const item = root.statements.choices.find(
    ({ head }) => head.kind === "choice" && head.name?.text === path,
  );
  if (item === undefined) return undefined;
  const today = new Date().toISOString().slice(0, 10);
  const found = compare(root, today, MOST_COMPARED, MOST_JUDGED);
  const cells = comparedCells(root, found.rows);
  const hidden = hiddenIn(found);
  return [
    line(`${path}, a choice: ${root.chosen.get(path) ?? "nothing"} counts`, item.head),
    line(""),
    ...textTable(cells.map(it => it.slice(0, 5))).map(it => line(it)),
    line(""),
    ...textTable([
      short,
      ...cells.slice(1).map(([chosen = "", ...it]) => [chosen, ...it.slice(4)]),
    ]).map(it => line(it)),
    ...(hidden ? [line(`  ${hidden}`)] : []),
  ];
}
const MOST_COMPARED = 32;
/** It is worked out again with every edit. */
const MOST_JUDGED = 128;
/** A page is a hundred columns wide. */
const short = ["chosen", "left of budget", "outside", "all permitted", "err/warn"];

/** An airframe is its empty weight; what stands behind it is as it is in that one. */
function airframeAt(root: Root, path: string): readonly WhyLine[] | undefined {
  const [first, ...rest] = path.split(".");
  const own = rootsOf(root.reach).find(it => it.airframe?.name === first);
  return own && why(asWeighed(own), rest.join(".") || "empty");
}

/** What a slip of the fingers meant, or the thing of that name that stands elsewhere. */
export function nearestPath(root: Root, path: string): string | undefined {
  const names = [...namesIn(root)];
  const last = `.${path.split(".").at(-1)}`;
  return names.find(it => it.endsWith(last)) ?? closest(path, names);
}

function memberLines(root: Root, found: Found): readonly WhyLine[] {
  const { member } = found;
  switch (member.kind) {
    case "assembly":
      return assemblyLines(root, { ...found, member });
    case "part":
    case "ballast":
      return partLines(root, { ...found, member });
    case "reserve": {
      const { head, mass, place } = member;
      const figure =
        head.figure && mass !== undefined
          ? asShown(head.figure, mass, root.units.mass)
          : "no mass yet";
      return [
        line(`${titled(found)}, a reserve: in predicted, not in basic`, head.path),
        ...section("Mass", [["held back", figure, head.figure]]),
        ...section(
          "Place",
          place
            ? placeSteps(root, found, place)
            : [["at", `the CG of ${found.around.at(-1)?.path || "the parts"}`]],
        ),
      ];
    }
    default:
      return stationLines(root, { ...found, member });
  }
}

function letAt(root: Root, path: string): readonly WhyLine[] | undefined {
  const words = path.split(".");
  const name = words.pop()!;
  const inside = words.length > 0 ? foundAt(root, words.join("."))?.member : root.aircraft;
  if (inside?.kind !== "assembly") return undefined;
  const found = inside.scope.byName.get(name);
  return found && letLines(root, path, found, inside.scope);
}

function envelopeAt(root: Root, name: string, only: string | undefined) {
  const envelope = root.envelopes.find(it => it.name === name);
  const limit = stageNames.find(it => it === only);
  if (envelope === undefined || (only !== undefined && !(limit && envelope[limit])))
    return undefined;
  const lines = envelopeLines(root, envelope, limit);
  return limit
    ? lines
    : [...lines, ...section("Every permitted loading", allSteps(root, envelope))];
}

function allSteps(root: Root, envelope: Envelope): readonly Step[] {
  const all = allLoadingsOf(root).find(it => it.envelope === envelope);
  if (all?.verdict === undefined) return [];
  const [worst] = all.found;
  const words = {
    inside: "no permitted loading is outside",
    "can-exceed": "a permitted loading is outside",
    "not-excluded": "not excluded: none that is outside was found, and none is ruled out",
  };
  return [
    ["verdict", words[all.verdict]],
    ...all.found.flatMap(it =>
      folded("worst", worstSentence(it, envelope), it.worst.breach.clause),
    ),
    ...(worst ? folded("example", exampleText(worst, envelope)) : []),
    ...folded("premises", premisesOf(root, envelope).replace(/^premises: /, "")),
  ];
}

function fluidAt(root: Root, path: string): readonly WhyLine[] | undefined {
  const fluid = root.fluids.get(path);
  if (fluid === undefined) return undefined;
  const { density, head } = fluid;
  const { figure } = head;
  const unit = densityUnit(root);
  const text = figure && density !== undefined ? asShown(figure, density, unit) : "not known";
  return [
    line(`${path}, a fluid${density === undefined ? "" : ` of ${show(density, unit)}`}`, head.path),
    ...section("Density", [["written", text, figure]]),
  ];
}

/** Every path that can be asked for. */
export function* namesIn(root: Root): Iterable<string> {
  yield root.name;
  yield "empty";
  for (const { loading } of flightsOf(root)) {
    yield loading.name;
    for (const stage of stageNames) yield `${loading.name}.${stage}`;
  }
  for (const { name } of [...root.envelopes, ...configurationsOf(root)]) yield name;
  for (const { name } of weighingsOf(root.rolledUp ?? root)) yield name;
  for (const { airframe } of rootsOf(root.reach)) if (airframe) yield airframe.name;
  yield* root.fluids.keys();
  yield* root.chosen.keys();
  yield* insideOf(root.aircraft);
}

function* insideOf({ members, scope, path }: Assembly, outer?: Scope): Iterable<string> {
  if (scope !== outer) for (const name of scope.byName.keys()) yield joinPath(path, name);
  for (const member of members) {
    yield member.path;
    if (member.kind === "assembly") yield* insideOf(member, scope);
  }
}
