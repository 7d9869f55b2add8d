import type { Call, Expr } from "../../grammar/tree";
import { closest } from "../../grammar/unexpected";
import type { Assembly } from "../model/assembly";
import type { Place } from "../model/env";
import type { Ask, Setting } from "../model/evaluate";
import type { Root } from "../model/root";
import { LENGTH, MASS } from "../quantity/dimension";
import { plain, type Quantity } from "../quantity/quantity";
import { extremesOf } from "./all-loadings";
import { type Flight, flightsOf } from "./flights";
import { type MemberAt, memberAt, membersAt } from "./member-at";
import { asDrawn, emptyOf } from "./stages";
import {
  type Balance,
  balanceOf,
  basicBalance,
  both,
  none,
  oneSide,
  placed,
  predictedBalance,
  put,
} from "./weight";

/**
 * The functions of an aircraft: mass(wing), fs(two_up.takeoff), takeoff(normal).
 * `which` decides what mass, fs, bl, wl and mac rest on: basic masses, or predicted ones.
 * `loading` is what that word stands for in a requirement for every loading.
 * Unknown or incomplete is undefined, told through `incomplete`; a name that is none is a fault.
 */
export function askOf(
  root: Root,
  which: "basic" | "predicted",
  incomplete: () => void,
  loading?: Flight,
): Ask {
  return (call, setting) => {
    const name = call.name.text;
    const [arg] = call.args;
    if (arg === undefined || call.args.length > 1) {
      setting.report("wrong-dimension", call, `${name} takes one name in its parentheses`);
      return undefined;
    }
    if (limitNames.has(name)) return limitOf(root, name, arg, setting);
    if (name === "forward" || name === "aft") return extremeOf(root, name, arg, which, setting);
    if (name === "mass" || name === "predicted") {
      const kind = arg.kind === "name" ? memberAt(root, arg.path.text)?.member.kind : undefined;
      if (kind === "tank" || kind === "seat" || kind === "bay") {
        setting.report("unknown-name", arg, `a ${kind} has no mass of its own: a loading fills it`);
        return undefined;
      }
      if (kind === "reserve" && name === "mass") {
        const text = arg.kind === "name" ? arg.path.text : "";
        setting.report(
          "unknown-name",
          arg,
          `${text} is a reserve, in predicted and not in basic: write predicted(${text})`,
        );
        return undefined;
      }
    }
    if (name === "budget") return budgetOf(root, arg, setting);
    const balance = balanceAt(
      root,
      arg,
      name === "predicted" ? "predicted" : which,
      setting,
      loading,
    );
    if (balance === undefined) return undefined;
    if (!knows(balance, name)) incomplete();
    const mass = (value: number): Quantity => ({ value, dimension: MASS, unit: root.units.mass });
    const length = (value: number | null): Quantity | undefined =>
      value === null ? undefined : { value, dimension: LENGTH, unit: root.units.length };
    switch (name) {
      case "mass":
      case "predicted":
        return mass(balance.mass);
      case "fs":
        return length(balance.fs);
      case "bl":
        return length(balance.bl);
      case "wl":
        return length(balance.wl);
      default:
        return macOf(root, balance, call, setting);
    }
  };
}

/** A mass is known without a place, and each coordinate without the others. */
function knows(balance: Balance, name: string): boolean {
  if (name === "mass" || name === "predicted") return balance.massKnown;
  return name === "bl" ? balance.blComplete : name === "wl" ? balance.wlComplete : balance.complete;
}

const limitNames = new Set(["ramp", "takeoff", "landing", "zero_fuel"]);

/** (CG − leading edge) ÷ chord (FAA-H-8083-1B, chapter 3). */
function macOf(root: Root, { fs }: Balance, call: Call, setting: Setting): Quantity | undefined {
  if (root.mac === undefined) {
    setting.report(
      "unknown-name",
      call,
      "the aircraft has no mac: write mac at FS … length … in its block",
    );
    return undefined;
  }
  return fs === null ? undefined : plain((fs - root.mac.fs) / root.mac.length);
}

function pathIn(arg: Expr, setting: Setting): string | undefined {
  if (arg.kind === "name") return arg.path.text;
  setting.report("unknown-name", arg, "a name is wanted here, not a figure");
  return undefined;
}

function limitOf(root: Root, name: string, arg: Expr, setting: Setting): Quantity | undefined {
  const path = pathIn(arg, setting);
  if (path === undefined) return undefined;
  const envelope = envelopeNamed(root, path, arg, setting);
  if (envelope === undefined) return undefined;
  const limit = envelope[name as "ramp"];
  if (limit === undefined)
    setting.report("unknown-name", arg, `${path} gives no ${name.replace("_", "-")} weight`);
  return limit && { value: limit.mass, dimension: MASS, unit: limit.unit };
}

function envelopeNamed(root: Root, path: string, arg: Expr, setting: Setting) {
  const envelope = root.envelopes.find(it => it.name === path);
  if (envelope === undefined) setting.report("unknown-name", arg, `no envelope is called ${path}`);
  return envelope;
}

