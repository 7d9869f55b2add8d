import type { Position } from "../../../grammar/source";

/** Something that could stand where the cursor is. */
export interface Offer {
  readonly label: string;
  readonly kind: OfferKind;
  /** Lower ones come first; equal ones by their labels. */
  readonly rank: number;
  /** What is inserted, where it is not the label. */
  readonly text?: string;
  /** With the placeholders of a snippet; `text` is what to insert where the editor has none. */
  readonly snippet?: string;
  /** How many letters in front of the word under the cursor it replaces too. */
  readonly back?: number;
  /** What to match with what is typed, where it is not the label. */
  readonly typedAs?: string;
  /** A figure or a few words behind the label. */
  readonly detail?: string;
  /** What it is called. */
  readonly title?: string;
  /** Where to read more, once it is asked for. */
  readonly doc?: Doc;
}

export type OfferKind =
  | ("keyword" | "unit" | "function" | "value" | "snippet")
  | ("assembly" | "part" | "place" | "side" | "loading" | "stage" | "envelope")
  | ("fluid" | "choice" | "option" | "airframe" | "code");

/** What explains an offer: a word, a function, a finding's code, or where something is declared. */
export type Doc =
  | { readonly word: string }
  | { readonly call: string }
  | { readonly code: string }
  | { readonly path: string; readonly position: Position };
