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
  return text.replaceAll("\t", "  ").replace(CONTROL, "\ufffd").replaceAll("##[", "##\ufffd");
}
const CONTROL = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu;

/** What GitHub's runner takes for a command at the start of a row, `::error::`, is a name or a title here. */
export function plainRow(row: string): string {
  return row.replace(/^(\s*)::/, "$1\ufffd:");
}

/** Letters of East Asia and emoji fill two cells; what combines with the letter before fills none. */
export function cells(text: string): number {
  let count = 0;
  for (const letter of text) count += /\p{M}|\u200d/u.test(letter) ? 0 : WIDE.test(letter) ? 2 : 1;
  return count;
}
const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60]|\p{Emoji_Presentation}/u;

/** JSON that commands neither the terminal nor the runner it is printed on, and reads back the same. */
export function jsonText(value: unknown, indent?: number): string {
  return JSON.stringify(value, null, indent).replace(LOUD, it =>
    it === "##[" ? "##\\u005b" : `\\u${it.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}
const LOUD = /##\[|[\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;
