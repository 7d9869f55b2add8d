import type { Inertia } from "../compute/inertia";
import { oneSideMoments } from "../compute/inertia";
import { movedSide, swingTurn } from "../compute/moved";
import { principalOf } from "../compute/principal";
import type { Configuration } from "../compute/shapes";
import { sharesOf } from "../compute/shares";
import { deviationOf } from "../compute/spread";
import { emptyOf } from "../compute/stages";
import { type Balance, balanceOf, basicBalance, oneSide } from "../compute/weight";
import { emptyIn, emptyMoments, inertiaOf, momentChange } from "../compute/whole";
import type { Assembly } from "../model/assembly";
import type { Units } from "../model/env";
import type { Root } from "../model/root";
import { inertiaUnit } from "../quantity/derived";
import { MOMENT } from "../quantity/dimension";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";

/** One standard deviation, behind the figure it belongs to. */
export function spreadText(assembly: Assembly, unit: Unit): string {
  const { mass } = deviationOf(assembly);
  return mass === 0 ? "" : ` ± ${show(mass, unit)}`;
}

/** What a figure rests on: guess, calculation, quotation, scale. */
export function restsOn(assembly: Assembly): string | undefined {
  const shares = sharesOf(assembly);
  const all = Object.values(shares).reduce((sum, it) => sum + it, 0);
  if (all === 0) return undefined;
  const words = Object.entries(shares).flatMap(([basis, mass]) =>
    mass === 0 ? [] : [`${showNumber((100 * mass) / all, 0)} % ${basis}`],
  );
  return `rests on ${words.join(", ")}`;
}

/** Where an assembly's own swing takes its CG, of the right-hand one. */
export function swungBalance(assembly: Assembly): Balance | undefined {
  const turn = swingTurn(assembly);
  if (turn === undefined || !("m" in turn)) return undefined;
  const { unknown, vague } = oneSide(assembly);
  return balanceOf(movedSide(assembly, turn, "RH", new Map()).basic, unknown, vague);
}

/** Moments of inertia about the CG; of the aircraft with its fluids, and with its principal axes. */
export function inertiaLines(assembly: Assembly, root: Root): readonly string[] {
  const whole = assembly === root.aircraft;
  const moments = whole ? emptyMoments(root).basic : oneSideMoments(assembly).basic;
  const balance = whole ? emptyOf(root).basic : basicBalance(oneSide(assembly));
  const inertia = inertiaOf(moments, balance);
  if (inertia === null) return [];
  const sure = balance.complete && balance.blComplete && balance.wlComplete;
  const floor =
    sure && moments.lacks.length === 0 ? "" : " (incomplete: some places are not known)";
  const of = whole ? "of the basic empty weight, about its CG" : "about its CG";
  const lines = [`inertia ${of}: ${inertiaText(inertia, root.units)}${floor}`];
  if (whole) lines.push(principalText(inertia, balance, root.units));
  return lines;
}

function inertiaText(inertia: Inertia, units: Units): string {
  const unit = inertiaUnit(units);
  const terms = Object.entries(inertia).flatMap(([name, value]) => {
    const shown = showNumber(value / unit.factor, 1);
    return name.length === 3 && name[1] !== name[2] && Number(shown.replaceAll(",", "")) === 0
      ? []
      : [`${name} ${shown}`];
  });
  return `${terms.join(", ")} ${unit.name}`;
}

function principalText(inertia: Inertia, { mass }: Balance, units: Units): string {
  const unit = inertiaUnit(units);
  const axes = principalOf(inertia);
  const moments = axes.map(({ moment }) => showNumber(moment / unit.factor, 1));
  const radii = axes.map(({ moment }) => show(Math.sqrt(Math.max(0, moment) / mass), units.length));
  return `principal moments ${moments.join(", ")} ${unit.name}; radii of gyration ${radii.join(", ")}`;
}

/** Where the CG goes when something is swung, and the change of the moment that goes with it. */
export function configurationText(root: Root, configuration: Configuration): string {
  const { title, name, ground } = configuration;
  const drawn = emptyOf(root).basic;
  const { balance } = emptyIn(root, configuration);
  const changes = momentChange(root, configuration);
  const { mass, length } = root.units;
  const moment: Unit = {
    name: `${mass.name} ${length.name}`,
    dimension: MOMENT,
    factor: mass.factor * length.factor,
  };
  const lines = [`**${title ?? name}**${ground ? ", on the ground only" : ""}`, ""];
  for (const [axis, key] of [
    ["FS", "fs"],
    ["BL", "bl"],
    ["WL", "wl"],
  ] as const) {
    const [before, after] = [drawn[key], balance[key]];
    if (before === null || after === null) continue;
    const change = changes[key];
    if (Math.abs(after - before) < 1e-9) continue;
    const sign = change !== null && change > 0 ? "+" : "";
    const brings = change === null ? "" : `, moment ${sign}${show(change, moment)}`;
    lines.push(`- empty CG ${axis} ${show(before, length)} to ${show(after, length)}${brings}`);
  }
  if (lines.length === 2) lines.push("moves no CG");
  return lines.join("\n");
}
