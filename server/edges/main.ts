#!/usr/bin/env node
import { writeSync } from "node:fs";
import { join } from "node:path";
import { closest } from "../../grammar/unexpected";
import { version } from "../../package.json";
import { checkOf, checks } from "../checks";
import { exampleOf } from "../checks/check";
import { useUnitsBeyond } from "../model/units-beyond";
import { actuals } from "./actuals";
import { check } from "./check";
import { optionsOf } from "./check-options";
import { compare } from "./compare";
import { diff } from "./diff";
import { effectivity } from "./effectivity";
import { equipment } from "./equipment";
import { format } from "./format";
import { drawn, plainRow } from "./formats/row";
import { freeze } from "./freeze";
import { history } from "./history";
import { importList } from "./import";
import { progress } from "./progress";
import { sheet } from "./sheet";
import { trend } from "./trend";
import { tryValue } from "./try";
import { unitsBeyond } from "./units-mathjs";
import { weigh } from "./weigh";
import { tellWhy } from "./why";
import { WrongUse } from "./wrong-use";

const help = `poise: weight and balance of an aircraft's build spec

  poise check [FILE|FOLDER …] [--format FORMAT[=FILE]] … [--fail-on error|warning|new] [--date DAY]
      [--base REVISION] [--color auto|always|never]
      Judges every aircraft that reaches what is named (- reads standard input; nothing named: this
      folder). Ends with 0 where there is no error, 1 where there is one, 2 where it was called wrongly.
      Formats: full, concise, json, sarif, github, gitlab, junit, rdjson, markdown; several at once, each
      to its file. DAY is what waivers are judged on. With a git revision as base (main... is where HEAD left
      main) a new finding stands at the changed line that brought it, creep is judged, and what was done to
      the yardstick is told first.
  poise diff BASE [HEAD] [-- PATH …] [the same options, and --fail-on new]
      Says what a change does to each aircraft: from one git revision to another (no HEAD: to the working
      folder; A...B: from where B left A), or from one folder to another.
  poise trend [--since REVISION|DAY] [--format table|csv|svg] [-- PATH …]
      Weight, CG, share weighed and budgets at every commit that touched a spec, and which commit brought
      something over its budget.
  poise why FILE PATH
      Shows how a figure comes about, each line with its place in the spec: of a part, an assembly, a
      tank or seat (wing.spar, gear.main.LH), the aircraft (its name, or empty), a loading or its stage
      (two_up.takeoff), a let, an envelope.
  poise try [FILE] PATH VALUE
      Says what another value would do, with no file touched: a figure ("20.6 lb"), a place ("FS 120, WL 3")
      or an option of a choice.
  poise compare [FILE] [--airframe NAME] [--most ROWS]
      What each option of a choice, and combinations of them, make of the aircraft: empty weight, CG, what is
      left of its budget, loadings outside, the verdict over all permitted loadings, findings.
  poise history FILE|FOLDER [AIRFRAME]
      An airframe's weight and balance record: weighings and changes in order of dates, each item's weight and
      arm, and the basic empty weight and CG from then on.
  poise effectivity [FILE]
      What is effective for some serial numbers only, and what of it the design and each airframe have.
  poise freeze AIRFRAME [FILE] [-o FILE]
      Writes an airframe as it stands as a spec of its own, which no later change of the design reaches:
      it is judged first, and comes to the same figures.
  poise format FILE|FOLDER … [--check]
      Brings files into the one layout: a statement a line, two spaces of indent. A file with an error in
      its text is left alone. With --check nothing is written, and it ends with 1 where a file is not in
      that layout (- formats standard input to standard output).
  poise import LIST [-o FILE] [--units kg,mm] [--basis calculated] [--on DATE] [--decimal comma|point]
      [--mass-of one|all] [--sheet NAME] [--dry-run]
      Turns a parts list (.csv, .xlsx) into a spec, or brings the spec FILE and what it includes up to it:
      changed masses become new records, moved parts get their new place, what the list no longer has is named
      and stays. All files are written, or none.
      Says how it read each column. Without -o the spec goes to standard output.
  poise weigh [FILE] PATH READING [--by SCALE] [--on DATE] [--airframe NAME] [--dry-run] [--sure]
  poise weigh [FILE] --from SHEET [--partial] …
      Writes what a scale showed (4.06, 4 lb 1 oz, total 1.84 kg) as a record of the part, or of an assembly
      as a whole, and says how far off what was thought of it was. With --from the readings of a filled sheet
      (.csv, .xlsx): all, or none where one does not fit. Ends with 1 where one does not. FILE says which
      aircraft, if several are here.
  poise sheet [FILE] [--airframe NAME] [-o SHEET] [--html PAGE] [--decimal comma|point]
      What is not weighed yet, by assembly, the heaviest first, and assemblies to be weighed as a whole: as a
      CSV to fill in, as a page to print.
  poise sheet --weighing [FILE] [--airframe NAME] [-o FORM.html|BLOCK.poise]
      The blank form of a whole airframe's weighing, to print; without -o its block of the language.
  poise actuals [FILE] [--airframe NAME] [--format table|json] [--write]
      What parts weighed against what was estimated, calculated and quoted: bias and scatter by basis, kind
      and assembly, whole assemblies against the sum of their parts, what the parts not weighed yet would add
      if they came out alike, and what growth and spread would follow; --write writes those.
  poise progress [FILE] [--airframe NAME] [--most ROWS] [--format table|json]
      How much of each assembly is weighed, quoted, calculated and estimated, and what to weigh next: the
      parts whose spread moves the chance of exceeding a budget or a limit most.
  poise equipment [FILE] [--airframe NAME] [--kind KIND] [--all] [--format table|json|csv]
      The equipment list: item, part and serial number, weight, arm, moment and kind; --all lists every part.
      As csv, import takes it back into the spec.
  poise explain [CODE]
      Says what a finding means, with an example.
  poise lsp --stdio
      Runs the language server for an editor.
  poise --version, poise --help

A calculated weight and balance does not replace weighing the aircraft, its approved flight manual or
weight and balance report, local regulations, or a licensed mechanic or inspector.`;

