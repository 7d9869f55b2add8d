import { checkOf } from "../../checks";
import type { Finding } from "../../findings";
import { judge, waivable } from "../../judge";
import { type Asked, docAt, memberOffers } from "./members";
import type { Offer } from "./offer";
import { loadingOffers } from "./stages";

/**
 * The codes a waiver may name, those that are found now first.
 * @param back how much of the code is typed in front of the word under the cursor: `over-`
 */
export function codeOffers(asked: Asked, back: number): readonly Offer[] {
  const found = findings(asked);
  return [...waivable].map((label, i): Offer => {
    const those = new Set(found.flatMap(it => (it.code === label ? it.subject : [])));
    const severity = checkOf(label)?.severity;
    return {
      ...{ label, kind: "code", rank: those.size > 0 ? i : 100 + i, back, doc: { code: label } },
      ...(those.size > 0 && {
        detail: those.size === 1 ? "found once" : `found ${those.size} times`,
      }),
      ...(severity && { title: severity }),
    };
  });
}

/** What a finding of that code is about, each with what it says; then all else that has a path. */
export function subjectOffers(asked: Asked, code: string | undefined): readonly Offer[] {
  const { project, root, base } = asked;
  const start = base.map(it => `${it}.`).join("");
  const subjects = new Map<string, Offer>();
  for (const { code: its, subject, message, at } of findings(asked))
    if (its === code && subject !== undefined) {
      // a requirement is named by its text
      const { why } = root.statements.requires.find(it => it.line === at.line) ?? {};
      const text = why ? why.line.text.slice(why.from, why.to) : subject;
      if (!text.startsWith(start) || subjects.has(text.slice(start.length))) continue;
      const label = text.slice(start.length);
      const doc = docAt(project, at);
      subjects.set(label, {
        ...{ label, kind: "code", rank: subjects.size, title: message },
        ...(doc && { doc }),
      });
    }
  const others = [
    ...memberOffers(asked, () => true),
    ...(base.length === 0 ? loadingOffers(asked, false).filter(it => it.label !== "empty") : []),
  ];
  return [
    ...subjects.values(),
    ...others.filter(it => !subjects.has(it.label)).map(it => ({ ...it, rank: it.rank + 100 })),
  ];
}

/** What a waiver could still accept. */
function findings({ project }: Asked): readonly Finding[] {
  return judge(project).findings.filter(
    it => waivable.has(it.code) && it.waived === undefined && it.subject !== undefined,
  );
}
