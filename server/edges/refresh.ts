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

/** Asks at most once for each rest, and only if some answer would be another one now. */
export function refresher(ask: () => void): Refresher {
  const known = new Map<string, Map<string, Told>>();
  let timer: NodeJS.Timeout | undefined;
  const look = () => {
    for (const document of known.values())
      for (const { text, again } of document.values())
        if (JSON.stringify(again()) !== text) {
          ask();
          return;
        }
  };
  return {
    told: (uri, answer, again, what = "") => {
      const document = known.get(uri) ?? new Map<string, Told>();
      known.set(uri, document.set(what, { text: JSON.stringify(answer), again }));
    },
    forget: uri => void known.delete(uri),
    changed: () => {
      clearTimeout(timer);
      if (known.size === 0) return;
      timer = setTimeout(look, REST);
      // waiting for it keeps no server alive
      timer.unref();
    },
  };
}

interface Told {
  readonly text: string;
  readonly again: () => unknown;
}
