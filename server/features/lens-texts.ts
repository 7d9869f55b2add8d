import type { Item, StatementOf } from "../../grammar/tree";
import { outside, worstOf } from "../checks/envelope-breach";
import { over, when } from "../checks/show";
import { allLoadingsOf } from "../compute/all-loadings";
import { TAPE, unexplainedCentres } from "../compute/centre-apart";
import type { Counterexample } from "../compute/counterexample";
import { type Flight, flightsOf, insideOf } from "../compute/flights";
import { type Distance, lateralDistances, stationDistances, weightRooms } from "../compute/nearest";
import type { Weighing } from "../compute/scales";
import { emptyOf } from "../compute/stages";
import { asWeighed, weighedInstead, weighingsOf } from "../compute/weighing";
import { type Balance, basicBalance, oneSide, predictedBalance } from "../compute/weight";
import type { Assembly } from "../model/assembly";
import { openIn } from "../model/envelope";
import { nameOfOption } from "../model/options";
import { type Root, rootChoosing } from "../model/root";
import { same } from "../quantity/compare";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";
import type { LensText } from "./lenses";
import { ways } from "./room";

/** The basic empty weight and its CG; what is predicted of the parts against their budget. */
export function aircraftLens(root: Root): LensText {
  const { aircraft } = root;
  const { basic } = emptyOf(root);
  const floor = basic.massKnown ? "" : "at least ";
  const { mac } = root;
  const share =
    mac && basic.fs !== null
      ? `, ${showNumber((100 * (basic.fs - mac.fs)) / mac.length, 1)} %MAC`
      : "";
  const text = [
    `basic empty weight ${floor}${show(basic.mass, root.units.mass)}${root.rolledUp ? " as weighed" : ""}`,
    `${cgText(root, basic, "CG")}${share}`,
    ...(aircraft.budget ? [`parts ${spentText(aircraft)}`] : []),
  ];
  return { text: text.join(" · "), why: root.name };
}

/** Predicted mass of the budget, and the basic CG in what was asked of it: of one side where there are two. */
export function assemblyLens(root: Root, assembly: Assembly): LensText {
  const { target, mirrored, path } = assembly;
  const weight = oneSide(assembly);
  const [basic, predicted] = [basicBalance(weight), predictedBalance(weight)];
  const grows = !same(basic.mass, predicted.mass);
  const text = [
    `${mirrored ? "each side " : ""}${spentText(assembly)}`,
    cgText(root, basic, grows ? "basic CG" : "CG", target?.axis),
  ];
  if (target) {
    const { axis, low, high } = target;
    const [from, to] = [low, high].map(it =>
      it === undefined ? "" : showNumber(it / root.units.length.factor),
    );
    text.push(`target ${axis} ${from} .. ${to}`.trim());
  }
  return { text: text.join(" · "), why: path === "" ? root.name : path };
}

function spentText(assembly: Assembly): string {
  const { budget, core } = assembly;
  const weight = oneSide(assembly);
  const { mass } = predictedBalance(weight);
  const least = weight.unknown > 0 ? "at least " : "";
  if (budget === undefined) return `predicted ${least}${show(mass, core.units.mass)}`;
  const { is, limit } = over(mass, budget.mass, budget.unit);
  const share = budget.mass > 0 ? ` (${showNumber((100 * mass) / budget.mass, 1)} %)` : "";
  return `predicted ${least}${is} of ${limit}${share}`;
}

/** Of what has a place. */
function cgText(
  root: Root,
  balance: Balance,
  what: string,
  axis: "FS" | "BL" | "WL" = "FS",
): string {
  const { length } = root.units;
  const x = { FS: balance.fs, BL: balance.bl, WL: balance.wl }[axis];
  if (x === null) return `${what} not known`;
  const sure = { FS: balance.complete, BL: balance.blComplete, WL: balance.wlComplete }[axis];
  return `${what} ${axis} ${show(x, length)}${sure ? "" : " (incomplete)"}`;
}

/**
 * Inside or outside with basic masses, how far from the nearest limits, and whether growth changes that.
 * @param airframes named where they come out otherwise than the design
 */
