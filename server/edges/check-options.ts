import { closest } from "../../grammar/unexpected";
import { isPlainDate } from "../model/figures";
import { type FormatName, formatNames } from "./formats";
import { WrongUse } from "./wrong-use";

/** What `check` and `diff` are told alike. */
export interface ReportOptions {
  readonly paths: readonly string[];
  /** Of `check`: the git revision that findings are compared with; `A...` is where HEAD left A. */
  readonly base: string | undefined;
  /** At most one without a file: it goes to standard output. */
  readonly formats: readonly { readonly name: FormatName; readonly file: string | undefined }[];
  readonly colour: boolean;
  /** The least that ends with 1. */
  readonly failOn: "error" | "warning" | "new";
  /** ISO: what waivers hold on; undefined is the day it runs. */
  readonly date: string | undefined;
}

/** @param command how the user called it, for what is wrong with the call */
export function optionsOf(command: "check" | "diff", args: readonly string[]): ReportOptions {
  const paths: string[] = [];
  const formats: ReportOptions["formats"][number][] = [];
  let color = "auto";
  let failOn: ReportOptions["failOn"] = "error";
  let date: string | undefined;
  let base: string | undefined;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    if (arg === "--") {
      paths.push(...args.slice(i));
      break;
    }
    const equals = arg.startsWith("--") ? arg.indexOf("=") : -1;
    const name = equals < 0 ? arg : arg.slice(0, equals);
    const value = () => (equals < 0 ? (args[++i] ?? "") : arg.slice(equals + 1));
    if (name === "--format") formats.push(formatIn(value()));
    else if (name === "--color") color = oneOf(name, value(), ["auto", "always", "never"]);
    else if (name === "--fail-on") failOn = oneOf(name, value(), ["error", "warning", "new"]);
    else if (name === "--date") date = dateIn(value());
    else if (name === "--base" && command === "check") base = baseIn(value());
    else if (name.startsWith("-") && name !== "-") {
      const near = closest(name, [...own[command], "--format", "--color", "--fail-on", "--date"]);
      throw new WrongUse(
        `${command} has no option ${name}${near ? `; did you mean ${near}?` : ""}`,
      );
    } else paths.push(arg);
  }
  if (failOn === "new" && command === "check" && base === undefined)
    throw new WrongUse("--fail-on new takes a base to call a finding new: poise check --base main");
  checkFiles(formats);
  const { NO_COLOR, FORCE_COLOR } = process.env;
  const auto = FORCE_COLOR ? FORCE_COLOR !== "0" : !NO_COLOR && process.stdout.isTTY === true;
  return {
    ...{ paths, base },
    formats: formats.length > 0 ? formats : [{ name: "full", file: undefined }],
    colour: color === "auto" ? auto : color === "always",
    failOn,
    date,
  };
}

const own = { check: ["--base"], diff: [] };

function baseIn(text: string): string {
  if (text !== "") return text;
  throw new WrongUse("--base is a git revision, such as main, or main... for where this left it");
}

/** `sarif`, or `sarif=out.sarif`. */
function formatIn(text: string): ReportOptions["formats"][number] {
  const equals = text.indexOf("=");
  const name = oneOf("--format", equals < 0 ? text : text.slice(0, equals), formatNames);
  if (equals < 0) return { name, file: undefined };
  const file = text.slice(equals + 1);
  if (file === "") throw new WrongUse(`--format ${name}= names no file`);
  return { name, file };
}

function checkFiles(formats: ReportOptions["formats"]): void {
  const [one, other] = formats.filter(it => it.file === undefined);
  if (one && other)
    throw new WrongUse(
      `${one.name} and ${other.name} cannot both go to standard output: give one a file (--format ${one.name}=FILE)`,
    );
  const files = formats.flatMap(it => it.file ?? []);
  const twice = files.find((it, i) => files.indexOf(it) < i);
  if (twice !== undefined) throw new WrongUse(`two formats would be written to ${twice}`);
}

function dateIn(text: string): string {
  if (/^\d{4}-\d\d-\d\d$/.test(text) && isPlainDate(text)) return text;
  throw new WrongUse("--date is a day such as 2026-09-19");
}

export function oneOf<T extends string>(name: string, value: string, allowed: readonly T[]): T {
  const found = allowed.find(it => it === value);
  if (found === undefined) throw new WrongUse(`${name} is one of ${allowed.join(", ")}`);
  return found;
}