/** What stands above of one command; undefined where it is none. */
function helpOf(command: string | undefined): string | undefined {
  const [, ...sections] = help.split(/^(?= {2}poise )/m);
  const own = sections.filter(it => it.startsWith(`  poise ${command} `));
  if (own.length === 0) return undefined;
  const caution = help.slice(help.lastIndexOf("\n\n"));
  return `${own.join("").replace(caution, "").trimEnd()}\n\npoise --help tells all commands.${caution}`;
}

function main(args: readonly string[]): number {
  const [command, ...rest] = args;
  if (rest.some(it => it === "--help" || it === "-h")) {
    print(helpOf(command) ?? help);
    return 0;
  }
  switch (command) {
    case "check":
      useUnitsBeyond(unitsBeyond);
      return check(optionsOf("check", rest), print, note);
    case "diff":
      useUnitsBeyond(unitsBeyond);
      return diff(optionsOf("diff", rest), print, note);
    case "trend":
      useUnitsBeyond(unitsBeyond);
      return trend(rest, print);
    case "why":
      useUnitsBeyond(unitsBeyond);
      return tellWhy(rest, print);
    case "try":
      useUnitsBeyond(unitsBeyond);
      return tryValue(rest, print);
    case "compare":
      useUnitsBeyond(unitsBeyond);
      return compare(rest, print);
    case "history":
      useUnitsBeyond(unitsBeyond);
      return history(rest, print);
    case "effectivity":
      useUnitsBeyond(unitsBeyond);
      return effectivity(rest, print);
    case "freeze":
      useUnitsBeyond(unitsBeyond);
      return freeze(rest, print);
    case "format":
      return format(rest, {
        print,
        pass: text => write(1, text),
        note: text => write(2, `poise: ${text}\n`),
      });
    case "import":
      useUnitsBeyond(unitsBeyond);
      importList(rest, print, text => write(2, `${text}\n`)).then(ended, fail);
      return STAYS;
    case "weigh":
      useUnitsBeyond(unitsBeyond);
      weigh(rest, print).then(ended, fail);
      return STAYS;
    case "sheet":
      useUnitsBeyond(unitsBeyond);
      sheet(rest, print).then(ended, fail);
      return STAYS;
    case "actuals":
      useUnitsBeyond(unitsBeyond);
      return actuals(rest, print);
    case "equipment":
      useUnitsBeyond(unitsBeyond);
      return equipment(rest, print);
    case "progress":
      useUnitsBeyond(unitsBeyond);
      return progress(rest, print);
    case "explain":
      return explain(rest);
    case "lsp":
      if (!rest.includes("--stdio")) throw new WrongUse("lsp speaks over --stdio: say so");
      // a bundle of its own: the command line does not load what speaks to editors
      require(join(__dirname, "server.js"));
      return STAYS;
    case "--version":
    case "-v":
      print(version);
      return 0;
    case "--help":
    case "-h":
    case "help":
      print(help);
      return 0;
    case undefined:
      throw new WrongUse(`what should it do?\n\n${help}`);
    default: {
      const near = closest(command, [
        "check",
        "diff",
        "trend",
        "why",
        "try",
        "compare",
        "history",
        "effectivity",
        "freeze",
        "format",
        "import",
        "weigh",
        "sheet",
        "actuals",
        "progress",
        "equipment",
        "explain",
        "lsp",
        "--help",
        "--version",
      ]);
      throw new WrongUse(`there is no command ${command}${near ? `; did you mean ${near}?` : ""}`);
    }
  }
}

const STAYS = -1;

function ended(status: number): void {
  process.exitCode = status;
}

function explain([code, ...more]: readonly string[]): number {
  if (more.length > 0) throw new WrongUse("explain takes one code");
  if (code === undefined) {
    for (const it of checks) print(`${it.code} (${it.severity})`);
    return 0;
  }
  const found = checkOf(code);
  if (found === undefined) {
    const near = closest(
      code,
      checks.map(it => it.code),
    );
    throw new WrongUse(`no finding has the code ${code}${near ? `; did you mean ${near}?` : ""}`);
  }
  print(`${found.code} (${found.severity})\n\n${found.explain}\n\n${exampleOf(found)}`);
  return 0;
}

function note(text: string): void {
  write(2, `poise: ${drawn(text)}\n`);
}

function print(text: string): void {
  write(1, `${text}\n`);
}

/** Whole, also into a pipe that is slow to read. */
function write(to: 1 | 2, text: string): void {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; )
    try {
      at += writeSync(to, bytes, at);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      // whoever read this has seen enough
      if (code === "EPIPE") process.exit(0);
      if (code !== "EAGAIN") throw error;
    }
}

function fail(error: unknown): void {
  process.exitCode = 2;
  if (error instanceof WrongUse) {
    // it may name a branch or a file, and they may be called anything
    const lines = error.message.split("\n").map(drawn);
    write(2, `${[`poise: ${lines[0]}`, ...lines.slice(1).map(plainRow)].join("\n")}\n`);
    return;
  }
  const { message, stack } = error instanceof Error ? error : new Error(String(error));
  write(2, `Poise failed: ${message.split("\n", 1)[0]}; please report it\n`);
  if (process.env["POISE_DEBUG"]) write(2, `${stack}\n`);
}

try {
  const status = main(process.argv.slice(2));
  if (status !== STAYS) process.exitCode = status;
} catch (error) {
  fail(error);
}