export function loadingLens(
  root: Root,
  item: Item,
  airframes: readonly Root[],
): LensText | undefined {
  const flight = flightsOf(root).find(it => it.loading.item === item);
  if (flight === undefined) return undefined;
  const { loading, verdicts } = flight;
  const told = (...text: readonly string[]) => ({ text: text.join(" · "), why: loading.name });
  if (loading.broken) return told("not judged: something in it is not understood");
  if (verdicts.length === 0) return told("under no envelope");
  const is = verdictOf(flight);
  const others = airframes.flatMap(it => {
    const own = flightsOf(it).find(other => other.loading.item === item);
    const its = own && verdictOf(own);
    return its === undefined || its === is ? [] : [`${it.airframe?.name}: ${its}`];
  });
  if (is === "outside") return told(`${is}: ${worstText(root, flight, "basic")}`, ...others);
  if (is === "inside") return told(is, ...distances(root, flight), ...others);
  if (is === "not judged")
    return told(`${is}: ${whyNot(flight)}`, ...distances(root, flight), ...others);
  const predicted = `${is}: ${worstText(root, flight, "predicted")}`;
  return told("inside", ...distances(root, flight), predicted, ...others);
}

function verdictOf(flight: Flight) {
  if (outside(flight, "basic").length > 0) return "outside";
  const known = flight.verdicts.every(({ states, envelope }) =>
    states.every(
      ({ stage, basic }) =>
        openIn(envelope) === undefined && insideOf(stage.basic, basic.breaches, envelope) === true,
    ),
  );
  if (!known) return "not judged";
  return outside(flight, "predicted").length > 0 ? "outside once growth is in" : "inside";
}

const whyNot = ({ loading }: Flight) =>
  loading.envelopes.map(openIn).find(it => it !== undefined) ?? "something has no mass or no FS";

function worstText(root: Root, flight: Flight, which: "basic" | "predicted"): string {
  const places = outside(flight, which);
  const [first] = places;
  const worst = worstOf(places.filter(it => it.breach.code === first?.breach.code));
  if (worst === undefined) return "";
  const { breach, stage, verdict } = worst;
  const isWeight = !breach.code.startsWith("cg-");
  const { by } = over(breach.value, breach.limit, isWeight ? root.units.mass : root.units.length);
  const at = placeText(when(stage), verdict.configuration);
  return `${by} ${ways[breach.code]} ${breach.what} ${at}`;
}

const placeText = (at: string, configuration: string | null) =>
  configuration ? `${at}, ${configuration}` : at;

function distances(root: Root, flight: Flight): readonly string[] {
  const { mass, length } = root.units;
  const text: string[] = [];
  let nearest: Distance | undefined;
  for (const all of [stationDistances(flight), lateralDistances(flight)])
    for (const it of all) if (!nearest || it.distance < nearest.distance) nearest = it;
  if (nearest) {
    const { condition, limit, distance } = nearest;
    const at = placeText(when(condition.stage), condition.verdict.configuration);
    text.push(`${show(Math.max(0, distance), length)} from ${limit.what} ${at}`);
  }
  const [room] = [...weightRooms(flight)].sort((a, b) => a.room - b.room);
  if (room) text.push(`${show(Math.max(0, room.room), mass)} below ${room.what}`);
  return text;
}

/** What an envelope says of everything it permits, and of the loadings written down. */
export function envelopeLens(root: Root, item: Item): LensText | undefined {
  const all = allLoadingsOf(root).find(it => it.envelope.item === item);
  if (all === undefined) return undefined;
  const { envelope, verdict, found } = all;
  const flights = flightsOf(root).filter(it => it.loading.envelopes.includes(envelope));
  const inside = flights.filter(
    ({ verdicts }) =>
      openIn(envelope) === undefined &&
      verdicts
        .filter(it => it.envelope === envelope)
        .every(({ states }) =>
          states.every(
            ({ stage, basic }) =>
              insideOf(stage.basic, basic.breaches, envelope) === true &&
              basic.excursions.length === 0,
          ),
        ),
  );
  const [worst] = found;
  const text = [
    worst ? `a permitted loading can be ${worstFound(root, worst)}` : verdicts[verdict ?? "none"],
  ];
  if (flights.length > 0)
    text.push(
      `${inside.length} of ${flights.length} ${flights.length === 1 ? "loading" : "loadings"} inside`,
    );
  return { text: text.join(" · "), why: envelope.name };
}

const verdicts: Readonly<Record<string, string>> = {
  inside: "every permitted loading is inside",
  "not-excluded": "no permitted loading was found outside, and none is excluded",
  none: "permitted loadings are not judged",
};

