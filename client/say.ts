/** Puts values into a text in the reader's language: `l10n.t`, by which a test can do without an editor. */
export type Say = (text: string, ...values: (string | number)[]) => string;
