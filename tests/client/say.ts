import type { Say } from "../../client/say";

/** Texts as they stand in the source. */
export const say: Say = (text, ...values) =>
  text.replace(/\{(\d)\}/g, (_, at) => String(values[at]));
