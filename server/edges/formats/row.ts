/** A row as a terminal shows it, and where on it the carets go, in cells. */
export interface Window {
  readonly row: string;
  readonly before: number;
  readonly width: number;
}

/** Of a longer row only what stands around the finding is shown. */
const WIDEST = 160;
const AROUND = 60;

/** @param from @param to what the carets stand under, in UTF-16 units from 0 */
export function windowOf(whole: string, from: number, to: number): Window {
  const first = whole.length <= WIDEST || from < WIDEST - AROUND ? 0 : from - AROUND;
  const last = Math.min(whole.length, first + WIDEST);
  const [left, right] = [first > 0 ? "…" : "", last < whole.length ? "…" : ""];
  const head = left + drawn(whole.slice(first, from));
  const marked = drawn(whole.slice(from, Math.min(to, last)));
  const tail = drawn(whole.slice(Math.min(to, last), last)) + right;
  return { row: head + marked + tail, before: cells(head), width: Math.max(1, cells(marked)) };
}

/** A tab is two cells wide; a control character from a file must not command the terminal. */
export function drawn(text: string): string {
  return text.replaceAll("\t", "  ").replace(CONTROL, "\ufffd");
}
const CONTROL = /[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu;

/** Letters of East Asia and emoji fill two cells; what combines with the letter before fills none. */
function cells(text: string): number {
  let count = 0;
  for (const letter of text) count += /\p{M}|\u200d/u.test(letter) ? 0 : WIDE.test(letter) ? 2 : 1;
  return count;
}
const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60]|\p{Emoji_Presentation}/u;
