/** What the server is asked: what stands at a position of a document, or a path in its aircraft. */
export interface WhyQuestion {
  readonly uri: string;
  readonly position?: Place;
  readonly path?: string;
}

export interface WhyAnswer {
  /** The aircraft's file, and the path in it. */
  readonly uri: string;
  readonly path: string;
  readonly text: string;
  readonly links: readonly {
    readonly line: number;
    readonly from: number;
    readonly to: number;
    readonly target: Target;
  }[];
}

export interface Target {
  readonly uri: string;
  readonly range: { readonly start: Place; readonly end: Place };
}

interface Place {
  readonly line: number;
  readonly character: number;
}

/** The document that shows an answer: its tab is called by the path, the aircraft's file stands behind. */
export function addressOf({ uri, path }: WhyAnswer) {
  return { scheme: "poise-why", path: `/${path} (why)`, query: uri };
}

/** What to ask for a document again. */
export function questionIn({ path, query }: { path: string; query: string }): WhyQuestion {
  return { uri: query, path: path.slice(1).replace(/ \(why\)$/, "") };
}
