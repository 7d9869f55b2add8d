/** The spec of a published example, and where each printed figure is read. */
export interface Case {
  /** Clauses of the aircraft beside `units lb, in, gal`. */
  readonly block?: string;
  readonly spec: string;
  readonly reads: Readonly<Record<string, Reading>>;
  /** Codes the spec must have, and must not. */
  readonly found?: readonly string[];
  readonly notFound?: readonly string[];
}

/**
 * A figure by name, something reckoned from several, or a limit: one loading is inside, the other
 * outside, and both stand within the tolerance of the printed figure.
 */
export type Reading =
  | string
  | ((figure: (name: string) => number) => number)
  | { readonly limit: string; readonly inside: string; readonly outside: string };

export const between = (limit: string, inside: string, outside: string): Reading => ({
  limit: `${inside} takeoff ${limit}|${outside} takeoff ${limit}`,
  inside,
  outside,
});
