import { closest } from "../../grammar/unexpected";
import { WrongUse } from "./wrong-use";

/** What a command was called with. */
export interface Called {
  readonly rest: readonly string[];
  /** Options with a value, under their long names. */
  readonly said: ReadonlyMap<string, string>;
  readonly flags: ReadonlySet<string>;
}

/** @param valued options that take a value, @param plain those that take none; `-o` is `--output` */
export function called(
  command: string,
  args: readonly string[],
  valued: readonly string[],
  plain: readonly string[] = [],
): Called {
  const rest: string[] = [];
  const said = new Map<string, string>();
  const flags = new Set<string>();
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    const [name, joined] = arg.startsWith("--") ? split(arg) : [arg];
    // a figure below zero is no option
    if (!name.startsWith("-") || name === "-" || /^-[\d.]/.test(name)) {
      rest.push(arg);
      continue;
    }
    const option = name === "-o" ? "--output" : name;
    if (plain.includes(option) && joined === undefined) {
      flags.add(option);
      continue;
    }
    if (!valued.includes(option)) {
      const near = closest(name, [...valued, ...plain]);
      throw new WrongUse(
        `${command} has no option ${name}${near && near !== name ? `; did you mean ${near}?` : ""}`,
      );
    }
    const value = joined ?? args[++i];
    if (value === undefined || value === "") throw new WrongUse(`${name} needs a value`);
    said.set(option, value);
  }
  return { rest, said, flags };
}

function split(arg: string): readonly [string, string?] {
  const at = arg.indexOf("=");
  return at < 0 ? [arg] : [arg.slice(0, at), arg.slice(at + 1)];
}

/** A date as asked for, checked. */
export function dateSaid(said: Called["said"]): string | undefined {
  const on = said.get("--on");
  if (on !== undefined && !isDate(on))
    throw new WrongUse(`--on is a date such as 2026-09-19, not ${on}`);
  return on;
}

function isDate(text: string): boolean {
  const date = new Date(`${text}T00:00:00Z`);
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && date.toJSON()?.slice(0, 10) === text;
}

export function decimalSaid(said: Called["said"]): "," | "." | undefined {
  const decimal = oneOf("--decimal", said.get("--decimal"), ["comma", "point"]);
  return decimal && (decimal === "comma" ? "," : ".");
}

export function oneOf<T extends string>(
  name: string,
  value: string | undefined,
  allowed: readonly T[],
): T | undefined {
  if (value === undefined) return undefined;
  const found = allowed.find(it => it === value);
  if (found === undefined) throw new WrongUse(`${name} is one of ${allowed.join(", ")}`);
  return found;
}

/** A date as the calendar on the wall has it. */
export function localDate(date: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
