import { closest } from "../../grammar/unexpected";
import { rootsOf } from "../judge";
import { seenOf, trendsOf } from "../views/trend";
import { oneOf } from "./check-options";
import { plainPath, workspaceFolderOf } from "./disk";
import { trendCsv, trendTable } from "./formats/trend";
import { trendSvg } from "./formats/trend-chart";
import { commitOf, commitsTouching } from "./git";
import { needsRepository, projectAt } from "./revisions";
import { isIn } from "./uris";
import { WrongUse } from "./wrong-use";

/** Prints weight, CG, share weighed and budgets at every commit that touched a spec, oldest first. */
export function trend(args: readonly string[], print: (text: string) => void): 0 {
  const { since, format, paths } = optionsOf(args);
  const folder = workspaceFolderOf(plainPath("."));
  needsRepository(folder, "a trend is read from one");
  const wanted = (file: string) => paths.some(path => isIn(file, path));
  const history = commitsTouching(folder, rangeOf(folder, since)).map(at => ({
    ...{ at, roots: rootsOf(projectAt(folder, at.commit), wanted).map(seenOf) },
  }));
  const trends = trendsOf(history);
  if (trends.length === 0) throw new WrongUse("no commit there has an aircraft");
  print({ table: trendTable, csv: trendCsv, svg: trendSvg }[format](trends));
  return 0;
}

/** A day, or a revision, which is where the trend begins. */
function rangeOf(folder: string, since: string | undefined): readonly string[] {
  if (since === undefined) return ["HEAD"];
  if (/^\d{4}-\d\d-\d\d$/.test(since)) return [`--since=${since}T00:00:00Z`, "HEAD"];
  const start = commitOf(folder, since);
  return ["--boundary", `${start}..HEAD`];
}

function optionsOf(args: readonly string[]) {
  let since: string | undefined;
  let format: "table" | "csv" | "svg" = "table";
  const dashes = args.indexOf("--");
  const options = dashes < 0 ? args : args.slice(0, dashes);
  for (let i = 0; i < options.length; i++) {
    const arg = options[i]!;
    const equals = arg.indexOf("=");
    const name = equals < 0 ? arg : arg.slice(0, equals);
    const value = () => (equals < 0 ? (options[++i] ?? "") : arg.slice(equals + 1));
    if (name === "--since") since = value();
    else if (name === "--format") format = oneOf(name, value(), ["table", "csv", "svg"]);
    else {
      const near = closest(name, ["--since", "--format"]);
      throw new WrongUse(
        name.startsWith("-")
          ? `trend has no option ${name}${near ? `; did you mean ${near}?` : ""}`
          : "trend takes paths after --: poise trend -- examples",
      );
    }
  }
  if (since === "") throw new WrongUse("--since is a day such as 2026-09-19, or a revision");
  const paths = dashes < 0 ? [] : args.slice(dashes + 1);
  return { since, format, paths: (paths.length > 0 ? paths : ["."]).map(plainPath) };
}
