import type { Span, StatementOf } from "../../../grammar/tree";
import { changeChecks, checkOf } from "../../checks";
import type { Finding } from "../../findings";
import { fromDraft } from "../../judge";
import type { Root } from "../../model/root";
import type { RootDifference } from "./difference";
import { pairedAssemblies } from "./sums";

/**
 * What the rules about a change as such find, and what is wrong with the waivers of that. Equal in the
 * design and its airframes it is said once; of airframes alone it names the first.
 * @param found what is said of the head by itself: a waiver that ended is among it
 */
export function findingsOfTheChange(
  roots: readonly RootDifference[],
  found: readonly Finding[],
): readonly Finding[] {
  const ended = new Set(found.filter(it => it.code === "waiver-expired").map(it => it.at));
  const said = new Map<Span, Set<string>>();
  return roots.flatMap(it => {
    if (it.base === undefined || it.head === undefined) return [];
    const [base, head] = [it.base.root, it.head.root];
    const all = withWaivers(base, head, drafted(base, head, it), ended);
    return all
      .filter(({ at, message }) => {
        const there = said.get(at) ?? new Set();
        if (there.has(message)) return false;
        said.set(at, there.add(message));
        return true;
      })
      .map(finding => ofAirframe(finding, it.airframe));
  });
}

function drafted(base: Root, head: Root, { parts }: RootDifference): readonly Finding[] {
  return pairedAssemblies(base, head, parts).flatMap(({ base: was, head: is }) =>
    was && is
      ? changeChecks.flatMap(({ code, change }) =>
          [...change!(was.assembly, is.assembly)].map(it => fromDraft(code, it)),
        )
      : [],
  );
}

const ofAirframe = (finding: Finding, airframe: string | undefined): Finding =>
  airframe === undefined
    ? finding
    : { ...finding, message: `${airframe}: ${finding.message}`, airframes: [airframe] };

/** A waiver is of the change that writes it: one that the base had has done its work. */
function withWaivers(
  base: Root,
  head: Root,
  found: readonly Finding[],
  ended: ReadonlySet<Span>,
): readonly Finding[] {
  const earlier = new Set(base.statements.waives.map(textOf));
  let all = found;
  for (const waive of head.statements.waives) {
    const { code, of, until, why } = waive;
    if (code === undefined || of === undefined || !checkOf(code.text)?.change) continue;
    if (until && ended.has(until)) continue;
    const subject = of.text === head.name ? head.aircraft.path : of.text;
    const isMeant = (it: Finding) => it.code === code.text && it.subject === subject;
    const meant = all.some(isMeant);
    const spent = earlier.has(textOf(waive));
    const unused = (message: string) => [...all, fromDraft("waiver-unused", { at: code, message })];
    if (meant && !spent)
      all = all.map(it => (isMeant(it) ? { ...it, waived: why?.text ?? "" } : it));
    else if (meant)
      all = unused(`this waiver was of an earlier change: this one adds to ${of.text} again`);
    else if (!spent) all = unused(`there is no ${code.text} of ${of.text} to waive`);
  }
  return all;
}

const textOf = ({ line, from, to }: StatementOf<"waive">) => line.text.slice(from, to);
