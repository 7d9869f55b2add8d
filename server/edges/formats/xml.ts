/** ` key="value"` of each. */
export const attributes = (all: Readonly<Record<string, string | number>>) =>
  Object.entries(all)
    .map(([key, value]) => ` ${key}="${xmlText(`${value}`)}"`)
    .join("");

/** XML 1.0 has no other control characters, not even escaped ones (those from 7f up are left out as well), and no lone surrogates. */
export function xmlText(text: string): string {
  return text
    .replace(/[^\t\n\u0020-\u007e\u00a0-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, "\ufffd")
    .replace(/[&<>"'\t\n]/g, it => entities[it]!)
    .replaceAll("##[", "##&#91;");
}
const entities: Readonly<Record<string, string>> = {
  ...{ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&apos;" },
  // an attribute's own line end would be read as a space
  ...{ "\t": "&#9;", "\n": "&#10;" },
};