function worstFound(root: Root, { worst, shape }: Counterexample): string {
  const { breach } = worst;
  const isWeight = !breach.code.startsWith("cg-");
  const { by } = over(breach.value, breach.limit, isWeight ? root.units.mass : root.units.length);
  const where = shape.configuration ? ` in configuration ${shape.configuration}` : "";
  return `${by} ${ways[breach.code]} ${breach.what}${where}`;
}

/** What an option makes of the basic empty weight, beside the one that counts. */
export function optionLens(root: Root, choice: Item, option: Item): LensText | undefined {
  const { name } = choice.head as StatementOf<"choice">;
  if (name === undefined) return undefined;
  const called = nameOfOption(option);
  if (root.chosen.get(name.text) === called) return { text: `${called} counts`, why: name.text };
  const base = root.rolledUp ?? root;
  const other = weighedInstead(base, rootChoosing(base, new Map([[name.text, called]])));
  const [now, then] = [emptyOf(asWeighed(base)).basic, emptyOf(other).basic];
  const { mass, length } = root.units;
  const words = [signed(then.mass - now.mass, mass)];
  if (now.fs !== null && then.fs !== null) {
    const by = then.fs - now.fs;
    if (Math.abs(by) > 1e-9)
      words.push(`CG ${show(Math.abs(by), length)} ${by < 0 ? "forward" : "aft"}`);
  }
  const { budget } = other.aircraft;
  if (budget) {
    const left = budget.mass - predictedBalance(oneSide(other.aircraft)).mass;
    words.push(left < 0 ? `${show(-left, mass)} over the budget` : `${show(left, mass)} left`);
  }
  const floor = then.massKnown && now.massKnown ? "" : " (incomplete)";
  return { text: `${called} ${words.join(", ")}${floor}`, why: name.text };
}

function signed(kg: number, unit: Unit): string {
  if (Math.abs(kg) < 1e-9) return "weighs the same";
  return `${kg > 0 ? "+" : "-"}${show(Math.abs(kg), unit)}`;
}

/** How far the CG lies from the one of the parts, where that is more than a station is measured to. */
function shiftText(weighing: Weighing, unit: Unit): string {
  const { balance, rolledUp, oneStation } = weighing;
  const lateral = unexplainedCentres(weighing).find(it => it.axis === "bl");
  const isKnown = rolledUp.complete && oneStation === undefined;
  const aft = isKnown && balance.fs !== null && rolledUp.fs !== null ? balance.fs - rolledUp.fs : 0;
  const by = (m: number) => show(Math.abs(m), unit);
  return [
    Math.abs(aft) > 2 * TAPE ? ` · CG ${by(aft)} ${aft > 0 ? "aft" : "forward"} of theirs` : "",
    lateral ? ` · CG ${by(lateral.by)} to the ${lateral.by > 0 ? "right" : "left"} of theirs` : "",
  ].join("");
}

/** What the scales say of an airframe, and what its parts do not explain of that. */
export function weighingLens(root: Root, item: Item): LensText | undefined {
  const { head } = item;
  const base = root.rolledUp ?? root;
  const weighing = weighingsOf(base).find(it => it.item.head === head);
  if (weighing === undefined) return undefined;
  const { broken, balance, rolledUp, unexplained, unexplainedFs, off } = weighing;
  const why = `${base.airframe?.name}.${weighing.name}`;
  if (broken) return { text: "does not count: something in it is not understood", why };
  const { mass, length } = root.units;
  const { is, by, limit } = over(balance.mass, rolledUp.mass, mass);
  const least = rolledUp.massKnown ? "" : "at least ";
  const where = unexplainedFs === undefined ? "" : ` near FS ${show(unexplainedFs, length)}`;
  const sure = off > 0 ? `; scales and parts may be ${show(off, mass)} off` : "";
  const shift = shiftText(weighing, length);
  const isWhole = shift === "" && rolledUp.complete && weighing.oneStation === undefined;
  const difference = same(balance.mass, rolledUp.mass)
    ? !isWhole
      ? "its parts explain its weight"
      : "its parts explain it"
    : `${by} ${unexplained > 0 ? "unexplained" : "less than its parts"}${where}${sure}`;
  const text = [
    `weighed ${is}`,
    cgText(root, balance, "CG"),
    `parts ${least}${limit}`,
    `${difference}${shift}`,
  ];
  return { text: text.join(" · "), why };
}