/** The foremost or the rearmost CG of all permitted loadings. */
function extremeOf(
  root: Root,
  name: "forward" | "aft",
  arg: Expr,
  which: "basic" | "predicted",
  setting: Setting,
): Quantity | undefined {
  const path = pathIn(arg, setting);
  const envelope = path === undefined ? undefined : envelopeNamed(root, path, arg, setting);
  const extremes = envelope && extremesOf(asDrawn(root), envelope, which);
  // a bound is no figure: what fails by it may hold
  if (!extremes?.exact) return undefined;
  return { value: extremes[name], dimension: LENGTH, unit: root.units.length };
}

function budgetOf(root: Root, arg: Expr, setting: Setting): Quantity | undefined {
  const path = pathIn(arg, setting);
  const found = path === undefined ? undefined : memberAt(root, path);
  if (found === undefined) {
    if (path !== undefined) unknownPath(root, path, arg, setting);
    return undefined;
  }
  const budget = "budget" in found.member ? found.member.budget : undefined;
  if (budget === undefined) setting.report("unknown-name", arg, `${path} has no budget`);
  return (
    budget && {
      value: found.pair ? 2 * budget.mass : budget.mass,
      dimension: MASS,
      unit: budget.unit,
    }
  );
}

function balanceAt(
  root: Root,
  arg: Expr,
  which: "basic" | "predicted",
  setting: Setting,
  loading: Flight | undefined,
): Balance | undefined {
  const path = pathIn(arg, setting);
  if (path === undefined) return undefined;
  if (path === "empty") return emptyOf(root)[which];
  const [first, stage] = path.split(".");
  const each = first === "loading" ? loading : undefined;
  const flight = each ?? flightsOf(root).find(it => it.loading.name === first);
  if (flight && stage) {
    const stages = new Map(flight.stages.map(it => [it.kind as string, it]));
    // there may be several of those, and none has a name of its own
    stages.delete("after");
    const at = stages.get(stage) ?? (stage === "landing" ? stages.get("takeoff") : undefined);
    if (at) return at[which];
    setting.report(
      "unknown-name",
      arg,
      `a loading has the stages ramp, takeoff, landing and zero_fuel, not ${stage}`,
    );
    return undefined;
  }
  const found = membersAt(root, path);
  if (found.length === 0) {
    unknownPath(root, path, arg, setting);
    return undefined;
  }
  const balances = found.map(it => balanceOfMember(it, which));
  return balances.length === 1 ? balances[0] : together(balances);
}

function balanceOfMember({ member, side, pair }: MemberAt, which: "basic" | "predicted"): Balance {
  const times = pair ? 2 : 1;
  if (member.kind === "assembly") {
    const weight = pair ? both(oneSide(member)) : oneSide(member);
    const balance = which === "basic" ? basicBalance(weight) : predictedBalance(weight);
    return side === "LH" && balance.bl !== null ? { ...balance, bl: -balance.bl } : balance;
  }
  if (member.kind === "reserve") return spotBalance(member.place, member.mass, times, side);
  if (member.kind !== "part" && member.kind !== "ballast")
    return spotBalance(member.place, 0, times, side);
  const grown = member.mass && member.mass + (which === "predicted" ? member.growth : 0);
  return spotBalance(member.place, grown, times, side);
}

/** Of the two sides of something, where they are not alike. */
function together(balances: readonly Balance[]): Balance {
  const totals = none();
  let unknown = 0;
  for (const { mass, fs, bl, wl, massKnown } of balances) {
    put(totals, mass, placed({ fs, bl, wl }), false);
    if (!massKnown) unknown++;
  }
  const all = (key: "complete" | "blComplete" | "wlComplete") => balances.every(it => it[key]);
  return {
    ...balanceOf(totals, unknown),
    complete: all("complete"),
    blComplete: all("blComplete"),
    wlComplete: all("wlComplete"),
  };
}

/** Of something at one place, or of a pair of it: unknown is incomplete. */
function spotBalance(
  place: Place | undefined,
  mass: number | undefined,
  times: 1 | 2,
  side: "RH" | "LH" | undefined,
): Balance {
  const massKnown = mass !== undefined;
  const { fs, bl, wl } = place ?? { fs: undefined, bl: undefined, wl: undefined };
  const across = times === 2 ? 0 : side === "LH" && bl !== undefined ? -bl : bl;
  return {
    ...{ mass: times * (mass ?? 0), fs: fs ?? null, bl: across ?? null, wl: wl ?? null },
    massKnown,
    complete: massKnown && fs !== undefined,
    blComplete: massKnown && across !== undefined,
    wlComplete: massKnown && wl !== undefined,
  };
}

function unknownPath(root: Root, path: string, arg: Expr, setting: Setting): void {
  const last = path.split(".").at(-1)!;
  const names = [...namesIn(root.aircraft)];
  const near = names.find(it => it.endsWith(`.${last}`)) ?? closest(path, names);
  setting.report(
    "unknown-name",
    arg,
    `nothing is called ${path}${near ? `; did you mean ${near}?` : ""}`,
  );
}

function* namesIn(assembly: Assembly): Iterable<string> {
  for (const member of assembly.members) {
    yield member.path;
    if (member.kind === "assembly") yield* namesIn(member);
  }
}
