import type { Clause, Declaration, Fault, Span, Statement } from "./tree";
import { NO_CHORD } from "./unexpected";

/** What a statement needs and does not have yet. The tree goes on without it. */
export function missingParts(statement: Statement): readonly Fault[] {
  const faults: Fault[] = [];
  const lacks = (at: Span, what: unknown, message: string) => {
    if (what === undefined) faults.push({ at, message });
  };
  const after = (at: Span): Span => ({
    line: at.line,
    from: Math.max(at.from, at.to - 1),
    to: at.to,
  });
  const end = after(statement);

  switch (statement.kind) {
    case "include":
      lacks(end, statement.path, 'include which file? write include "wing.poise"');
      break;
    case "let":
      lacks(end, statement.name, "this let has no name yet");
      if (statement.name)
        lacks(
          end,
          statement.value,
          `${statement.name.text} has no value yet: write = and a figure`,
        );
      break;
    case "require":
      if (statement.sides.length === 0)
        lacks(end, undefined, "require what? write a comparison such as mass(wing) <= 168 lb");
      else if (statement.comparisons.length === 0)
        lacks(end, undefined, "a requirement compares: write <=, < or another comparison");
      else if (statement.sides.at(-1)!.kind === "missing")
        lacks(end, undefined, "a figure is missing after the comparison");
      break;
    case "waive":
      lacks(end, statement.code, "waive which finding? write its code");
      if (statement.code)
        lacks(
          end,
          statement.of ?? statement.requirement,
          "waive it of what? write of and a path, or a requirement's text",
        );
      break;
    case "limit":
      lacks(end, statement.amount, "a limit needs a figure: limit 65 lb of baggage");
      if (statement.amount && statement.of.length === 0)
        lacks(end, undefined, "a limit of what? write of and the places it holds for");
      break;
    case "choice":
    case "envelope":
    case "configuration":
    case "loading":
    case "airframe":
      lacks(end, statement.name, `this ${statement.kind} has no name yet`);
      break;
    case "change":
    case "weighing":
      lacks(end, statement.name, `this ${statement.kind} has no name yet`);
      if (statement.name)
        lacks(end, statement.of, `${statement.kind} of which airframe? write of and its name`);
      if (statement.of)
        lacks(end, statement.on, `a ${statement.kind} needs its date: on 2026-09-19`);
      break;
    case "clause":
      clauseLacks(statement.clause, lacks);
      break;
    case "load":
      lacks(
        end,
        statement.amount?.full || statement.amount?.value,
        ["total", "each"].includes(statement.path.text)
          ? `${statement.path.text} stands in front of the amount: ${statement.path.text} 10 gal usable`
          : statement.amount?.usable
            ? `how much ${statement.path.text}? usable stands behind the amount: 10 gal usable`
            : `how much ${statement.path.text}? write an amount`,
      );
      break;
    case "burn":
    case "release":
    case "taxi":
      lacks(end, statement.path, `${statement.kind} from which tank?`);
      if (statement.path && statement.downTo)
        lacks(
          end,
          statement.amount?.full || statement.amount?.value,
          "down to what? write an amount",
        );
      break;
    case "choose":
      lacks(end, statement.option, "choose what? write a choice and one of its options");
      break;
    case "move":
      lacks(end, statement.path, "move what?");
      if (statement.path) lacks(end, statement.target, "where to? write to and a place");
      break;
    case "record-of":
      lacks(end, statement.path, "a record of what? write the part's path");
      break;
    case "serial-of":
      lacks(end, statement.path, "the serial number of what? write the path of what is fitted");
      if (statement.path) lacks(end, statement.text, "sn needs a text in quotes");
      break;
    case "remove":
    case "missing":
    case "swing-these":
      if (statement.paths.length === 0) lacks(end, undefined, "which part or assembly?");
      break;
    case "scale":
      lacks(end, statement.at, "where does this scale stand? write at and its station");
      if (statement.reads.length === 0)
        lacks(end, undefined, "what does this scale read? write reads and a weight");
      break;
    case "aboard":
      lacks(end, statement.path, "what is aboard?");
      break;
    case "nameless":
      break;
    default:
      lacks(wordOf(statement), statement.path, `this ${statement.kind} has no name yet`);
      if ((statement.kind === "fluid" || statement.kind === "reserve") && statement.path)
        lacks(
          end,
          statement.figure,
          statement.kind === "fluid"
            ? "a fluid needs its density, such as 6.02 lb/gal"
            : "how much is held back? write a mass",
        );
      for (const clause of statement.clauses) clauseLacks(clause, lacks);
  }
  return faults;
}

