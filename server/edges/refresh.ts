/** Has an editor ask again for what an edit elsewhere changed. */
export interface Refresher {
  /** Of a document, or one thing in it: what was answered last, and how to answer the same now. */
  readonly told: (uri: string, answer: unknown, again: () => unknown, what?: string) => void;
  /** The editor asks again by itself, or never will. */
  readonly forget: (uri: string) => void;
  /** The picture is another one. */
  readonly changed: () => void;
}

/** So long after the last key, in ms: what stands elsewhere follows when typing rests. */
const REST = 250;

/** Does something once nothing has happened for a while. Waiting for it keeps no server alive. */
export function whenResting(act: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | number | undefined;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      try {
        act();
      } catch {
        // a fault of ours was told of where it was met: here it may not end the server
      }
    }, REST);
    // in a browser it is a number, and nothing waits
    if (typeof timer === "object") timer.unref();
  };
}

/** Asks at most once for each rest, and only if some answer would be another one now. */
export function refresher(ask: () => void): Refresher {
  const known = new Map<string, Map<string, Told>>();
  const look = whenResting(() => {
    for (const document of known.values())
      for (const { text, again } of document.values())
        if (JSON.stringify(again()) !== text) {
          ask();
          return;
        }
  });
  return {
    told: (uri, answer, again, what = "") => {
      const document = known.get(uri) ?? new Map<string, Told>();
      known.set(uri, document.set(what, { text: JSON.stringify(answer), again }));
    },
    forget: uri => void known.delete(uri),
    changed: () => {
      if (known.size > 0) look();
    },
  };
}

interface Told {
  readonly text: string;
  readonly again: () => unknown;
}