/** The word it begins with: a name is missing there, however long the line. */
const wordOf = ({ line, from }: Declaration): Span => ({
  line,
  from,
  to: from + /^\w+/.exec(line.text.slice(from))![0].length,
});

type Lacks = (at: Span, what: unknown, message: string) => void;

function clauseLacks(clause: Clause, lacks: Lacks): void {
  switch (clause.kind) {
    case "record": {
      const { line, from, to, basis, was } = clause;
      // `was` alone asks for its record
      if (was && !line.text.slice(from, to).includes(basis)) break;
      const word = was ? clause : { line, from, to: from + basis.length };
      lacks(word, clause.figure, `${basis} needs a figure`);
      break;
    }
    case "span":
      if (clause.start.coords.length === 0)
        lacks(clause, undefined, "from where to where? write span FS 10 .. FS 96");
      if (clause.start.coords.length > 0)
        lacks(clause, clause.end, "a span ends somewhere: write .. and the other end");
      break;
    case "moment":
    case "qty":
    case "budget":
    case "margin":
    case "creep":
    case "ramp":
    case "takeoff":
    case "landing":
    case "zero_fuel":
      lacks(clause, clause.value, `${clause.kind} needs a figure`);
      break;
    case "filled":
      lacks(clause, clause.value, "filled how far? write an amount");
      break;
    case "holds":
      lacks(clause, clause.value, "holds how much?");
      if (clause.value) lacks(clause, clause.of, "of which fluid? write of and its name");
      break;
    case "range":
      lacks(clause, clause.low, "a range has two ends: range 110 lb .. 250 lb");
      if (clause.low)
        lacks(clause, clause.high, "a range has two ends: write .. and the upper one");
      break;
    case "unusable":
      lacks(clause, clause.value, "how much is unusable?");
      break;
    case "growth":
    case "spread":
      if (clause.rates.length === 0)
        lacks(clause, undefined, `${clause.kind} of how much? write a percentage`);
      for (const rate of clause.rates)
        lacks(rate, rate.value, `${clause.kind} of how much? write a percentage`);
      break;
    case "cg":
    case "lateral":
      if (clause.low === undefined && clause.high === undefined)
        lacks(
          clause,
          undefined,
          `${clause.kind} between what? write two limits with .. between them`,
        );
      break;
    case "swing":
      lacks(clause, clause.angle, "swing how far? write an angle such as 84 deg");
      if (clause.angle)
        lacks(
          clause,
          clause.ends ?? clause.at,
          "swing about what? write about FS, BL or WL at a place, or two points in parentheses",
        );
      break;
    case "mac":
      lacks(clause, clause.at, NO_CHORD);
      if (clause.at) lacks(clause, clause.length, "the mean aerodynamic chord needs its length");
      break;
    case "inertia":
      if (clause.terms.length === 0)
        lacks(clause, undefined, "which moments of inertia? write Ixx, Iyy and Izz");
      break;
    case "shape":
      lacks(clause, clause.shape, "which shape? box, cylinder, tube or sphere");
      break;
    case "pn":
    case "rev":
    case "maker":
    case "sn":
    case "levelling":
    case "datum":
    case "note":
      lacks(clause, clause.text, `${clause.kind} needs a text in quotes`);
      break;
    case "kind":
      lacks(clause, clause.value, "which kind? structure, required, optional or consumable");
      break;
    default:
  }
}
